namespace Cogwright.Measurement;

/// <summary>
/// A reading held against a tolerance band by the decision rule of ISO 14253-1: within is proven when the value
/// lies in the band by at least g·u, outside when it lies beyond it by at least g·u. Immutable.
/// </summary>
public sealed record Judgement
{
    /// <summary>
    /// Guard factor g: 95 % one-sided, Φ(1.645) = 0.950. Source: ISO 14253-1:2017, default limit of conformance probability 95 %.
    /// </summary>
    public const double GuardFactor = 1.645;

    private Judgement(Reading reading, ToleranceBand band)
    {
        Reading = reading;
        Band = band;
        var distance = band.DistanceToNearestLimit(reading.Value);
        DecidingUncertainty = distance > 0 ? distance / GuardFactor : null;
        // Compared with the number that is told, so that a gauge that is said to decide does decide.
        var decides = reading.StandardUncertainty <= (DecidingUncertainty ?? 0);
        Verdict =
            !decides ? Verdict.TooCloseToCall
            : band.Contains(reading.Value) ? Verdict.Within
            : Verdict.Outside;
        ConformanceProbability = Conformance.Probability(reading, band);
    }

    /// <summary>The reading.</summary>
    public Reading Reading { get; }

    /// <summary>The band.</summary>
    public ToleranceBand Band { get; }

    /// <summary>What the reading proves.</summary>
    public Verdict Verdict { get; }

    /// <summary>Probability (0 to 1) that the true value lies in the band, after JCGM 106:2012.</summary>
    public double ConformanceProbability { get; }

    /// <summary>
    /// The greatest standard uncertainty with which this same value would decide, or null when it lies on a limit
    /// and no gauge can decide.
    /// </summary>
    public double? DecidingUncertainty { get; }

    /// <summary>Width of the guard band g·u on either side of a limit.</summary>
    public double GuardBand => GuardFactor * Reading.StandardUncertainty;

    /// <summary>Whether the band is narrower than two guard bands, so that this gauge can prove no value to be within.</summary>
    public bool BandNarrowerThanGuards => Band.Width < 2 * GuardBand;

    /// <summary>Holds a reading against a band.</summary>
    public static Judgement Of(Reading reading, ToleranceBand band)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(band);
        return new(reading, band);
    }
}
