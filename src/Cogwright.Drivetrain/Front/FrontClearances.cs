using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>
/// The chain between the plates of the front cage: in every gear and every position that the shifter has, the least
/// clearance to each plate and to the bridge, and the three settings that a mechanic makes.
/// </summary>
public static class FrontClearances
{
    /// <summary>The front derailleur in every gear, or null when the spec describes none.</summary>
    /// <param name="table">The gear table.</param>
    /// <remarks>
    /// A stop that the spec does not give is taken as set to common practice; a ring between the others without a
    /// position is taken where the room on its cogs is the same to both plates.
    /// </remarks>
    public static FrontReport? Of(GearTable table)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (table.Spec.FrontDerailleur is not { } derailleur || table.Spec.Rings.Length < 2)
        {
            return null;
        }
        var places = FrontPlaces.Of(table, derailleur);
        return new()
        {
            Gears = [.. table.Gears.Select(gear => OfGear(table, derailleur, gear, places))],
            Settings = [.. Settings(table, derailleur, places)],
            Positions = places.All,
        };
    }

    /// <summary>
    /// The gears that the rider may use and in which no position of the cage frees the chain; the value is the most room
    /// that there is.
    /// </summary>
    public static IEnumerable<Finding> Findings(FrontReport? report)
    {
        foreach (var gear in report?.Gears ?? [])
        {
            if (gear is { TrimClears: false, Best: { } best })
            {
                yield return new(
                    gear.Gear,
                    FindingKind.RubsFrontCage,
                    best.LeastMm,
                    0,
                    gear.NotUsed
                );
            }
        }
    }

    /// <summary>
    /// Upper edge of the bridge at the cage's tail (mm, x forward, y up from the bottom bracket) with the cage that much
    /// higher than straight above the largest ring; null without a known bridge.
    /// </summary>
    /// <param name="spec">The spec.</param>
    /// <param name="riseMm">How much higher (mm), or null beyond the link.</param>
    public static Point? BridgeMm(DrivetrainSpec spec, double? riseMm)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return spec.FrontDerailleur is { BridgeBelowMm: { } below } derailleur && riseMm is { } rise
            ? new(derailleur.RearXMm, LowerEdgeRadiusMm(spec, derailleur) - below + rise)
            : null;
    }

    /// <summary>
    /// Radius of the outer plate's lower edge about the bottom bracket with the plate straight above the largest ring
    /// (mm): that ring's tip radius and the height.
    /// </summary>
    public static double LowerEdgeRadiusMm(DrivetrainSpec spec, FrontDerailleur derailleur)
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentNullException.ThrowIfNull(derailleur);
        var largest = spec.Rings.MaxBy(ring => ring.Teeth)!;
        return Sprocket.TipRadiusMm(largest.Teeth, largest.TipDiameterMm) + derailleur.HeightMm;
    }

    private static FrontGear OfGear(
        GearTable table,
        FrontDerailleur derailleur,
        in GearResult gear,
        FrontPlaces places
    )
    {
        var spec = table.Spec;
        var notUsed = spec.GearsNotUsed.Contains(gear.Gear);
        if (!gear.HasReach)
        {
            return new(gear.Gear, [], notUsed);
        }
        var room = new FrontRoom(table, derailleur, gear);
        var ring = gear.Gear.RingTeeth;
        var own = places.LateralMm(ring);
        var poses = ImmutableArray.CreateBuilder<FrontPose>();
        poses.Add(room.At(places.HoldOf(ring), own));
        foreach (var trim in derailleur.Trims)
        {
            if (trim.RingTeeth == ring)
            {
                // No trim takes the cage past a stop.
                poses.Add(room.At(CageHold.Trim, places.BetweenStops(own + trim.ByMm)));
            }
        }
        return new(gear.Gear, poses.ToImmutable(), notUsed);
    }

    private static IEnumerable<FrontSetting> Settings(
        GearTable table,
        FrontDerailleur derailleur,
        FrontPlaces places
    )
    {
        if (FrontPlaces.SettingGear(table, FrontSettingKind.OuterGap) is { HasReach: true } outer)
        {
            yield return new(
                FrontSettingKind.OuterGap,
                outer.Gear,
                new FrontRoom(table, derailleur, outer).OuterAtZeroMm + places.OutboardMm,
                derailleur.OutboardStopMm is not null,
                derailleur.Wanted(FrontSettingKind.OuterGap)
            );
        }
        var inner = FrontPlaces.SettingGear(table, FrontSettingKind.InnerGap);
        if (inner.HasReach)
        {
            yield return new(
                FrontSettingKind.InnerGap,
                inner.Gear,
                new FrontRoom(table, derailleur, inner).InnerAtZeroMm - places.InboardMm,
                derailleur.InboardStopMm is not null,
                derailleur.Wanted(FrontSettingKind.InnerGap)
            );
        }
        var height = FrontPlaces.SettingGear(table, FrontSettingKind.OuterGap);
        yield return new(
            FrontSettingKind.Height,
            height.Gear,
            derailleur.HeightMm,
            !table.Spec.Assumptions.Any(a => a.Path == "frontDerailleur.height"),
            derailleur.Wanted(FrontSettingKind.Height)
        );
    }
}
