using System.Text.Json;
using Cogwright.Measurement;

namespace Cogwright.Facts.Tests;

public sealed class GaugeEntryTests
{
    [Fact]
    public void Read_OfATorqueTool_GivesItBackWhole()
    {
        var wrench = new ShopGauge("w", "click wrench 1", "N·m")
        {
            Resolution = 0.5,
            DeviationPercent = 4,
            ToolClass = "IIA",
            Least = 2,
            Most = 20,
            ArmMm = 210,
            MonthsValid = 12,
            CalibratedOn = new(2026, 3, 2),
        };

        var draft = GaugeEntry.Draft(wrench);

        Assert.Equal(wrench, GaugeEntry.Read(LabelEntryTests.EntryOf(draft)));
        // The names of a canonical body ascend.
        var names = JsonDocument
            .Parse(draft.Body)
            .RootElement.EnumerateObject()
            .Select(p => p.Name);
        Assert.Equal(names.Order(StringComparer.Ordinal), names);
    }
}
