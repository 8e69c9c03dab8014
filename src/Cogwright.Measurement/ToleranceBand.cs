namespace Cogwright.Measurement;

/// <summary>What is acceptable: from a least to a greatest value, either of which may be missing, limits included. Immutable.</summary>
public sealed record ToleranceBand
{
    /// <summary>A band.</summary>
    /// <param name="lower">Least acceptable value, or null.</param>
    /// <param name="upper">Greatest acceptable value, or null.</param>
    /// <exception cref="ArgumentException">Both are missing, one is not finite, or they are the wrong way round.</exception>
    public ToleranceBand(double? lower, double? upper)
    {
        if (lower is null && upper is null)
        {
            throw new ArgumentException(Texts.Get("demand.band"), nameof(lower));
        }
        if (lower is { } least)
        {
            Demand.Value(least, nameof(lower));
        }
        if (upper is { } greatest)
        {
            Demand.Value(greatest, nameof(upper));
        }
        if (lower > upper)
        {
            throw new ArgumentException(Texts.Get("demand.bandOrder", lower, upper), nameof(lower));
        }
        Lower = lower;
        Upper = upper;
    }

    /// <summary>Least acceptable value, or null.</summary>
    public double? Lower { get; }

    /// <summary>Greatest acceptable value, or null.</summary>
    public double? Upper { get; }

    /// <summary>Width of the band, or null when it is open on one side.</summary>
    public double? Width => Upper - Lower;

    /// <summary>Whether a value lies in the band, limits included.</summary>
    public bool Contains(double value) => !(value < Lower) && !(value > Upper);

    /// <summary>Distance from a value to the nearest limit, never negative.</summary>
    public double DistanceToNearestLimit(double value) =>
        Math.Min(
            Lower is { } lower ? Math.Abs(value - lower) : double.PositiveInfinity,
            Upper is { } upper ? Math.Abs(upper - value) : double.PositiveInfinity
        );
}
