using Cogwright.Parts.Rules;
using static Cogwright.Parts.Tests.Invented;

namespace Cogwright.Parts.Tests;

/// <summary>What the rules say, one thing changed at a time.</summary>
public sealed class RuleTests
{
    private static Build Whole => new(Frame, Wheel, Cassette, Rings, Derailleur, Shifter);

    [Fact]
    public void Report_PartsThatBelongTogether_NeverSaysNo() =>
        Assert.DoesNotContain(
            CompatibilityReport.Of(Whole, null).Answers,
            answer => answer.Answer == Compatibility.No
        );

    [Fact]
    public void Report_AnyBuild_WorstFirst()
    {
        var report = CompatibilityReport.Of(
            Whole
                .With(Wheel.With(PartFields.HubSpacing, Number(135)))
                .With(Derailleur.With(PartFields.Capacity, null)),
            null
        );

        Assert.Equal("hub-spacing", report.Answers[0].RuleId);
        Assert.Equal(Compatibility.No, report.Overall);
        Assert.Equal(report.Answers.OrderBy(a => a.Answer), report.Answers);
    }

    [Fact]
    public void Tag_Unknown_SaysWhatToLookUp()
    {
        var answer = Whole.With(Wheel.With(PartFields.HubDriver, null)).Asked("hub-driver");

        Assert.Equal(Compatibility.CannotSay, answer.Answer);
        Assert.Contains("hub driver", answer.Sentence, StringComparison.Ordinal);
        Assert.Contains("the wheel", answer.Sentence, StringComparison.Ordinal);
        Assert.NotEmpty(answer.WhatToDo);
    }

    [Fact]
    public void Tag_OtherInterface_NoUntilAnAdapterLeadsThere()
    {
        var other = Whole.With(Cassette.With(PartFields.HubDriver, Tag("spline-b")));
        var adapter = Of(PartKind.Adapter, "spacer")
            .With(PartFields.Joins, Tag("hubDriver"))
            .With(PartFields.From, Tag("spline-a"))
            .With(PartFields.To, Tag("spline-b"));

        Assert.Equal(Compatibility.No, other.Asked("hub-driver").Answer);
        var with = other.With(adapter).Asked("hub-driver");
        Assert.Equal(Compatibility.YesWith, with.Answer);
        Assert.Contains("the spacer", with.WhatToDo, StringComparison.Ordinal);
        // The other way round it leads nowhere.
        Assert.Equal(
            Compatibility.No,
            other
                .With(
                    adapter
                        .With(PartFields.From, Tag("spline-b"))
                        .With(PartFields.To, Tag("spline-a"))
                )
                .Asked("hub-driver")
                .Answer
        );
    }

    [Fact]
    public void DerailleurMount_WithHanger_TheHangerCounts()
    {
        var hanger = Of(PartKind.Hanger, "long tab").With(PartFields.DerailleurMount, Tag("long"));

        Assert.Equal(Compatibility.Yes, Whole.Asked("derailleur-mount").Answer);
        Assert.Equal(Compatibility.No, Whole.With(hanger).Asked("derailleur-mount").Answer);
    }

    [Theory]
    [InlineData(null, null, "yes")]
    [InlineData("family", null, "no")]
    [InlineData(null, "family", "no")]
    [InlineData("family", "other", "no")]
    [InlineData("family", "family", "yes")]
    public void RearActuation_CableAndFamilies_OnlyLikeWithLike(
        string? shifter,
        string? derailleur,
        string expected
    )
    {
        var build = Whole
            .With(Motor(Shifter, shifter, "second"))
            .With(Motor(Derailleur, derailleur, "second", "third"));

        Assert.Equal(
            expected == "yes" ? Compatibility.Yes : Compatibility.No,
            build.Asked("rear-actuation").Answer
        );
    }

    [Fact]
    public void RearActuation_NoGenerationInCommon_No()
    {
        var build = Whole
            .With(Motor(Shifter, "family", "first"))
            .With(Motor(Derailleur, "family", "second"));

        Assert.Equal(Compatibility.No, build.Asked("rear-actuation").Answer);
    }

    [Theory]
    [InlineData(11, Compatibility.Yes)]
    [InlineData(12, Compatibility.YesWith)]
    [InlineData(10, Compatibility.No)]
    public void ChainSpeeds_MoreRunsOnFewer_NotTheOtherWayRound(
        int speeds,
        Compatibility expected
    ) =>
        Assert.Equal(
            expected,
            Whole
                .With(Of(PartKind.Chain, "chain").With(PartFields.Speeds, Number(speeds)))
                .Asked("chain-speeds")
                .Answer
        );

    [Fact]
    public void Index_CogsOrClicksUnknown_CannotSay()
    {
        Assert.Equal(
            Compatibility.CannotSay,
            Whole.With(Cassette.With(PartFields.Teeth, null)).Asked("index").Answer
        );
        Assert.Equal(
            Compatibility.CannotSay,
            Whole.With(Shifter.With(PartFields.Pull, Numbers(2.7, 2.7))).Asked("index").Answer
        );
    }

    /// <summary>Nobody can say where the cable of a motor comes from.</summary>
    [Fact]
    public void FrontCable_MotorDriven_IsNotAskedFor()
    {
        var front = Motor(Of(PartKind.FrontDerailleur, "front"), "family", "second");
        var shifter = Motor(Of(PartKind.FrontShifter, "front shifter"), "family", "second");

        var asked = CompatibilityReport
            .Of(Whole.With(front).With(shifter), null)
            .Answers.Select(answer => answer.RuleId);

        Assert.DoesNotContain("front-pull", asked);
        Assert.DoesNotContain("front-cable-pull", asked);
        Assert.Contains("front-actuation", asked);
    }

    [Fact]
    public void Ground_OfTheSamePartsUnderAnotherName_IsTheSame()
    {
        var other = Whole.With(Cassette with { Name = "the same, renamed" });

        Assert.Equal(Whole.Asked("hub-driver").Ground, other.Asked("hub-driver").Ground);
        Assert.NotEqual(
            Whole.Asked("hub-driver").Ground,
            Whole
                .With(Cassette.With(PartFields.HubDriver, Tag("spline-b")))
                .Asked("hub-driver")
                .Ground
        );
    }

    /// <summary>The search asks a rule when the last of its kinds is chosen: it may look at no other.</summary>
    [Fact]
    public void Catalogue_EveryRule_LooksAtNoKindBeyondItsOwn() =>
        Assert.All(
            RuleCatalogue.All,
            rule =>
            {
                var all = PartKinds
                    .All.Where(kind => kind != PartKind.Adapter)
                    .Select(kind => Of(kind, kind.ToString()))
                    .ToList();
                var own = new Build(all.Where(part => rule.Kinds.Contains(part.Kind)));

                Assert.Equal(rule.Asks(new Build(all).Places), rule.Asks(own.Places));
            }
        );

    /// <summary>A stop may leave two positions unused; a whole cassette less is another bike (from memory).</summary>
    [Theory]
    [InlineData(10, Compatibility.No)]
    [InlineData(11, Compatibility.Yes)]
    [InlineData(13, Compatibility.YesWith)]
    [InlineData(14, Compatibility.No)]
    public void ShifterClicks_FewerNever_AFewMoreWithTheStop(int speeds, Compatibility expected) =>
        Assert.Equal(
            expected,
            Whole
                .With(Shifter.With(PartFields.Speeds, Number(speeds)))
                .Asked("shifter-clicks")
                .Answer
        );

    /// <summary>A motor has no positions to leave over: it goes to the places of as many cogs as it is made for (from memory).</summary>
    [Theory]
    [InlineData(10, Compatibility.No)]
    [InlineData(11, Compatibility.Yes)]
    [InlineData(12, Compatibility.No)]
    public void MotorPlaces_AsManyAsCogs_AndNoOther(int speeds, Compatibility expected)
    {
        var build = Whole
            .With(Motor(Shifter, "one", "a").With(PartFields.Speeds, Number(speeds)))
            .With(Motor(Derailleur, "one", "a"));

        Assert.Equal(expected, build.Asked("motor-places").Answer);
        var rules = CompatibilityReport.Of(build, null).Answers.Select(answer => answer.RuleId);
        Assert.DoesNotContain("shifter-clicks", rules);
        Assert.DoesNotContain(
            "motor-places",
            CompatibilityReport.Of(Whole, null).Answers.Select(answer => answer.RuleId)
        );
    }

    [Fact]
    public void Capacity_ExchangeableCage_TheCageCounts()
    {
        var cage = Of(PartKind.Cage, "short cage").With(PartFields.Capacity, Number(30));

        Assert.Equal(Compatibility.No, Whole.With(cage).Asked("capacity").Answer);
    }

    [Fact]
    public void Deviation_OnItsGround_Accepts_AndOnAnotherNoLonger()
    {
        var tooLarge = Whole.With(Derailleur.With(PartFields.LargestCog, Number(32)));
        var ground = tooLarge.Asked("largest-cog").Ground;
        var deviation = new Deviation("largest-cog", ground, "tried on the stand", "head mechanic");

        var accepted = CompatibilityReport.Of(tooLarge, null, deviation);
        Assert.Equal(deviation, accepted.Answers.Single(a => a.RuleId == "largest-cog").Accepted);
        Assert.Empty(accepted.Outdated);

        var larger = tooLarge.With(
            Cassette.With(PartFields.Teeth, Numbers(11, 12, 13, 14, 15, 17, 19, 21, 24, 28, 36))
        );
        var after = CompatibilityReport.Of(larger, null, deviation);
        Assert.Null(after.Answers.Single(a => a.RuleId == "largest-cog").Accepted);
        Assert.Equal([deviation], after.Outdated);
    }

    [Fact]
    public void Catalogue_EveryRule_HasTitleAndSource()
    {
        Assert.Equal(
            RuleCatalogue.All.Length,
            RuleCatalogue.All.Select(rule => rule.Id).Distinct().Count()
        );
        Assert.All(
            RuleCatalogue.All,
            rule =>
            {
                Assert.NotEmpty(Texts.Get($"rule.{rule.Id}"));
                Assert.NotEmpty(Texts.Get($"rule.{rule.Id}.source"));
            }
        );
    }

    [Fact]
    public void Fields_EveryOne_HasATitleAndAKind() =>
        Assert.All(
            PartFields.All,
            field =>
            {
                Assert.NotEmpty(field.Title);
                Assert.NotEmpty(field.Kinds);
                Assert.Same(field, PartFields.Find(field.Name));
            }
        );

    private static Part Motor(Part part, string? family, params string[] generations) =>
        family is null
            ? part
            : part.With(PartFields.Protocol, Tag(family))
                .With(PartFields.Generations, Tag(generations));
}
