using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>Where the cage stands on every ring: by the spec, or where common practice would set it.</summary>
internal sealed class FrontPlaces
{
    private FrontPlaces(double outboardMm, double inboardMm, ImmutableArray<CagePosition> all)
    {
        OutboardMm = outboardMm;
        InboardMm = inboardMm;
        All = all;
    }

    /// <summary>The outboard stop (mm, outboard of the centre plane).</summary>
    internal double OutboardMm { get; }

    /// <summary>The inboard stop (mm, outboard of the centre plane).</summary>
    internal double InboardMm { get; }

    /// <summary>Every ring's own position, the largest first.</summary>
    internal ImmutableArray<CagePosition> All { get; }

    internal double LateralMm(int ringTeeth) =>
        All.First(position => position.RingTeeth == ringTeeth).LateralMm;

    internal CageHold HoldOf(int ringTeeth) =>
        ringTeeth == All[0].RingTeeth ? CageHold.OutboardStop
        : ringTeeth == All[^1].RingTeeth ? CageHold.InboardStop
        : CageHold.Shifter;

    internal double BetweenStops(double lateralMm) =>
        Math.Min(Math.Max(lateralMm, InboardMm), OutboardMm);

    internal static FrontPlaces Of(GearTable table, FrontDerailleur derailleur)
    {
        var outboard =
            derailleur.OutboardStopMm
            ?? OutboardFor(
                table,
                derailleur,
                SettingGear(table, FrontSettingKind.OuterGap),
                derailleur.Wanted(FrontSettingKind.OuterGap).AimMm
            );
        var inboard =
            derailleur.InboardStopMm
            ?? InboardFor(
                table,
                derailleur,
                SettingGear(table, FrontSettingKind.InnerGap),
                derailleur.Wanted(FrontSettingKind.InnerGap).AimMm
            );
        var rings = table.Spec.Rings.Select(ring => ring.Teeth).OrderDescending().ToArray();
        var all = ImmutableArray.CreateBuilder<CagePosition>(rings.Length);
        foreach (var ring in rings)
        {
            var lateral =
                ring == rings[0] ? outboard
                : ring == rings[^1] ? inboard
                : Between(table, derailleur, ring);
            all.Add(new(ring, lateral));
        }
        return new(outboard, inboard, all.ToImmutable());
    }

    /// <summary>The outboard stop that leaves that gap to the outer plate in a gear (mm).</summary>
    internal static double OutboardFor(
        GearTable table,
        FrontDerailleur derailleur,
        in GearResult gear,
        double gapMm
    ) => gapMm - new FrontRoom(table, derailleur, gear).OuterAtZeroMm;

    /// <summary>The inboard stop that leaves that gap to the inner plate in a gear (mm).</summary>
    internal static double InboardFor(
        GearTable table,
        FrontDerailleur derailleur,
        in GearResult gear,
        double gapMm
    ) => new FrontRoom(table, derailleur, gear).InnerAtZeroMm - gapMm;

    /// <summary>
    /// The gear in which a setting is measured: the largest ring with the smallest cog, or the smallest ring with the
    /// largest cog that the rider may use with it.
    /// </summary>
    internal static GearResult SettingGear(GearTable table, FrontSettingKind kind)
    {
        var inner = kind is FrontSettingKind.InnerGap;
        var ring = inner ? table.Spec.Rings.Min(r => r.Teeth) : table.Spec.Rings.Max(r => r.Teeth);
        var gears = table.Gears.Where(gear => gear.Gear.RingTeeth == ring);
        gears = inner
            ? gears.OrderByDescending(gear => gear.Gear.CogTeeth)
            : gears.OrderBy(gear => gear.Gear.CogTeeth);
        var ordered = gears.ToArray();
        return ordered
            .Where(gear => gear.HasReach && !table.Spec.GearsNotUsed.Contains(gear.Gear))
            .DefaultIfEmpty(ordered[0])
            .First();
    }

    private static double Between(GearTable table, FrontDerailleur derailleur, int ring)
    {
        foreach (var position in derailleur.Positions)
        {
            if (position.RingTeeth == ring)
            {
                return position.LateralMm;
            }
        }
        var inner = double.PositiveInfinity;
        var outer = double.PositiveInfinity;
        foreach (var gear in Used(table, ring))
        {
            var room = new FrontRoom(table, derailleur, gear);
            inner = Math.Min(inner, room.InnerAtZeroMm);
            outer = Math.Min(outer, room.OuterAtZeroMm);
        }
        return 0.5 * (inner - outer);
    }

    /// <summary>The gears of a ring that the rider may use; all of them when there is none.</summary>
    private static GearResult[] Used(GearTable table, int ring)
    {
        var all = table.Gears.Where(gear => gear.Gear.RingTeeth == ring).ToArray();
        var used = all.Where(gear => !table.Spec.GearsNotUsed.Contains(gear.Gear)).ToArray();
        return used.Length > 0 ? used : all;
    }
}
