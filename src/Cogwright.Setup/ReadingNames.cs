using System.Globalization;

namespace Cogwright.Setup;

/// <summary>
/// Names of readings that belong to no single target: several of them make one result, or they are read against the
/// model. They are stable.
/// </summary>
public static class ReadingNames
{
    /// <summary>
    /// What a reading of the hanger gauge begins with; its clock position follows: <c>hanger-12</c>, <c>hanger-3</c>,
    /// <c>hanger-10.5</c>. The same position once more is a reading after bending.
    /// </summary>
    public const string HangerClock = "hanger-";

    /// <summary>Guide pulley outboard of the cog after a shift to a larger cog (mm, per gear).</summary>
    public const string IndexUp = "index-up";

    /// <summary>The same after a shift to a smaller cog.</summary>
    public const string IndexDown = "index-down";

    /// <summary>How far the outboard stop lets the pulley past the smallest cog (mm, negative when it stops short).</summary>
    public const string OutboardOvershoot = "outboard-overshoot";

    /// <summary>How far the inboard stop lets the pulley past the largest cog (mm, negative when it stops short).</summary>
    public const string InboardOvershoot = "inboard-overshoot";

    /// <summary>The clock position (hours, above 0 to 12) that a name asks for, or null when it is another quantity.</summary>
    public static double? ClockHours(string quantity)
    {
        ArgumentNullException.ThrowIfNull(quantity);
        return
            quantity.StartsWith(HangerClock, StringComparison.Ordinal)
            && double.TryParse(
                quantity.AsSpan(HangerClock.Length),
                NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture,
                out var hours
            )
            && hours is > 0 and <= 12
            ? hours
            : null;
    }

    /// <summary>Whether the reading counts towards a result that is made of several.</summary>
    public static bool IsOneOfSeveral(string quantity) =>
        quantity is IndexUp or IndexDown || ClockHours(quantity) is not null;

    /// <summary>The unit of such a reading, empty for a name that is not one of these.</summary>
    public static string Unit(string quantity) =>
        IsOneOfSeveral(quantity) || quantity is OutboardOvershoot or InboardOvershoot ? "mm" : "";
}
