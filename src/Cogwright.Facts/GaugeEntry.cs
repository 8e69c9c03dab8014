using System.Globalization;
using System.Text.Json;
using Cogwright.Log;
using Cogwright.Measurement;

namespace Cogwright.Facts;

/// <summary>
/// A gauge of the shop as the body of an entry of the shop's own log, kind <c>gauge.set</c>, version 1; the last one that
/// names the gauge stands. docs/how-to/offline.md has the table.
/// </summary>
public static class GaugeEntry
{
    private const string Kind = "gauge.set";
    private const int Version = 1;

    /// <summary>The draft of an entry that sets all of a gauge; a new one has no id yet and gets the entry's.</summary>
    public static EntryDraft Draft(ShopGauge gauge) =>
        new(
            "",
            Kind,
            Version,
            EntryBody.Written(json =>
            {
                json.WriteIf("arm", Text(gauge.ArmMm ?? 0));
                json.WriteIf("calibrated", gauge.CalibratedOn?.ToString("O", Invariant));
                json.WriteIf("class", gauge.ToolClass);
                json.WriteIf("deviation", Text(gauge.DeviationPercent));
                json.WriteIf("gauge", gauge.Id);
                json.WriteIf("least", Text(gauge.Least ?? 0));
                json.WriteIf("months", Text(gauge.MonthsValid));
                json.WriteIf("most", Text(gauge.Most ?? 0));
                json.WriteIf("name", gauge.Name);
                json.WriteIf("resolution", Text(gauge.Resolution ?? 0));
                json.WriteIf("retired", gauge.IsRetired ? "true" : "");
                json.WriteIf("u", Text(gauge.StandardUncertainty));
                json.WriteIf("unit", gauge.Unit);
            })
        );

    /// <summary>The gauge that an entry sets, or null when it is of another kind, of a later version or not readable.</summary>
    public static ShopGauge? Read(Entry entry) =>
        EntryBody.Read(entry, Kind, Version, body => Read(entry.Id, body));

    private static ShopGauge? Read(EntryId id, JsonElement body)
    {
        var name = EntryBody.TextOf(body, "name");
        if (string.IsNullOrWhiteSpace(name))
        {
            return null;
        }
        return new(
            EntryBody.TextOf(body, "gauge") ?? id.ToString(),
            name,
            EntryBody.TextOf(body, "unit") ?? ""
        )
        {
            Resolution = Positive(body, "resolution"),
            ToolClass = EntryBody.TextOf(body, "class") ?? "",
            Least = Positive(body, "least"),
            Most = Positive(body, "most"),
            ArmMm = Positive(body, "arm"),
            StandardUncertainty = Number(body, "u"),
            DeviationPercent = Number(body, "deviation"),
            MonthsValid = (int)Number(body, "months"),
            CalibratedOn = EntryBody.DayOf(EntryBody.TextOf(body, "calibrated")),
            IsRetired = EntryBody.TextOf(body, "retired") == "true",
        };
    }

    private static double? Positive(JsonElement body, string name) =>
        Number(body, name) is > 0 and var number ? number : null;

    private static double Number(JsonElement body, string name) =>
        double.TryParse(
            EntryBody.TextOf(body, name),
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
            Invariant,
            out var number
        )
        && number < 1e6
            ? number
            : 0;

    private static CultureInfo Invariant => CultureInfo.InvariantCulture;

    private static string Text(double number) => number > 0 ? number.ToString("R", Invariant) : "";
}
