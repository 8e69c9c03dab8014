using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>The bench in words: what to measure, and how a fit ended.</summary>
public static class BenchWords
{
    /// <summary>What to measure, in one line.</summary>
    public static string Of(in BenchPlace place) =>
        Texts.Get($"bench.place.{place.Distance}", place.CogTeeth, place.RingTeeth, place.Turns);

    /// <summary>A parameter's name for a person.</summary>
    public static string Of(BenchParameter parameter) => Texts.Get($"bench.parameter.{parameter}");

    /// <summary>How the fit ended, and what to do.</summary>
    public static Explanation Of(BenchFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        var what = $"bench.status.{fit.Status}.what";
        var toDo = Texts.Get($"bench.status.{fit.Status}.do");
        if (fit.Status == BenchFitStatus.Ambiguous)
        {
            return new(Texts.Get(what, fit.OtherGapDifferenceMm), toDo);
        }
        if (fit is { Status: BenchFitStatus.Inconsistent, WorstReading: { } worst })
        {
            var reading = fit.Readings[worst];
            return new(
                Texts.Get(
                    what,
                    Of(reading.Reading.Place),
                    reading.Reading.ValueMm,
                    reading.ResidualMm
                ),
                toDo
            );
        }
        return new(Texts.Get(what), toDo);
    }

    /// <summary>
    /// The readings that were not used, each with why: no such cog or gear, no chain length, or a gear whose chain the
    /// fitted mechanism does not hold taut.
    /// </summary>
    public static ImmutableArray<string> LeftOut(BenchFit fit)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return
        [
            .. fit
                .Readings.Where(r =>
                    !r.IsUsed
                    && r.Reading.Place.Distance
                        is not (BenchDistance.Chainline or BenchDistance.TensionTip)
                )
                .Select(r =>
                    Texts.Get(
                        fit.Spec.Chain.Pitches is null
                        && r.Reading.Place.Distance == BenchDistance.Gap
                            ? "bench.leftOut.pitches"
                            : "bench.leftOut",
                        Of(r.Reading.Place)
                    )
                ),
        ];
    }
}
