using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>What a bent hanger does to the guide pulley in one gear.</summary>
/// <param name="Gear">The gear.</param>
/// <param name="CogIndex">Index of the cog, 0 for the smallest.</param>
/// <param name="ShiftMm">How far the guide pulley is moved (mm, outboard positive).</param>
/// <param name="LeftMm">What of it stays after the best index for all gears (mm, outboard positive).</param>
/// <param name="GapChangeMm">
/// How much the pulley-to-cog gap is changed (mm), against the smallest cog: what the body-angle screw cannot hide.
/// </param>
public readonly record struct GuideShift(
    Gear Gear,
    int CogIndex,
    double ShiftMm,
    double LeftMm,
    double GapChangeMm
);

/// <summary>
/// What a bent hanger does in every gear. A hanger turned by small angles moves the guide pulley outboard by
/// zy·(y − y_H) + zx·(x − x_H); the constant part is indexed away, what changes from gear to gear is not. Immutable.
/// </summary>
/// <param name="Gears">The gears that have a taut chain, in the order of the table.</param>
/// <param name="IndexedAwayMm">The part that indexing hides (mm, outboard positive): the middle of all shifts.</param>
public sealed record HangerEffect(ImmutableArray<GuideShift> Gears, double IndexedAwayMm)
{
    /// <summary>Shift of each cog's gears (mm, outboard; the middle over the rings), smallest cog first; NaN where no gear has a taut chain.</summary>
    public ImmutableArray<double> PerCogMm(int cogs) =>
        [
            .. Enumerable
                .Range(0, cogs)
                .Select(cog =>
                {
                    var shifts = Gears
                        .Where(gear => gear.CogIndex == cog)
                        .Select(gear => gear.ShiftMm)
                        .ToList();
                    return shifts.Count == 0 ? double.NaN : (shifts.Min() + shifts.Max()) / 2;
                }),
        ];

    /// <summary>The effect in every gear of a table, or null without a hanger or a gear with a taut chain.</summary>
    public static HangerEffect? Of(GearTable table, HangerPlane plane)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(plane);
        var spec = table.Spec;
        if (spec.Hanger is not { } hanger || spec.RearDerailleur is null)
        {
            return null;
        }
        var axle = table.AxlePose.Axle;
        var bolt = table.AxlePose.Carry(hanger.OffsetMm);
        var gears = table
            .Gears.Where(gear => gear.HasPose)
            .Select(gear => new GuideShift(
                gear.Gear,
                gear.CogIndex,
                plane.ShiftMm(gear.Guide, bolt),
                0,
                GapChangeMm(spec.Cogs, gear, axle, plane)
            ))
            .ToImmutableArray();
        if (gears.IsEmpty)
        {
            return null;
        }
        var middle = (gears.Min(gear => gear.ShiftMm) + gears.Max(gear => gear.ShiftMm)) / 2;
        return new([.. gears.Select(gear => gear with { LeftMm = gear.ShiftMm - middle })], middle);
    }

    /// <summary>The same turn takes a point that lies z outboard by −z·(zx, zy) in the wheel plane.</summary>
    private static double GapChangeMm(
        CogSet cogs,
        in GearResult gear,
        Point axle,
        HangerPlane plane
    )
    {
        var outboardMm = cogs.LateralMm(gear.CogIndex) - cogs.LateralMm(0);
        var away = gear.Guide - axle;
        return -outboardMm
            * ((plane.SlopeForward * away.X) + (plane.SlopeUp * away.Y))
            / away.Length;
    }
}
