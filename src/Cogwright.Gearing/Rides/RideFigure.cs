using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>One figure by which sets of gears are compared on a ride. Immutable.</summary>
/// <param name="Title">What it is, with its unit.</param>
/// <param name="Decimals">How many decimals say something.</param>
/// <param name="Value">The figure, or null when there is none.</param>
/// <param name="Change">By how much it differs from that of the gears there are now, or null of those themselves and where there is none.</param>
public sealed record RideFigure(string Title, int Decimals, double? Value, double? Change)
{
    /// <summary>The figures of the gears there are now.</summary>
    /// <param name="answer">What the ride comes to in them.</param>
    public static ImmutableArray<RideFigure> Of(RideAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return
        [
            new(Texts.Get("figure.outside"), 1, answer.OutsideShare * 100, null),
            new(Texts.Get("figure.offAim"), 1, answer.OffAimRpm, null),
            new(Texts.Get("figure.steepestLowest"), 0, answer.SteepestLowestRpm, null),
            new(Texts.Get("figure.inLowestGear"), 0, answer.SteepestInLowestGearRpm, null),
            new(Texts.Get("figure.frontShifts"), 0, answer.FrontShifts, null),
            new(Texts.Get("figure.across"), 1, answer.AcrossShare * 100, null),
        ];
    }

    /// <summary>The figures of other gears, with their differences; in the same order.</summary>
    /// <param name="other">What the ride comes to in them.</param>
    public static ImmutableArray<RideFigure> Of(RideComparison other)
    {
        ArgumentNullException.ThrowIfNull(other);
        ReadOnlySpan<double?> changes =
        [
            other.OutsideShareChange * 100,
            other.OffAimRpmChange,
            other.SteepestLowestRpmChange,
            other.SteepestInLowestGearRpmChange,
            other.FrontShiftsChange,
            other.AcrossShareChange * 100,
        ];
        var figures = Of(other.Answer).ToBuilder();
        for (var i = 0; i < figures.Count; i++)
        {
            figures[i] = figures[i] with { Change = changes[i] };
        }
        return figures.MoveToImmutable();
    }
}
