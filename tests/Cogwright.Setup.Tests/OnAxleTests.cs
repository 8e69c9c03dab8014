using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;
using Cogwright.Fastening;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Tests;

/// <summary>The order of work, targets and corrections of a derailleur on the axle.</summary>
public sealed class OnAxleTests
{
    private static readonly WorkSpec Work = new() { Actuation = Actuation.MotorWireless };

    private static readonly DrivetrainSpec Bike = CoaxialExample.Spec with { Chain = new() };

    private static List<string> Ids(WorkSpec work) =>
        [.. Bikes.Targets(Bike, work).Select(target => target.Id)];

    // Common practice: chain length and set-up cog before the mark, the mark before the axle's torque.
    [Theory]
    [InlineData("wheel-seated", "set-up-mark")]
    [InlineData("axle-interface", "body-on-axle")]
    [InlineData("body-on-axle", "chain-cut")]
    [InlineData("chain-closed", "set-up-cog")]
    [InlineData("tighten-rearAxle", "chain-joined")]
    [InlineData("chain-joined", "index-offset")]
    [InlineData("chain-pitches", "set-up-mark")]
    [InlineData("pairing", "set-up-cog")]
    [InlineData("set-up-cog", "set-up-mark")]
    [InlineData("set-up-mark", "tighten-rearAxle")]
    [InlineData("tighten-rearAxle", "set-up-holds")]
    [InlineData("set-up-holds", "index-offset")]
    [InlineData("index-cogs", "inboard-stop-proven")]
    [InlineData("inboard-stop-proven", "first-shift-largest")]
    [InlineData("first-shift-largest", "gap")]
    [InlineData("gap", "inboard-stop-again")]
    [InlineData("inboard-stop-again", "loaded-test")]
    public void Targets_OnTheAxle_KeepTheirOrder(string before, string after)
    {
        var ids = Ids(Work);
        Assert.Contains(before, ids);
        Assert.Contains(after, ids);
        Assert.True(ids.IndexOf(before) < ids.IndexOf(after));
        Assert.Equal(ids.Distinct(), ids);
    }

    [Fact]
    public void Targets_OnTheAxle_NameNoHangerNoStopScrewsNoMountingBolt()
    {
        var ids = Ids(Work);
        Assert.Empty(
            ids.Intersect([
                "hanger-thread",
                "hanger-straight",
                "tighten-hangerScrews",
                "torque-hangerScrews",
                "body-tab",
                "rough-stops",
                "outboard-stop",
                "tighten-rearMount",
                "torque-rearMount",
            ])
        );
    }

    [Theory]
    [InlineData(Actuation.MotorWireless)]
    [InlineData(Actuation.MotorWired)]
    [InlineData(Actuation.Cable)]
    public void Worksheet_OnTheAxle_HasNoWordOfHangerStopsOrGapScrew(Actuation actuation)
    {
        var spec = actuation is Actuation.Cable ? Bike with { Shifting = null } : Bike;
        var content = WorksheetContent.Make(Bikes.Catalogue(spec), new() { Actuation = actuation });
        Assert.Null(content.Turns);
        IEnumerable<string?> words =
        [
            .. content.Cautions,
            .. content.CautionsInShort,
            .. content.Stages.SelectMany(stage =>
                (IEnumerable<string?>)
                    [
                        stage.Title,
                        .. stage.Cautions,
                        .. stage.CautionsInShort,
                        .. stage.Targets.SelectMany(t =>
                            (string?[])
                                [
                                    t.Title,
                                    t.TitleInShort,
                                    t.Convention,
                                    t.ConventionInShort,
                                    t.Note,
                                    t.Tool,
                                ]
                        ),
                    ]
            ),
            .. content.Chain.Lines,
            .. content.GearsNotToUse.Select(gear => gear.Reason),
        ];
        foreach (var word in words.OfType<string>())
        {
            foreach (
                var wrong in (string[])
                    [
                        "hanger",
                        "stop screw",
                        "inboard stop",
                        "outboard stop",
                        "both stops",
                        "body-angle screw",
                        "gap screw",
                        "screw as in the spec",
                        "mounting bolt",
                    ]
            )
            {
                // "There is no hanger" says why; it is the one that may stand.
                Assert.DoesNotContain(
                    wrong,
                    word.Replace("There is no hanger to bend", "", StringComparison.Ordinal),
                    StringComparison.OrdinalIgnoreCase
                );
            }
        }
    }

    [Fact]
    public void Gap_WithoutAFigureOfThePart_IsWhatTheMarkGives()
    {
        var catalogue = Bikes.Catalogue(Bike);
        var gap = TargetList.Make(catalogue, Work).Single(t => t.Id == TargetNames.Gap);
        Assert.Equal((32, 21), gap.Gear);
        Assert.Equal(catalogue.Find(QuantityNames.Gap, (32, 21))!.Value, gap.Value!.Value, 9);
        Assert.Equal(2, gap.Upper!.Value - gap.Lower!.Value, 9);
        Assert.Contains("set the cage to its mark again", gap.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Reading_GapOffOnTheSetUpCog_SaysToSetAgain()
    {
        var catalogue = Bikes.Catalogue(Bike);
        var targets = TargetList.Make(catalogue, Work);
        var wanted = targets.Single(t => t.Id == TargetNames.Gap).Value!.Value;
        var result = ReadingReview
            .Judge(catalogue, targets, Work, [new("gap", (32, 21), new(wanted - 3, 0.2))])
            .Single();
        Assert.Equal(GapAdviceKind.SetAgain, result.Correction!.Kind);
        Assert.Equal(wanted, result.Correction.ExpectedMm!.Value, 9);
        Assert.True(result.Correction.SetUp!.CageOffMarkDeg < 0);
        Assert.Contains(result.ToDo, s => s.Contains("Loosen the axle", StringComparison.Ordinal));
        Assert.NotEmpty(result.After);
        Assert.Equal(0, result.Correction.Turns);
    }

    [Fact]
    public void Reading_WithinOnTheSetUpCog_LeavesTheAxle()
    {
        var catalogue = Bikes.Catalogue(Bike);
        var targets = TargetList.Make(catalogue, Work);
        var wanted = targets.Single(t => t.Id == TargetNames.Gap).Value!.Value;
        var result = ReadingReview
            .Judge(catalogue, targets, Work, [new("gap", (32, 21), new(wanted, 0.1))])
            .Single();
        Assert.Equal(["The gap is within: leave the axle as it is."], result.ToDo);
    }

    [Fact]
    public void Readings_OfHangerAndStops_AreRefusedWithTheReason()
    {
        var catalogue = Bikes.Catalogue(Bike);
        var targets = TargetList.Make(catalogue, Work);
        var hanger = HangerReview.Judge(
            catalogue,
            targets,
            [new("hanger-12", null, new(1, 0.1)), new("hanger-6", null, new(1, 0.1))]
        )!;
        Assert.Null(hanger.Judgement);
        Assert.Contains("clamped on the axle", hanger.Questions.Single(), StringComparison.Ordinal);
        var stop = ReadingReview
            .Judge(catalogue, targets, Work, [new("inboard-overshoot", null, new(1, 0.1))])
            .Single();
        Assert.Equal(ReadingStatus.Asked, stop.Status);
        Assert.Contains("no stop screws", stop.Questions.Single(), StringComparison.Ordinal);
    }

    [Fact]
    public void SetUp_ChainThatCannotBeSet_IsToldWhereItWouldBeDone()
    {
        var spec = CoaxialExample.Spec with { Chain = new() { Pitches = 140 } };
        var mark = Bikes.Targets(spec, Work).Single(t => t.Id == "set-up-mark");
        Assert.Contains("too long for the mark", mark.Note, StringComparison.Ordinal);
        Assert.Contains("Take pitches out", mark.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Torques_OnTheAxle_TakeTheFigureOfTheAxleThatClamps()
    {
        var axle = Bikes.Targets(Bike, Work).Single(t => t.Id == "tighten-rearAxle");
        // Common practice: 35 N·m in the one family that hands a figure on.
        Assert.InRange(35, axle.Lower!.Value, axle.Upper!.Value);
        Assert.Contains(
            WorkCheck.Problems(
                Bikes.Catalogue(Bike),
                Work with
                {
                    Torques = [new(Fasteners.HangerScrews, 1, 2)],
                }
            ),
            p => p.Path == "torques.hangerScrews"
        );
    }
}
