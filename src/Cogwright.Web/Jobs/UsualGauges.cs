using System.Collections.Immutable;
using Cogwright.Measurement;

namespace Cogwright.Web.Jobs;

/// <summary>
/// Gauges for lengths that every workshop has (mm), for a shop that has not entered its own. Uncertainties are what such a
/// gauge does in a workshop's hands (common practice): a caliper reads 0.01 mm and repeats within some hundredths, a rule is
/// read to half a millimetre.
/// </summary>
internal static class UsualGauges
{
    /// <summary>All of them, the surest first.</summary>
    internal static ImmutableArray<ShopGauge> All { get; } =
    [
        Usual("caliper", 0.01, 0.03),
        Usual("key", null, 0.15),
        Usual("hanger", 0.5, 0.2),
        Usual("rule", 0.5, 0.3),
    ];

    /// <summary>What can be chosen for a quantity: the shop's own that are in use, then the usual ones.</summary>
    /// <param name="own">The shop's gauges.</param>
    /// <param name="unit">Unit of the quantity.</param>
    internal static ImmutableArray<ShopGauge> For(IEnumerable<ShopGauge> own, string unit) =>
        [.. own.Where(gauge => !gauge.IsRetired).Concat(All).Where(gauge => gauge.Unit == unit)];

    private static ShopGauge Usual(string name, double? resolution, double uncertainty) =>
        new("usual-" + name, Texts.Get("job.gauge." + name), "mm")
        {
            Resolution = resolution,
            StandardUncertainty = uncertainty,
        };
}
