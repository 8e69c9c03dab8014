namespace Cogwright.Drivetrain.Tests;

/// <summary>A gap to the next larger cog in words that a mechanic can picture.</summary>
public class FindingWordsTests
{
    private static Finding Next(int cog, double mm, bool notUsed = false) =>
        new(new(34, cog), FindingKind.GapToNextBelowLeast, mm, 3, notUsed);

    [Theory]
    [InlineData(-10.9, "overlaps the teeth of the next larger cog by 10.9 mm, seen from the side")]
    [InlineData(2.4, "passes the next larger cog at 2.4 mm")]
    public void GapToNext_OnEitherSideOfNothing_IsNeverANegativeDistance(double mm, string words)
    {
        var what = Explanation.Of(Next(17, mm)).What;
        Assert.Contains(words, what, StringComparison.Ordinal);
        Assert.DoesNotContain("-", what, StringComparison.Ordinal);
    }

    [Fact]
    public void Findings_ManyGearsTooNearTheNextCog_AreOneLineWithTheWorst()
    {
        Finding[] findings =
        [
            Next(15, -1),
            new(new(34, 17), FindingKind.GapBelowLeast, 2, 3, false),
            Next(17, -10.9),
            Next(19, 2),
            Next(21, 1, notUsed: true),
        ];
        var told = Explanation.Of(findings, finding => Explanation.Of(finding)).ToList();
        Assert.Equal(3, told.Count);
        Assert.Contains("In 3 gears", told[0].Words.What, StringComparison.Ordinal);
        Assert.Contains("34/17", told[0].Words.What, StringComparison.Ordinal);
        Assert.Contains("10.9 mm", told[0].Words.What, StringComparison.Ordinal);
        Assert.Contains("34/21", told[2].Words.What, StringComparison.Ordinal);
        Assert.True(told[2].First.NotUsed);
    }
}
