using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>The chain's room in the front cage as named quantities.</summary>
internal static class FrontQuantities
{
    internal static IEnumerable<Quantity> Make(GearTable? table, AssumedDependence assumed)
    {
        if (table is null || FrontClearances.Of(table) is not { } report)
        {
            yield break;
        }
        foreach (var gear in report.Gears)
        {
            if (gear.Own is not { } own)
            {
                continue;
            }
            // A stop that nobody gave was taken as set: what follows from it rests on that.
            var rests =
                assumed.FrontCage
                || own.Hold is CageHold.OutboardStop && !IsGiven(report, FrontSettingKind.OuterGap)
                || own.Hold is CageHold.InboardStop && !IsGiven(report, FrontSettingKind.InnerGap);
            yield return Of(QuantityNames.FrontOuterGap, gear.Gear, own.OuterPlateMm, rests);
            yield return Of(QuantityNames.FrontInnerGap, gear.Gear, own.InnerPlateMm, rests);
        }
        if (report.SettingOf(FrontSettingKind.Height) is { } height)
        {
            yield return new(
                QuantityNames.FrontHeight,
                "mm",
                Texts.Get($"target.{QuantityNames.FrontHeight}.convention"),
                null,
                height.GapMm,
                0,
                assumed.FrontHeight
            );
        }
    }

    private static bool IsGiven(FrontReport report, FrontSettingKind kind) =>
        report.SettingOf(kind) is { IsGiven: true };

    private static Quantity Of(string name, Gear gear, double value, bool rests) =>
        new(
            name,
            "mm",
            Texts.Get($"convention.{name}", gear.RingTeeth, gear.CogTeeth),
            (gear.RingTeeth, gear.CogTeeth),
            value,
            0,
            rests
        );
}
