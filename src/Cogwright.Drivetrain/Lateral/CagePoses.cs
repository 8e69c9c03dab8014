namespace Cogwright.Drivetrain;

/// <summary>Where the cage stands beside the spokes: on the largest cog in every ring's gear, or at the inboard stop.</summary>
internal static class CagePoses
{
    /// <summary>Step over the cage's range when no gear says where it stands (rad): one degree.</summary>
    private const double SweepRad = Math.PI / 180;

    /// <summary>One pose: the two pulleys, and how far out the guide pulley stands.</summary>
    internal readonly record struct Pose(
        Gear Gear,
        Point Guide,
        Point Tension,
        double GuideLateralMm
    );

    /// <summary>The cage with the chain on the largest cog, for every ring; where a gear has no pose, every cage angle that it could have.</summary>
    internal static IEnumerable<Pose> OnLargestCog(GearTable table)
    {
        var derailleur = table.Spec.RearDerailleur!;
        var largest = table.Spec.Cogs.Teeth.Length - 1;
        return table
            .Gears.Where(gear => gear.CogIndex == largest)
            .SelectMany(gear => Of(table, derailleur, gear));
    }

    /// <summary>The cage with the derailleur at its inboard stop, the chain still on the largest cog.</summary>
    internal static IEnumerable<Pose> AtStop(GearTable table, StopReach stop)
    {
        var spec = table.Spec;
        var derailleur = spec.RearDerailleur!;
        var largest = spec.Cogs.Teeth.Length - 1;
        // Pushed to its stop the derailleur stands as if it were indexed that much beside the cog.
        var pushed = spec with
        {
            RearDerailleur = derailleur with
            {
                InboardStopRad = null,
                OutboardStopRad = null,
                IndexOffsetMm = stop.GuideLateralMm - spec.Cogs.LateralMm(largest),
            },
        };
        var place = table.Place;
        for (var ring = 0; ring < spec.Rings.Length; ring++)
        {
            var gear = GearTableSolver.SolveGear(
                pushed,
                place,
                ring,
                largest,
                table.Pitches,
                table.BodyAngleRad
            );
            foreach (var pose in Of(table, derailleur, gear))
            {
                yield return pose;
            }
        }
    }

    private static IEnumerable<Pose> Of(GearTable table, RearDerailleur derailleur, GearResult gear)
    {
        var lateral = StopReach.GuideLateralMmAt(derailleur, gear.SwingRad);
        if (gear.HasPose)
        {
            yield return new(gear.Gear, gear.Guide, gear.Tension, lateral);
            yield break;
        }
        var cage = derailleur.Cage;
        var turned = gear.BodyAngleRad - derailleur.BodyAngleRad + table.AxlePose.RotationRad;
        for (
            var angle = cage.RearStopRad + turned;
            angle <= cage.FrontStopRad + turned;
            angle += SweepRad
        )
        {
            yield return new(
                gear.Gear,
                gear.CagePivot + cage.Guide.OffsetMm.Turned(angle),
                gear.CagePivot + cage.Tension.OffsetMm.Turned(angle),
                lateral
            );
        }
    }
}
