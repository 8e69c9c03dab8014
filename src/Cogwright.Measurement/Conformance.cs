namespace Cogwright.Measurement;

/// <summary>
/// Probability that a measured item conforms. Source: JCGM 106:2012, 7.2 to 7.4, for a normal distribution about the
/// reading and no earlier knowledge of the item.
/// </summary>
public static class Conformance
{
    /// <summary>Φ((upper − y)/u) − Φ((lower − y)/u), from 0 to 1; with u = 0 it is 1 in the band and 0 outside.</summary>
    public static double Probability(Reading reading, ToleranceBand band)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(band);
        if (reading.StandardUncertainty == 0)
        {
            return band.Contains(reading.Value) ? 1 : 0;
        }
        var lower = Deviations(band.Lower ?? double.NegativeInfinity, reading);
        var upper = Deviations(band.Upper ?? double.PositiveInfinity, reading);
        // The difference is taken in the tail where both terms are small, so that no digit is lost.
        var inside =
            lower > 0
                ? Normal.Cumulative(-lower) - Normal.Cumulative(-upper)
                : Normal.Cumulative(upper) - Normal.Cumulative(lower);
        return Math.Clamp(inside, 0, 1);
    }

    /// <summary>
    /// Probability that the true value lies outside; small values keep their digits, as 1 − <see cref="Probability"/> would not.
    /// </summary>
    public static double OutsideProbability(Reading reading, ToleranceBand band)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(band);
        if (reading.StandardUncertainty == 0)
        {
            return band.Contains(reading.Value) ? 0 : 1;
        }
        var lower = Deviations(band.Lower ?? double.NegativeInfinity, reading);
        var upper = Deviations(band.Upper ?? double.PositiveInfinity, reading);
        return Math.Clamp(Normal.Cumulative(lower) + Normal.Cumulative(-upper), 0, 1);
    }

    // A subnormal u may drive this beyond the range of a double; infinity is then the right answer, but 0/u must stay 0.
    private static double Deviations(double limit, Reading reading) =>
        limit == reading.Value ? 0 : (limit - reading.Value) / reading.StandardUncertainty;
}
