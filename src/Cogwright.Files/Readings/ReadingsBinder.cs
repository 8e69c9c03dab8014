using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>Builds gauges and readings from their values and tells what in them does not go together.</summary>
internal sealed class ReadingsBinder(Leaves leaves, ProblemList problems)
{
    /// <summary>Coverage factor when an expanded uncertainty comes without one: the usual 95 %.</summary>
    private const double UsualCoverage = 2;

    internal ReadingsFile Bind()
    {
        var gauges = Enumerable.Range(0, leaves.Count("gauges")).Select(BindGauge).ToList();
        foreach (
            var (gauge, i) in gauges
                .Select((g, i) => (g, i))
                .Where(g => gauges.FindIndex(o => o.Name == g.g.Name) < g.i)
        )
        {
            Tell($"gauges[{i}].name", Texts.Get("readings.gaugeTwice", gauge.Name));
        }
        var names = gauges.Select(g => g.Name).ToList();
        return new(
            [.. gauges],
            [.. Enumerable.Range(0, leaves.Count("readings")).Select(i => BindReading(i, names))]
        );
    }

    private GaugeEntry BindGauge(int index)
    {
        var path = $"gauges[{index}]";
        var place = leaves.NearestPlace(path);
        var resolution = Measured($"{path}.resolution");
        NotNegative($"{path}.resolution", resolution);
        var uncertainty = Uncertainty(path);
        return new(
            leaves.Text($"{path}.name")!,
            resolution?.Value,
            uncertainty?.Value,
            OneUnit(path, resolution, uncertainty),
            place.Line,
            place.Column
        );
    }

    private ReadingEntry BindReading(int index, List<string> gauges)
    {
        var path = $"readings[{index}]";
        var place = leaves.NearestPlace(path);
        var value = Measured($"{path}.value")!;
        var uncertainty = Uncertainty(path);
        var ring = leaves.WholeOrNull($"{path}.ring");
        var cog = leaves.WholeOrNull($"{path}.cog");
        if (ring is null != cog is null)
        {
            Tell(path, Texts.Get("readings.halfGear"));
        }
        var gauge = leaves.Text($"{path}.gauge");
        if (gauge is not null && !gauges.Contains(gauge))
        {
            var near = NearestName.Find(gauge, gauges);
            Tell(
                $"{path}.gauge",
                near is null
                    ? Texts.Get("readings.noGauge", Quoting.Short(gauge))
                    : Texts.Get("readings.noGaugeNear", Quoting.Short(gauge), near)
            );
        }
        if (gauge is null && uncertainty is null)
        {
            problems.Remark(place, path, Texts.Get("readings.noUncertainty"));
        }
        return new(
            leaves.Text($"{path}.quantity")!,
            ring,
            cog,
            value.Value,
            OneUnit(path, value, uncertainty),
            uncertainty?.Value,
            gauge,
            leaves.Text($"{path}.convention") ?? "",
            leaves.NumberOrNull($"{path}.turned"),
            place.Line,
            place.Column
        )
        {
            QuantityPlace = At($"{path}.quantity"),
            ValuePlace = At($"{path}.value"),
        };
    }

    private (int Line, int Column) At(string path)
    {
        var place = leaves.NearestPlace(path);
        return (place.Line, place.Column);
    }

    /// <summary>The standard uncertainty: as given, or the expanded one divided by its coverage factor k (GUM, 6.2).</summary>
    private MeasuredValue? Uncertainty(string path)
    {
        var standard = Measured($"{path}.uncertainty");
        var expanded = Measured($"{path}.expanded");
        var k = leaves.NumberOrNull($"{path}.k");
        NotNegative($"{path}.uncertainty", standard);
        NotNegative($"{path}.expanded", expanded);
        if (standard is not null && expanded is not null)
        {
            Tell($"{path}.expanded", Texts.Get("readings.bothUncertainties"));
        }
        if (k is not null && expanded is null)
        {
            Tell($"{path}.k", Texts.Get("readings.kAlone"));
        }
        if (k is not null and not (>= 1 and <= 10))
        {
            Tell($"{path}.k", Texts.Get("readings.k", k));
            return standard;
        }
        return standard
            ?? (
                expanded is null
                    ? null
                    : expanded with
                    {
                        Value = expanded.Value / (k ?? UsualCoverage),
                    }
            );
    }

    private void NotNegative(string path, MeasuredValue? value)
    {
        if (value is { Value: not (>= 0) })
        {
            Tell(path, Texts.Get("readings.negative", value.Value));
        }
    }

    /// <summary>The one unit that an entry's values are in; bare numbers take that of their neighbours.</summary>
    private string OneUnit(string path, params ReadOnlySpan<MeasuredValue?> values)
    {
        var unit = "";
        foreach (var value in values)
        {
            if (value is null || value.Unit.Length == 0)
            {
                continue;
            }
            if (unit.Length > 0 && value.Unit != unit)
            {
                Tell(path, Texts.Get("readings.twoUnits", unit, value.Unit));
            }
            unit = value.Unit;
        }
        return unit;
    }

    private MeasuredValue? Measured(string path) => leaves.Find(path)?.Value as MeasuredValue;

    private void Tell(string path, string message) =>
        problems.Error(leaves.NearestPlace(path), path, message);
}
