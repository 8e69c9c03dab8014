using System.Globalization;
using Cogwright.Measurement;

namespace Cogwright.Setup;

/// <summary>A judgement in words.</summary>
internal static class VerdictWords
{
    /// <summary>A judgement in sentences.</summary>
    /// <param name="judgement">The judgement.</param>
    /// <param name="unit">The unit of its reading.</param>
    /// <param name="noGauge">
    /// What to do where no gauge can decide, because what the model does not know is the greater part; else null.
    /// </param>
    internal static IEnumerable<string> Of(Judgement judgement, string unit, string? noGauge = null)
    {
        yield return Texts.Get(
            $"verdict.{judgement.Verdict}",
            Number(judgement.Reading.Value),
            unit,
            Band(judgement.Band, unit)
        );
        if (judgement.Reading.StandardUncertainty > 0)
        {
            yield return Texts.Get(
                "verdict.probability",
                Probability(judgement.ConformanceProbability)
            );
        }
        if (judgement.Verdict is not Verdict.TooCloseToCall)
        {
            yield break;
        }
        if (noGauge is not null)
        {
            yield return noGauge;
            yield break;
        }
        yield return judgement.DecidingUncertainty is { } u
            ? Texts.Get("verdict.deciding", RoundedDown(u), unit)
            : Texts.Get("verdict.onLimit");
        if (judgement.BandNarrowerThanGuards)
        {
            yield return Texts.Get("verdict.narrow", Number(judgement.GuardBand), unit);
        }
    }

    private static string Band(ToleranceBand band, string unit) =>
        (band.Lower, band.Upper) switch
        {
            ({ } lower, { } upper) when lower == upper => Texts.Get(
                "verdict.exact",
                Number(lower),
                unit
            ),
            ({ } lower, { } upper) => Texts.Get("verdict.band", Number(lower), Number(upper), unit),
            ({ } lower, null) => Texts.Get("verdict.least", Number(lower), unit),
            _ => Texts.Get("verdict.most", Number(band.Upper!.Value), unit),
        };

    private static string Probability(double p) =>
        p > 0.999 ? Texts.Get("verdict.almostOne")
        : p < 0.001 ? Texts.Get("verdict.almostZero")
        : (100 * p).ToString("0.0", CultureInfo.InvariantCulture) + " %";

    // Two figures, never up: a gauge bought by this number must decide.
    private static string RoundedDown(double u)
    {
        var step = Math.Pow(10, Math.Floor(Math.Log10(u)) - 1);
        return (Math.Floor(u / step) * step).ToString("0.#####", CultureInfo.InvariantCulture);
    }

    private static string Number(double value) =>
        value.ToString("0.##", CultureInfo.InvariantCulture);
}
