namespace Cogwright.Gearing.Tests;

/// <summary>All gears of a set-up: order, steps, doubles, gaps.</summary>
public class GearLadderTests
{
    private static readonly Tyre RolledOut = Tyre.OfRollOut(2105);

    [Fact]
    public void Gears_OfTwoRings_StandByRatioWithTheirSteps()
    {
        var ladder = GearLadder.Of(new("two", [34, 50], [11, 13, 15, 17]), RolledOut);

        Assert.Equal(
            ["34/17", "34/15", "34/13", "50/17", "34/11", "50/15", "50/13", "50/11"],
            ladder.Gears.Select(gear => gear.Teeth.ToString())
        );
        for (var i = 1; i < ladder.Gears.Length; i++)
        {
            Assert.Equal(
                ladder.Gears[i].Ratio / ladder.Gears[i - 1].Ratio,
                1 + ladder.Gears[i - 1].StepToNext!.Value,
                1e-12
            );
        }
        Assert.Null(ladder.Gears[^1].StepToNext);
        Assert.Equal(50.0 / 11 / (34.0 / 17), ladder.Range, 1e-12);
        // 17 to 15: 17/15 − 1.
        Assert.Equal(0.1333, ladder.Gears[0].StepOnRing!.Value, 0.0001);
    }

    [Fact]
    public void Doubles_AreOfDifferentRingsOnly()
    {
        // 24/12 = 2 and 48/24 = 2; 26/13 = 2 as well.
        var ladder = GearLadder.Of(new("doubles", [24, 48], [12, 24]), RolledOut);

        var pair = Assert.Single(ladder.Doubles);
        Assert.Equal(new(24, 12), pair.Lower);
        Assert.Equal(new(48, 24), pair.Higher);
        Assert.Equal(0, pair.Step);
        Assert.Equal(3, ladder.Distinct);
    }

    [Fact]
    public void Doubles_LeaveOutGearsThatAreNotUsed()
    {
        var ladder = GearLadder.Of(new("doubles", [24, 48], [12, 24], [new(24, 12)]), RolledOut);

        Assert.Empty(ladder.Doubles);
        Assert.Equal(3, ladder.Distinct);
        Assert.False(ladder.Gears.Single(gear => gear.Teeth == new GearTeeth(24, 12)).IsUsed);
    }

    [Fact]
    public void StepToNext_PassesOverGearsThatAreNotUsed()
    {
        var ladder = GearLadder.Of(new("one", [40], [10, 20, 40], [new(40, 20)]), RolledOut);

        Assert.Equal([3.0, 1.0, null], ladder.Gears.Select(gear => gear.StepToNext));
    }

    [Fact]
    public void Gaps_AreStepsOfOneCogAboveTheLimit()
    {
        var ladder = GearLadder.Of(new("gap", [40], [11, 12, 16]), RolledOut);

        var gap = Assert.Single(ladder.Gaps);
        Assert.Equal((16, 12), (gap.Larger, gap.Smaller));
        Assert.Equal(1.0 / 3, gap.Step, 1e-12);
    }

    [Fact]
    public void Development_CarriesTheTyresSpread()
    {
        var gear = GearLadder.Of(new("one", [50], [17]), Tyre.OfSize(25, 622)).Gears[0];

        Assert.True(gear.LeastDevelopmentM < gear.DevelopmentM);
        Assert.True(gear.DevelopmentM < gear.MostDevelopmentM);
        // Published roll-outs of 25-622 are 2105 and 2146 mm.
        Assert.InRange(2.105 * 50 / 17, gear.LeastDevelopmentM, gear.MostDevelopmentM);
        Assert.InRange(2.146 * 50 / 17, gear.LeastDevelopmentM, gear.MostDevelopmentM);
    }

    [Fact]
    public void Gain_NeedsACrank()
    {
        var set = new GearSet("one", [50], [17]);

        Assert.Null(GearLadder.Of(set, RolledOut).Gears[0].Gain);
        Assert.Equal(5.796, GearLadder.Of(set, RolledOut, 170).Gears[0].Gain!.Value, 0.001);
    }

    /// <summary>Source: common practice: on two rings the end gears across are the largest with the largest and the smallest with the smallest.</summary>
    [Fact]
    public void Across_WithoutPositions_IsAtTheEnds()
    {
        var set = new GearSet("two", [34, 50], Enumerable.Range(11, 12));

        Assert.True(set.IsAcross(1, 11));
        Assert.True(set.IsAcross(1, 10));
        Assert.False(set.IsAcross(1, 9));
        Assert.True(set.IsAcross(0, 0));
        Assert.False(set.IsAcross(0, 11));
        Assert.False(new GearSet("one", [40], [11, 12, 13]).IsAcross(0, 0));
    }

    /// <summary>
    /// Source: common practice gives for a chainstay of 410 mm 2.5° from a ring at 43.5 to a cog at 61.4 mm, and 2.9° from a ring
    /// at 40 to a cog at 61 mm.
    /// </summary>
    [Theory]
    [InlineData(43.5, 61.4, 2.5)]
    [InlineData(40, 61, 2.9)]
    public void ChainAngle_CommonPractice_Agrees(double ringMm, double cogMm, double degrees) =>
        Assert.Equal(
            degrees,
            new ChainLine([ringMm], [cogMm], 410).AngleRad(0, 0) * 180 / Math.PI,
            0.05
        );

    [Fact]
    public void Across_WithPositions_GoesByTheAngle()
    {
        // 26 mm over 410 mm: 3.6°; 18 mm: 2.5°.
        var set = new GearSet("two", [34, 50], [11, 34], null, new([39, 46], [61, 20], 410));

        Assert.True(set.IsAcross(1, 1));
        Assert.False(set.IsAcross(1, 0));
        Assert.True(set.IsAcross(0, 0));
    }

    [Fact]
    public void Set_ThatCannotBe_SaysWhat()
    {
        Assert.Equal("rings", Refused(() => new("x", [], [11])).Input);
        Assert.Equal("cogs", Refused(() => new("x", [34], [])).Input);
        Assert.Contains(
            "4 teeth",
            Refused(() => new("x", [34], [4])).Message,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "twice",
            Refused(() => new("x", [34], [11, 11])).Message,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "at most 4",
            Refused(() => new("x", [20, 24, 28, 32, 36], [11])).Message,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "50/99",
            Refused(() => new("x", [50], [11], [new(50, 99)])).Message,
            StringComparison.Ordinal
        );
        Assert.Equal("gearsNotUsed", Refused(() => new("x", [50], [11], [new(50, 11)])).Input);
        Assert.Equal(
            "chainLine",
            Refused(() => new("x", [50], [11], null, new([40, 50], [60], 410))).Input
        );
        Assert.Equal(
            "chainLine",
            Refused(() => new("x", [50], [11], null, new([double.NaN], [60], 410))).Input
        );
        Assert.Equal(
            "doubles",
            Assert
                .Throws<ImpossibleInputException>(() =>
                    GearLadder.Of(new("x", [50], [11]), RolledOut, null, double.NaN)
                )
                .Input
        );
    }

    private static ImpossibleInputException Refused(Func<GearSet> make) =>
        Assert.Throws<ImpossibleInputException>(make);
}
