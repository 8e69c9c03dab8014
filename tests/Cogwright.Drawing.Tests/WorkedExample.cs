using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;

namespace Cogwright.Drawing.Tests;

/// <summary>The bike of the model's worked example and bikes made from it, one for each state a drawing must show.</summary>
internal static class WorkedExample
{
    internal static double Rad(double degrees) => Example.Rad(degrees);

    internal static DrivetrainSpec Spec => Example.Spec;

    internal static DrivetrainSpec SingleSpeed { get; } =
        Spec with
        {
            Name = "Single-speed",
            Frame = new()
            {
                ChainstayMm = 405,
                BottomBracketDropMm = 60,
                AxleTravelMm = 15,
            },
            Hanger = null,
            RearDerailleur = null,
            Rings = [new(42, 47)],
            Cogs = Spec.Cogs with { Teeth = [17] },
        };

    internal static GearTable Table { get; } = GearTableSolver.Solve(Spec, 110);

    /// <summary>The example with assumed values, as a class of mechanism would give them.</summary>
    internal static DrivetrainSpec Assumed { get; } =
        Spec with
        {
            Assumptions =
            [
                new("rearDerailleur.slant", "52 °", "common practice"),
                new("rearDerailleur.linkAngle", "-47 °", "common practice"),
            ],
        };

    /// <summary>One gear of every state, and a single-speed.</summary>
    internal static IEnumerable<(string Name, GearTable Table, Gear Gear)> EveryState()
    {
        foreach (var result in Table.Gears)
        {
            yield return ($"ok {result.Gear.RingTeeth}/{result.Gear.CogTeeth}", Table, result.Gear);
        }
        yield return ("short", GearTableSolver.Solve(Assumed, 108, Rad(12)), new(50, 34));
        yield return ("slack", GearTableSolver.Solve(Assumed, 116), new(34, 11));
        yield return ("clash", Clash, new(34, 34));
        yield return ("unreachable", Unreachable, new(34, 34));
        yield return ("noPath", NoPath, new(34, 34));
        yield return ("singleSpeed", GearTableSolver.Solve(SingleSpeed, 94), new(42, 17));
        yield return ("singleSpeedSlack", GearTableSolver.Solve(SingleSpeed, 98), new(42, 17));
        yield return ("singleSpeedShort", GearTableSolver.Solve(SingleSpeed, 90), new(42, 17));
        yield return (
            "worn",
            GearTableSolver.Solve(Spec with { Chain = new() { Elongation = 0.005 } }, 110),
            new(34, 21)
        );
    }

    /// <summary>A cog whose tips stand so far out that the guide pulley meets them.</summary>
    internal static GearTable Clash { get; } =
        GearTableSolver.Solve(
            Spec with
            {
                Cogs = Spec.Cogs with
                {
                    TipDiametersMm =
                    [
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        null,
                        160.0,
                    ],
                },
            },
            110
        );

    internal static GearTable Unreachable { get; } =
        GearTableSolver.Solve(
            Spec with
            {
                RearDerailleur = Spec.RearDerailleur! with { InboardStopRad = Rad(20) },
            },
            110
        );

    /// <summary>A hanger so near to the axle that the guide pulley overlaps the large cog at every cage angle.</summary>
    internal static GearTable NoPath { get; } =
        GearTableSolver.Solve(
            Spec with
            {
                Hanger = new(new(-8, 30)),
                RearDerailleur = Spec.RearDerailleur! with
                {
                    Cage = Spec.RearDerailleur.Cage with
                    {
                        RearStopRad = Rad(-5),
                        FrontStopRad = Rad(5),
                    },
                },
            },
            110
        );
}
