using System.Collections.Immutable;
using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>
/// How much longer a chain has become, in percent of new, or between what two values that lies. Immutable.
/// </summary>
/// <remarks>
/// The uncertainty has two parts: one of this reading alone, which several spots average out, and one that all readings
/// with the same gauge share, which they do not.
/// </remarks>
public sealed record Elongation
{
    /// <summary>What no chain exceeds in use (%): a rule put on one pitch wrong shows more than this.</summary>
    public const double MostPercent = 5;

    /// <summary>What no chain falls short of (%): below, the rule lay wrong.</summary>
    public const double LeastPercent = -1;

    private Elongation() { }

    /// <summary>Best value (%), or null when it is only known to lie beyond <see cref="LowerPercent"/>.</summary>
    public double? Percent { get; private init; }

    /// <summary>Least it can be (%), when a gauge only told a class; else null.</summary>
    public double? LowerPercent { get; private init; }

    /// <summary>Greatest it can be (%), when a gauge only told a class; null also when that class is open above.</summary>
    public double? UpperPercent { get; private init; }

    /// <summary>Standard uncertainty (%) of this reading alone; of a class: that of its edges.</summary>
    public double OwnUncertainty { get; private init; }

    /// <summary>Standard uncertainty (%) shared with every reading of <see cref="SharedWith"/>.</summary>
    public double SharedUncertainty { get; private init; }

    /// <summary>Which readings share it: the way they were taken; empty when none do.</summary>
    public string SharedWith { get; private init; } = "";

    /// <summary>Whether a class was told and no figure.</summary>
    public bool IsClass => LowerPercent is not null;

    /// <summary>Standard uncertainty of the edges of a class, or of the value (%).</summary>
    public double StandardUncertainty => Quadrature.Combine(OwnUncertainty, SharedUncertainty);

    /// <summary>
    /// The value as a reading (%); of a class, its middle with the width over √12 (GUM 4.3.7) beside the edges' uncertainty;
    /// null when the class is open.
    /// </summary>
    public Reading? Reading =>
        Percent is { } value
            ? new Reading(value, StandardUncertainty).With(ClassUncertainty)
            : null;

    /// <summary>Standard uncertainty from the width of the class (%); 0 of a figure.</summary>
    internal double ClassUncertainty =>
        UpperPercent - LowerPercent is { } width ? Quadrature.OfResolution(width) : 0;

    /// <summary>A figure.</summary>
    /// <param name="percent">Elongation (%), <see cref="LeastPercent"/> to <see cref="MostPercent"/>.</param>
    /// <param name="ownUncertainty">Standard uncertainty of this reading alone (%).</param>
    /// <param name="sharedUncertainty">Standard uncertainty shared with other readings (%).</param>
    /// <param name="sharedWith">Which those are.</param>
    /// <exception cref="ArgumentException">Out of range.</exception>
    public static Elongation Of(
        double percent,
        double ownUncertainty,
        double sharedUncertainty = 0,
        string sharedWith = ""
    ) =>
        new()
        {
            Percent = Demand.Between(percent, LeastPercent, MostPercent, nameof(percent)),
            OwnUncertainty = Demand.Between(ownUncertainty, 0, MostPercent, nameof(ownUncertainty)),
            SharedUncertainty = Demand.Between(
                sharedUncertainty,
                0,
                MostPercent,
                nameof(sharedUncertainty)
            ),
            SharedWith = sharedWith,
        };

    /// <summary>A class: from one edge to another.</summary>
    /// <param name="lower">Lower edge (%).</param>
    /// <param name="upper">Upper edge (%), greater than the lower, or null when open.</param>
    /// <param name="ownUncertainty">Standard uncertainty of the edges (%) in this reading alone.</param>
    /// <param name="sharedUncertainty">Standard uncertainty of both edges together (%), shared with other readings.</param>
    /// <param name="sharedWith">Which those are.</param>
    /// <exception cref="ArgumentException">Out of range, or the wrong way round.</exception>
    public static Elongation Between(
        double lower,
        double? upper,
        double ownUncertainty,
        double sharedUncertainty = 0,
        string sharedWith = ""
    )
    {
        Demand.Between(lower, LeastPercent, MostPercent, nameof(lower));
        if (upper is { } edge && !(edge > lower && edge <= MostPercent))
        {
            throw new ArgumentException(Texts.Get("demand.class", lower, edge), nameof(upper));
        }
        return new()
        {
            Percent = (lower + upper) / 2,
            LowerPercent = lower,
            UpperPercent = upper,
            OwnUncertainty = Demand.Between(ownUncertainty, 0, MostPercent, nameof(ownUncertainty)),
            SharedUncertainty = Demand.Between(
                sharedUncertainty,
                0,
                MostPercent,
                nameof(sharedUncertainty)
            ),
            SharedWith = sharedWith,
        };
    }

    /// <summary>
    /// Several spots of one chain, measured the same way, as one: the mean of figures, with the greater of what each reading's
    /// own uncertainty and what their spread gives for a mean, beside what they share; of classes the one of the most worn spot.
    /// </summary>
    /// <param name="spots">At least one; figures and classes are not mixed.</param>
    /// <exception cref="ArgumentException">None, or mixed.</exception>
    public static Elongation Combine(ImmutableArray<Elongation> spots)
    {
        if (spots.IsDefaultOrEmpty || spots.Any(spot => spot.IsClass != spots[0].IsClass))
        {
            throw new ArgumentException(Texts.Get("demand.spots"), nameof(spots));
        }
        if (spots.Length == 1)
        {
            return spots[0];
        }
        if (spots[0].IsClass)
        {
            return spots.MaxBy(spot => (spot.LowerPercent, spot.UpperPercent ?? MostPercent))!;
        }
        var n = spots.Length;
        var mean = spots.Average(spot => spot.Percent!.Value);
        var spread = Math.Sqrt(
            spots.Sum(spot => Math.Pow(spot.Percent!.Value - mean, 2)) / (n - 1)
        );
        var own = Math.Sqrt(spots.Average(spot => spot.OwnUncertainty * spot.OwnUncertainty));
        return Of(
            mean,
            Math.Max(own, spread) / Math.Sqrt(n),
            spots.Max(spot => spot.SharedUncertainty),
            spots[0].SharedWith
        );
    }
}
