using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>
/// An elongation held against a limit: figures by ISO 14253-1 as any reading, classes by the probability that the chain
/// conforms (JCGM 106), with the same 95 %. Immutable.
/// </summary>
/// <param name="LimitPercent">The limit (%).</param>
/// <param name="Verdict">What is proven.</param>
/// <param name="ConformanceProbability">Probability (0 to 1) that the chain is not beyond the limit, or null when a class is open.</param>
/// <param name="DecidingUncertainty">Greatest standard uncertainty (%) with which this figure would decide; null for a class or on the limit.</param>
public sealed record WearJudgement(
    double LimitPercent,
    Verdict Verdict,
    double? ConformanceProbability,
    double? DecidingUncertainty
)
{
    /// <summary>Whether only a single spot is proven to be beyond the limit, and not the mean.</summary>
    public bool BySpot { get; init; }

    /// <summary>Holds an elongation against a limit.</summary>
    /// <param name="elongation">The elongation.</param>
    /// <param name="limitPercent">The limit (%), 0.1 to 3.</param>
    /// <exception cref="ArgumentException">The limit is out of range.</exception>
    public static WearJudgement Of(Elongation elongation, double limitPercent)
    {
        ArgumentNullException.ThrowIfNull(elongation);
        Demand.Between(
            limitPercent,
            WearLimits.LeastPercent,
            WearLimits.MostPercent,
            nameof(limitPercent)
        );
        if (elongation is { IsClass: false, Reading: { } reading })
        {
            var judged = Judgement.Of(reading, new(null, limitPercent));
            return new(
                limitPercent,
                judged.Verdict,
                judged.ConformanceProbability,
                judged.DecidingUncertainty
            );
        }
        return OfClass(elongation, limitPercent);
    }

    /// <summary>
    /// Holds a reading of several spots against a limit. The chain is judged by its mean, but a single spot that is proven
    /// to lie beyond the limit is enough: that stretch meets every cog.
    /// </summary>
    /// <param name="reading">The reading.</param>
    /// <param name="limitPercent">The limit (%).</param>
    /// <exception cref="ArgumentException">The reading or the limit is out of range.</exception>
    public static WearJudgement Of(WearReading reading, double limitPercent)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var spots = reading.AtSpots();
        var whole = Of(Elongation.Combine(spots), limitPercent);
        if (whole.Verdict == Verdict.Outside)
        {
            return whole;
        }
        // Of many spots one lies far off by chance: each is asked for so much more certainty that all together keep 95 %.
        var asked = 1 - (1 - Certainty) / spots.Length;
        return spots.Any(spot => OutsideProbability(spot, limitPercent) >= asked)
            ? whole with
            {
                Verdict = Verdict.Outside,
                BySpot = true,
            }
            : whole;
    }

    /// <summary>The certainty that ISO 14253-1 asks for: Φ(1.645).</summary>
    internal static double Certainty { get; } = Normal.Cumulative(Judgement.GuardFactor);

    private static double OutsideProbability(Elongation spot, double limit) =>
        spot.IsClass
            ? spot.UpperPercent is null
                ? 1 - AtMost(limit - spot.LowerPercent!.Value, spot.StandardUncertainty)
                : 1 - InClass(spot, limit)
            : Conformance.OutsideProbability(spot.Reading!, new(null, limit));

    private static WearJudgement OfClass(Elongation elongation, double limit)
    {
        if (elongation.UpperPercent is null)
        {
            // Beyond its lower edge nothing is known: only "outside" can be proven.
            var outside = OutsideProbability(elongation, limit);
            return new(
                limit,
                outside >= Certainty ? Verdict.Outside : Verdict.TooCloseToCall,
                null,
                null
            );
        }
        var conforms = InClass(elongation, limit);
        return new(
            limit,
            conforms >= Certainty ? Verdict.Within
                : 1 - conforms >= Certainty ? Verdict.Outside
                : Verdict.TooCloseToCall,
            conforms,
            null
        );
    }

    /// <summary>
    /// Probability that the elongation is not beyond the limit when it may be anywhere in its class alike and both edges lie off
    /// together by a normal error: [G(L − a) − G(L − b)]/(b − a) with G(x) = x·Φ(x/u) + u·φ(x/u).
    /// </summary>
    private static double InClass(Elongation elongation, double limit)
    {
        var (a, b) = (elongation.LowerPercent!.Value, elongation.UpperPercent!.Value);
        var u = elongation.StandardUncertainty;
        return Math.Clamp((Mean(limit - a, u) - Mean(limit - b, u)) / (b - a), 0, 1);
    }

    private static double Mean(double x, double u) =>
        u == 0
            ? Math.Max(0, x)
            : x * Normal.Cumulative(x / u)
                + u * Math.Exp(-0.5 * (x / u) * (x / u)) / Math.Sqrt(2 * Math.PI);

    private static double AtMost(double x, double u) =>
        u == 0 ? (x >= 0 ? 1 : 0) : Normal.Cumulative(x / u);
}
