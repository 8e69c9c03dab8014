using System.Globalization;
using System.Text.Json;
using Cogwright.Log;
using Cogwright.Measurement;

namespace Cogwright.Web.Device;

/// <summary>
/// A gauge of the shop as the body of an entry of the shop's own log, kind <c>gauge.set</c>, version 1; the last one that
/// names the gauge stands. docs/how-to/offline.md has the table.
/// </summary>
internal static class GaugeEntry
{
    /// <summary>The log that is the shop's and no bike's; every device of the shop has the same.</summary>
    internal static LogId ShopLog { get; } = new(new("6b0f6f0e-6a55-4c1e-9d57-2f4a3c1b8e70"));

    private const string Kind = "gauge.set";
    private const int Version = 1;

    /// <summary>The draft of an entry that sets all of a gauge; a new one has no id yet and gets the entry's.</summary>
    internal static EntryDraft Draft(ShopGauge gauge) =>
        new(
            "",
            Kind,
            Version,
            EntryBody.Written(json =>
            {
                json.WriteIf("calibrated", gauge.CalibratedOn?.ToString("O", Invariant));
                json.WriteIf("deviation", Text(gauge.DeviationPercent));
                json.WriteIf("gauge", gauge.Id);
                json.WriteIf("months", Text(gauge.MonthsValid));
                json.WriteIf("name", gauge.Name);
                json.WriteIf("resolution", Text(gauge.Resolution ?? 0));
                json.WriteIf("retired", gauge.IsRetired ? "true" : "");
                json.WriteIf("u", Text(gauge.StandardUncertainty));
                json.WriteIf("unit", gauge.Unit);
            })
        );

    /// <summary>The gauge that an entry sets, or null when it is of another kind, of a later version or not readable.</summary>
    internal static ShopGauge? Read(Entry entry)
    {
        if (entry.Kind != Kind || entry.KindVersion != Version || entry.IsFromLaterVersion)
        {
            return null;
        }
        try
        {
            using var json = JsonDocument.Parse(entry.Body);
            var body = json.RootElement;
            var resolution = Number("resolution");
            var name = EntryBody.TextOf(body, "name");
            if (string.IsNullOrWhiteSpace(name))
            {
                return null;
            }
            return new(
                EntryBody.TextOf(body, "gauge") ?? entry.Id.ToString(),
                name,
                EntryBody.TextOf(body, "unit") ?? ""
            )
            {
                Resolution = resolution > 0 ? resolution : null,
                StandardUncertainty = Number("u"),
                DeviationPercent = Number("deviation"),
                MonthsValid = (int)Number("months"),
                CalibratedOn = DateOnly.TryParseExact(
                    EntryBody.TextOf(body, "calibrated"),
                    "O",
                    Invariant,
                    DateTimeStyles.None,
                    out var day
                )
                    ? day
                    : null,
                IsRetired = EntryBody.TextOf(body, "retired") == "true",
            };

            double Number(string name) =>
                double.TryParse(
                    EntryBody.TextOf(body, name),
                    NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent,
                    Invariant,
                    out var number
                )
                && number < 1e6
                    ? number
                    : 0;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static CultureInfo Invariant => CultureInfo.InvariantCulture;

    private static string Text(double number) => number > 0 ? number.ToString("R", Invariant) : "";
}
