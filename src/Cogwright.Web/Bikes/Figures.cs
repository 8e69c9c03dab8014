using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;

namespace Cogwright.Web.Bikes;

/// <summary>A figure before and after a trial.</summary>
/// <param name="Key">A name for code.</param>
/// <param name="Label">What it is.</param>
/// <param name="Before">The figure as the spec says, in words.</param>
/// <param name="After">With what is tried; the same when nothing is.</param>
public sealed record Figure(string Key, string Label, string Before, string After)
{
    /// <summary>Whether the trial changes it.</summary>
    public bool IsChanged => Before != After;

    /// <summary>As one text.</summary>
    public string Said => IsChanged ? Texts.Get("mech.fromTo", Before, After) : After;
}

/// <summary>The figures that are asked for at the stand, of one gear.</summary>
public static class Figures
{
    /// <summary>The figures.</summary>
    /// <param name="before">The gear as the spec says.</param>
    /// <param name="after">The gear with what is tried.</param>
    /// <param name="roomBefore">Room to the spokes as the spec says, in words.</param>
    /// <param name="roomAfter">Room to the spokes with what is tried, in words.</param>
    public static ImmutableArray<Figure> Of(
        in GearResult before,
        in GearResult after,
        string roomBefore,
        string roomAfter
    ) =>
        [
            new("gap", Texts.Get("mech.gap"), Mm(before.GapMm), Mm(after.GapMm)),
            new(
                "cage",
                Texts.Get("mech.cage"),
                Degrees(before.CageAngleRad),
                Degrees(after.CageAngleRad)
            ),
            new(
                "tight",
                Texts.Get("mech.tight"),
                Mm(before.TightMarginMm, "0"),
                Mm(after.TightMarginMm, "0")
            ),
            new(
                "loose",
                Texts.Get("mech.loose"),
                Mm(before.LooseMarginMm, "0"),
                Mm(after.LooseMarginMm, "0")
            ),
            new("room", Texts.Get("mech.room"), roomBefore, roomAfter),
        ];

    /// <summary>
    /// The least room between cage and spokes of a bike, in words; with a tilted hanger the tilt is in it. A room that was
    /// measured before what is tried is not told again: it is to be measured again.
    /// </summary>
    public static string Room(ComputedBike bike)
    {
        ArgumentNullException.ThrowIfNull(bike);
        var isTilted = bike.Trial.Tilt is not null;
        var least = double.PositiveInfinity;
        foreach (var clearance in bike.Clearances.All)
        {
            // A knock that has not happened does not count, nor does a straight hanger beside a tilted one.
            var counts = isTilted
                ? clearance.Kind is ClearanceKind.CageTilted
                : clearance.Kind
                    is ClearanceKind.CageOnLargestCog
                        or ClearanceKind.CageAtInboardStop;
            if (!counts)
            {
                continue;
            }
            if (clearance.IsStale)
            {
                return Texts.Get(isTilted ? "mech.roomTilted" : "mech.roomStale");
            }
            least = Math.Min(least, clearance.Mm ?? double.PositiveInfinity);
        }
        return double.IsFinite(least) ? Mm(least) : Texts.Get("mech.roomUnknown");
    }

    /// <summary>What is wrong in a gear and what to do, or null.</summary>
    /// <param name="gear">The gear.</param>
    /// <param name="spec">The bike: what to do hangs on its mount.</param>
    public static string? Wrong(in GearResult gear, DrivetrainSpec spec) =>
        Explanation.Of(gear, spec) is { } words ? $"{words.What} {words.WhatToDo}" : null;

    private static string Mm(double value, string format = "0.0") =>
        double.IsFinite(value)
            ? Texts.Get("mech.mm", Signed(value.ToString(format, CultureInfo.InvariantCulture)))
            : Texts.Get("mech.none");

    private static string Degrees(double rad) =>
        double.IsFinite(rad)
            ? Signed((rad * 180 / Math.PI).ToString("0.0", CultureInfo.InvariantCulture)) + "°"
            : Texts.Get("mech.none");

    private static string Signed(string number) =>
        number.StartsWith('-')
            ? number.AsSpan(1).IndexOfAnyInRange('1', '9') < 0
                ? number[1..]
                : "−" + number[1..]
            : number;
}
