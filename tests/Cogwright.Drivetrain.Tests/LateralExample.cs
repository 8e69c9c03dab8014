namespace Cogwright.Drivetrain.Tests;

/// <summary>The worked example with a rear wheel, a cage and a frame sideways.</summary>
internal static class LateralExample
{
    internal static SpokeData Wheel { get; } =
        new()
        {
            FlangeLateralMm = 17,
            FlangeRadiusMm = 22,
            RimLateralMm = 0,
            RimRadiusMm = 300,
        };

    internal static LateralData Data { get; } =
        new()
        {
            Spokes = Wheel,
            CageInnerFaceMm = 4.5,
            DropoutFaceMm = 68,
            ChainWidthMm = 5.3,
        };

    /// <summary>The worked example with those figures and its inboard stop so far beyond the largest cog (mm).</summary>
    internal static DrivetrainSpec With(LateralData? data, double? overshootMm = 1)
    {
        var spec = Example.Spec with { Lateral = data };
        var derailleur = spec.RearDerailleur!;
        return overshootMm is not { } beyond
            ? spec
            : spec with
            {
                RearDerailleur = derailleur with
                {
                    InboardStopRad = StopReach.SwingRadAt(
                        derailleur.GuideLateralAtZeroMm,
                        derailleur.LinkLengthMm,
                        derailleur.SlantRad,
                        spec.Cogs.LateralMm(11) - beyond
                    ),
                },
            };
    }

    internal static ClearanceReport Report(
        LateralData? data,
        double? overshootMm = 1,
        HangerTilt? tilt = null,
        Knock? knock = null
    ) => SpokeClearance.Of(GearTableSolver.Solve(With(data, overshootMm), 110), tilt, knock);

    internal static double Room(this ClearanceReport report, ClearanceKind kind) =>
        report.Find(kind)!.Mm!.Value;
}
