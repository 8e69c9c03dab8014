using static Cogwright.Drivetrain.Tests.Example;

namespace Cogwright.Drivetrain.Tests;

public class StopReachTests
{
    private static DrivetrainSpec WithStops(double outboardMm, double inboardMm)
    {
        var d = Spec.RearDerailleur!;
        return Spec with
        {
            RearDerailleur = d with
            {
                OutboardStopRad = Swing(outboardMm),
                InboardStopRad = Swing(inboardMm),
            },
        };

        double? Swing(double lateral) =>
            StopReach.SwingRadAt(d.GuideLateralAtZeroMm, d.LinkLengthMm, d.SlantRad, lateral);
    }

    [Theory]
    [InlineData(64.3, 24.7, 0, 0)]
    [InlineData(65.1, 23.5, 0.8, 1.2)]
    [InlineData(64.0, 25.0, -0.3, -0.3)]
    public void StopReach_ByLateral_OvershootsByTheDifference(
        double outboard,
        double inboard,
        double overOut,
        double overIn
    )
    {
        var spec = WithStops(outboard, inboard);
        var (o, i) = (
            StopReach.Of(spec, RearStop.Outboard)!,
            StopReach.Of(spec, RearStop.Inboard)!
        );
        Assert.Equal(outboard, o.GuideLateralMm, 1e-9);
        Assert.Equal(inboard, i.GuideLateralMm, 1e-9);
        Assert.Equal(overOut, o.OvershootMm, 1e-9);
        Assert.Equal(overIn, i.OvershootMm, 1e-9);
        Assert.Equal((11, 34), (o.CogTeeth, i.CogTeeth));
    }

    /// <summary>What the solver calls out of reach and what the stop's own reach says are the same millimetres.</summary>
    [Fact]
    public void StopReach_StopBeforeTheCog_IsTheSolversShortfall()
    {
        var spec = WithStops(64.3, 26.2);
        var gear = GearTableSolver.Solve(spec, 110).Find(new(34, 34))!.Value;
        Assert.Equal(Blame.InboardStop, gear.Blame);
        Assert.Equal(-StopReach.Of(spec, RearStop.Inboard)!.OvershootMm, gear.ShortfallMm, 1e-9);
    }

    [Fact]
    public void StopReach_SwingOfTheWorkedExample_StandsUnderItsCog()
    {
        var gear = GearTableSolver.Solve(Spec, 110).Find(new(50, 17))!.Value;
        Assert.Equal(
            Spec.Cogs.LateralMm(5),
            StopReach.GuideLateralMmAt(Spec.RearDerailleur!, gear.SwingRad),
            1e-9
        );
    }

    [Fact]
    public void StopReach_NotGiven_IsNotKnown()
    {
        Assert.Null(StopReach.Of(Spec, RearStop.Inboard));
        Assert.Null(StopReach.SwingRadAt(44.5, 57.8, Rad(52), 5));
    }

    [Theory]
    [InlineData(1.4, false)]
    [InlineData(1.6, true)]
    public void StopReach_BeyondTheCog_IsLooseFromItsLimitOn(double overshoot, bool loose)
    {
        var stop = StopReach.Of(WithStops(64.3, 24.7 - overshoot), RearStop.Inboard)!;
        Assert.Equal(loose, stop.IsLoose);
        Assert.Equal(
            loose,
            LateralWords.Of(stop).WhatToDo.StartsWith("LOOSE", StringComparison.Ordinal)
        );
    }
}
