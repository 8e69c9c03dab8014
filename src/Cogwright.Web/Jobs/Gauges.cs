using System.Collections.Immutable;
using Cogwright.Measurement;

namespace Cogwright.Web.Jobs;

/// <summary>
/// Gauges for lengths that every workshop has (mm). Uncertainties are what such a gauge does in a workshop's hands (common
/// practice): a caliper reads 0.01 mm and repeats within some hundredths, a rule is read to half a millimetre.
/// </summary>
internal static class Gauges
{
    /// <summary>All of them, the surest first.</summary>
    internal static ImmutableArray<Gauge> All { get; } =
    [
        new(Texts.Get("job.gauge.caliper"), 0.01, 0.03),
        new(Texts.Get("job.gauge.key"), null, 0.15),
        new(Texts.Get("job.gauge.hanger"), 0.5, 0.2),
        new(Texts.Get("job.gauge.rule"), 0.5, 0.3),
    ];
}
