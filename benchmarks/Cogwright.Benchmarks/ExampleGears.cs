using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;

namespace Cogwright.Benchmarks;

/// <summary>The 24 gears of the worked example as the naive twin wants them.</summary>
internal static class ExampleGears
{
    internal const int Pitches = 110;

    internal static NaiveMechanism[] All()
    {
        var spec = Example.Spec;
        var derailleur = spec.RearDerailleur!;
        var cage = derailleur.Cage;
        return
        [
            .. GearTableSolver
                .Solve(spec, Pitches)
                .Gears.Select(gear => new NaiveMechanism
                {
                    Axle = spec.Frame.Axle,
                    CagePivot = gear.CagePivot,
                    CogTeeth = gear.Gear.CogTeeth,
                    RingTeeth = gear.Gear.RingTeeth,
                    TensionTeeth = cage.Tension.Teeth,
                    GuideTeeth = cage.Guide.Teeth,
                    TensionOffset = cage.Tension.OffsetMm,
                    GuideOffset = cage.Guide.OffsetMm,
                    FrontStopRad = cage.FrontStopRad,
                    RearStopRad = cage.RearStopRad,
                    ChainPitches = Pitches,
                }),
        ];
    }
}
