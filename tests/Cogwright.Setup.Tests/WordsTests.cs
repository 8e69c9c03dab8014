using System.Text.RegularExpressions;

namespace Cogwright.Setup.Tests;

/// <summary>What every sentence must be like, on every kind of bike.</summary>
public sealed partial class WordsTests
{
    private static IEnumerable<Target> Everything =>
        Bikes.All.SelectMany(bike => Bikes.Targets(bike.Spec, bike.Work));

    // ANSI Z535.6 practice: signal word, then nature of the hazard, consequence, avoidance.
    [Fact]
    public void Caution_Always_HasSignalWordHazardConsequenceAndAvoidance() =>
        Assert.All(
            Everything.Select(t => t.Caution).OfType<string>().Distinct(),
            caution => Assert.Matches(SignalWordAndThreeParts(), caution)
        );

    // ANSI Z535.6: WARNING for death or serious injury, never for damage to property alone.
    [Fact]
    public void Caution_Notice_NamesNoInjury() =>
        Assert.All(
            Everything
                .Select(t => t.Caution)
                .OfType<string>()
                .Where(c => c.StartsWith("NOTICE", StringComparison.Ordinal)),
            caution => Assert.DoesNotMatch("fall|kill|hurt|finger|blind", caution)
        );

    [Theory]
    [InlineData("chain-cut", "eye protection")]
    [InlineData(
        "inboard-stop-proven",
        "(before (the stop|its limit) is proven|Prove this stop before)"
    )]
    [InlineData("gap", "fingers, rags and gloves")]
    [InlineData("index-cogs", "fingers, rags and gloves")]
    [InlineData("stand-test", "fingers, rags and gloves")]
    [InlineData("battery-out", "Take the battery out")]
    public void Caution_WhereTheWorkCanHurt_StandsThere(string id, string words)
    {
        var targets = Everything.Where(t => t.Id == id).ToArray();
        Assert.NotEmpty(targets);
        Assert.All(targets, t => Assert.Matches(words, t.Caution));
    }

    [Fact]
    public void Caution_MotorDrivenFront_ForbidsTheStopScrewWhileInboard()
    {
        var motor = Bikes.Targets(Bikes.Double, Bikes.MotorDouble);
        var stop = motor.Single(t => t.Id == TargetNames.FrontOuterGap);
        Assert.Contains("inboard", stop.Caution, StringComparison.Ordinal);
        var cable = Bikes.Targets(Bikes.Double, Bikes.CableDouble);
        Assert.Null(cable.Single(t => t.Id == TargetNames.FrontOuterGap).Caution);
    }

    // A line of paper at the stand holds about fifty letters; half of one where it stands beside a heading.
    [Fact]
    public void ShortForms_Always_FitALineOfPaper() =>
        Assert.All(
            // The chain box says these two in figures.
            Everything.Where(t => t.Id is not (TargetNames.DirectPath or TargetNames.ChainPitches)),
            t =>
            {
                Assert.InRange((t.TitleInShort ?? t.Title).Length, 1, 52);
                Assert.InRange((t.ConventionInShort ?? t.Convention).Length, 0, 62);
                Assert.InRange((t.CautionInShort ?? "").Length, t.Caution is null ? 0 : 8, 60);
            }
        );

    [Fact]
    public void CautionInShort_Always_IsOneWholeSentenceOfItsOwn()
    {
        var cautions = Everything
            .Where(t => t.Caution is not null)
            .Select(t => (t.Caution, t.CautionInShort))
            .Distinct()
            .ToArray();
        Assert.All(cautions, c => Assert.EndsWith(".", c.CautionInShort, StringComparison.Ordinal));
        Assert.All(
            cautions,
            c => Assert.DoesNotContain("…", c.CautionInShort, StringComparison.Ordinal)
        );
        Assert.Equal(cautions.Length, cautions.Select(c => c.Caution).Distinct().Count());
        Assert.Equal(cautions.Length, cautions.Select(c => c.CautionInShort).Distinct().Count());
    }

    [Fact]
    public void Sentences_Always_SayPitchesNeverBareLinks() =>
        Assert.All(
            Everything.SelectMany(t => new[] { t.Title, t.Note, t.Convention }).OfType<string>(),
            words => Assert.DoesNotMatch(@"\d+ links", words)
        );

    [Fact]
    public void Sentences_Always_AreFilled() =>
        Assert.All(
            Everything.SelectMany(t =>
                new[]
                {
                    t.Title,
                    t.TitleInShort,
                    t.Note,
                    t.Convention,
                    t.ConventionInShort,
                    t.Tool,
                    t.Caution,
                    t.CautionInShort,
                }
            ),
            words => Assert.DoesNotMatch(@"\{\d|NaN|∞|  ", words ?? "")
        );

    [Fact]
    public void Numbers_Always_StandInTheirBandWithUnitAndConvention() =>
        Assert.All(
            Everything.Where(t => t.Lower is not null || t.Upper is not null),
            t =>
            {
                Assert.NotEmpty(t.Unit);
                Assert.NotEmpty(t.Convention);
                Assert.True(t.Lower <= t.Upper);
                Assert.True(t.Value is null || (t.Lower <= t.Value && t.Value <= t.Upper));
            }
        );

    [GeneratedRegex(@"^(DANGER|WARNING|CAUTION|NOTICE): [^.;]+[.;]? .+\. .+\.$")]
    private static partial Regex SignalWordAndThreeParts();
}
