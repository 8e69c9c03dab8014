namespace Cogwright.Drivetrain.Tests;

/// <summary>The model's worked example with a front derailleur, and a bike symmetric enough to reckon by hand.</summary>
internal static class FrontExample
{
    internal static FrontDerailleur Front { get; } =
        new()
        {
            RearXMm = -95,
            FrontXMm = 0,
            InnerPlate = new(-8.5, -6, 1),
            OuterPlate = new(6, 6, 1),
            LinkLengthMm = 30,
            LinkAngleRad = Example.Rad(-80),
            HeightMm = 1.5,
            BridgeBelowMm = 40,
        };

    internal static DrivetrainSpec Spec { get; } = Example.Spec with { FrontDerailleur = Front };

    /// <summary>
    /// No drop, cogs of the rings' own teeth, so that the runs to them are level and as long as the chainstay: at
    /// 95 mm behind the bottom bracket the chain has gone 95/400 of its way sideways.
    /// </summary>
    internal static DrivetrainSpec Level { get; } =
        Spec with
        {
            Frame = new() { ChainstayMm = 400, BottomBracketDropMm = 0 },
            Rings = [new(46, 46), new(36, 40)],
            Cogs = new()
            {
                Teeth = [36, 46],
                SmallestLateralMm = 56,
                SpacingMm = 8,
            },
            FrontDerailleur = Front with { OutboardStopMm = 48, InboardStopMm = 42 },
        };

    internal static GearTable Table(DrivetrainSpec spec) =>
        GearTableSolver.Solve(spec, spec.Chain.Pitches ?? 110);

    /// <summary>Only rings, cogs and reach matter to the front: a table without a solved rear, for bikes that no rear derailleur serves.</summary>
    internal static GearTable Bare(DrivetrainSpec spec) =>
        new(
            spec,
            110,
            0,
            [
                .. spec.Rings.SelectMany(
                    (ring, r) =>
                        spec.Cogs.Teeth.Select(
                            (cog, c) =>
                                new GearResult
                                {
                                    Gear = new(ring.Teeth, cog),
                                    RingIndex = r,
                                    CogIndex = c,
                                    State = GearState.Ok,
                                }
                        )
                ),
            ]
        );

    internal static FrontReport Of(DrivetrainSpec spec) => FrontClearances.Of(Bare(spec))!;
}
