namespace Cogwright.Drivetrain.Tests;

/// <summary>Springs outboard and springs inboard, side by side, by hand.</summary>
public sealed class CableSenseTests
{
    private static Adjuster Barrel { get; } =
        new()
        {
            Name = "barrel adjuster",
            Moves = Moves.CableLength,
            ThreadPitchMm = 0.8,
        };

    [Fact]
    public void CogAt_NoClick_IsTheCogAtRest()
    {
        Assert.Equal(0, CableSense.CogAt(CoaxialExample.AtRest(false), 0));
        Assert.Equal(7, CableSense.CogAt(CoaxialExample.AtRest(), 0));
        Assert.Equal(6, CableSense.CogAt(CoaxialExample.AtRest(), 1));
    }

    /// <summary>
    /// By hand: 2.8 × 1.7 = 4.76 mm, 0.04 short of 4.8 in each of seven clicks. Springs outboard: the clicks go inboard
    /// and leave the pulley outboard. Springs inboard: they go outboard from the largest cog and leave it inboard.
    /// </summary>
    [Theory]
    [InlineData(false, 0.04, -0.14, -0.14, 0.14)]
    [InlineData(true, -0.04, 0.14, -0.14, 0.14)]
    public void Index_SteadyError_GrowsFromTheCogAtRest(
        bool inboard,
        double steady,
        double best,
        double smallest,
        double largest
    )
    {
        var result = Indexing.Of(CoaxialExample.AtRest(inboard))!;
        Assert.Equal(steady, result.SteadyErrorMm, 9);
        Assert.Equal(best, result.BestOffsetMm, 9);
        Assert.Equal(smallest, result.Cogs[0].ResidualMm, 9);
        Assert.Equal(largest, result.Cogs[^1].ResidualMm, 9);
        Assert.True(result.IsTooLittle(result.SteadyErrorMm));
        // The cog at rest has no click; every other one moves by 4.76 mm.
        Assert.Null((inboard ? result.Cogs[^1] : result.Cogs[0]).ClickMm);
        Assert.Equal(
            7,
            result.Cogs.Count(cog => cog.ClickMm is { } mm && Math.Abs(mm - 4.76) < 1e-9)
        );
        Assert.Equal(0, (inboard ? result.Cogs[^1] : result.Cogs[0]).CumulativeErrorMm);
    }

    /// <summary>Six clicks for eight cogs: the cog farthest from rest is out of reach.</summary>
    [Theory]
    [InlineData(false, 0, 6)]
    [InlineData(true, 1, 7)]
    public void Index_TooFewClicks_MissesTheCogFarthestFromRest(bool inboard, int first, int last)
    {
        var result = Indexing.Of(CoaxialExample.AtRest(inboard, 6))!;
        Assert.Equal(1, result.CogsNotReached);
        Assert.Equal((first, last), (result.Cogs[0].CogIndex, result.Cogs[^1].CogIndex));
    }

    [Fact]
    public void Index_WorstClick_IsNamedFromTheCogItStartsOn()
    {
        var spec = CoaxialExample.AtRest() with
        {
            // The third click, from 23 to 20 teeth, pulls 0.3 mm too little.
            Shifting = new()
            {
                PullMm = [2.8235, 2.8235, 2.5235, 2.8235, 2.8235, 2.8235, 2.8235],
                ShiftRatio = 1.7,
            },
        };
        var result = Indexing.Of(spec)!;
        var to = result.WorstClick!.Value;
        Assert.Equal((23, 20), (spec.Cogs.Teeth[result.ClickFrom(to)], spec.Cogs.Teeth[to]));
        var error = result.Cogs.Single(cog => cog.CogIndex == to).ClickErrorMm!.Value;
        Assert.Equal(-0.51, error, 3);
        Assert.True(result.IsTooLittle(error));
    }

    /// <summary>0.8 mm × 1.7 = 1.36 mm a turn; clockwise slackens, and the springs take the pulley their way.</summary>
    [Theory]
    [InlineData(false, 1.36)]
    [InlineData(true, -1.36)]
    public void Rate_OfTheBarrel_FollowsTheSprings(bool inboard, double expected) =>
        Assert.Equal(
            expected,
            AdjusterRate
                .MmPerTurn(CoaxialExample.AtRest(inboard), Moves.CableLength, Barrel)!
                .Value,
            9
        );

    /// <summary>The pulley was read 0.34 mm outboard of its cog: a quarter turn, anticlockwise (more tension) or clockwise (less).</summary>
    [Theory]
    [InlineData(false, -0.25)]
    [InlineData(true, 0.25)]
    public void Correct_PulleyTooFarOutboard_TurnsTheBarrelBySense(bool inboard, double turns)
    {
        var spec = CoaxialExample.AtRest(inboard);
        var found = AdjusterCorrector.Correct(
            Moves.CableLength,
            AdjusterRate.Resolved(spec, Barrel),
            0.34,
            0,
            AdjusterRate.MmPerTurn(spec, Moves.CableLength, Barrel)
        );
        Assert.Equal(turns, found.Turns, 9);
        Assert.Equal(0, found.ExpectedMm!.Value, 9);
    }

    /// <summary>Nothing known of the barrel's thread: the trial goes the right way too, and what was learnt is no surprise.</summary>
    [Theory]
    [InlineData(false, -0.5)]
    [InlineData(true, 0.5)]
    public void Correct_UnknownThread_TriesTheWayOfTheSprings(bool inboard, double turns)
    {
        var spec = CoaxialExample.AtRest(inboard);
        var barrel = AdjusterRate.Resolved(spec, Barrel with { ThreadPitchMm = null });
        Assert.Equal(
            turns,
            AdjusterCorrector.Correct(Moves.CableLength, barrel, 0.4, 0, null).Turns
        );
        var learnt = AdjusterCorrector.Learn(0.4, inboard ? 0.2 : 0.6, 0.25, 0.01);
        Assert.False(
            AdjusterCorrector.Correct(Moves.CableLength, barrel, 0.4, 0, null, learnt).ActsOtherWay
        );
    }

    [Theory]
    [InlineData(Moves.RearOutboardStop, false)]
    [InlineData(Moves.RearInboardStop, true)]
    [InlineData(Moves.OffsetStep, true)]
    public void Way_OfStopsAndSteps_DoesNotDependOnTheSprings(Moves moves, bool outboard) =>
        Assert.All(
            (bool[])[false, true],
            inboard =>
                Assert.Equal(
                    outboard,
                    AdjusterRate.ClockwiseIsOutboard(CoaxialExample.AtRest(inboard), moves, null)
                )
        );

    [Fact]
    public void Way_StatedByThePart_WinsOverTheSprings() =>
        Assert.True(
            AdjusterRate.ClockwiseIsOutboard(
                CoaxialExample.AtRest(),
                Moves.CableLength,
                Barrel with
                {
                    ClockwiseOutboard = true,
                }
            )
        );

    /// <summary>The pulley lags whichever way it goes: further outboard after coming inboard, on both kinds.</summary>
    [Fact]
    public void Friction_DeadBand_IsPositiveOnBothKinds() =>
        Assert.Equal(0.3, new PulleyReading(3, 0.2, -0.1).DeadBandMm!.Value, 9);
}
