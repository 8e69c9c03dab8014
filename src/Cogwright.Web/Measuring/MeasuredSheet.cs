using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain.Bench;
using Cogwright.Files;

namespace Cogwright.Web.Measuring;

/// <summary>Where the readings of the bench stand in a sheet.</summary>
public static class MeasuredSheet
{
    /// <summary>The path of the group of a distance, or null when the sheet has no entry for its cog or gear yet.</summary>
    public static string? PathOf(SpecSheet sheet, in BenchPlace place)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var path = "measured." + BenchNames.Path(place.Distance);
        var last = path[(path.LastIndexOf('.') + 1)..];
        return place.Distance switch
        {
            BenchDistance.PivotToAxle
            or BenchDistance.PivotToHangerBolt
            or BenchDistance.PivotToBottomBracket => Entry(
                sheet,
                "measured.positions",
                place.CogTeeth,
                null,
                last
            ),
            BenchDistance.Gap => Entry(
                sheet,
                "measured.gaps",
                place.CogTeeth,
                place.RingTeeth,
                last
            ),
            _ => path,
        };
    }

    /// <summary>The reading that the sheet holds for a distance (mm), or null.</summary>
    public static double? ValueMm(SpecSheet sheet, in BenchPlace place) =>
        PathOf(sheet, place) is { } path && sheet[path + ".value"] is { } text
            ? FieldTyping.LengthMm(text)
            : null;

    /// <summary>The uncertainty of every reading without its own (mm).</summary>
    public static double UsualMm(SpecSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return
            sheet["measured.uncertainty"] is { } text
            && FieldTyping.LengthMm(text) is > 0 and var usual
            ? usual
            : BenchReading.UsualUncertaintyMm;
    }

    /// <summary>
    /// The sheet with the mean of some readings of a distance. Of n readings that scatter by s it takes max(s, u)/√n as the
    /// uncertainty, u being the usual one of a single reading.
    /// </summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="place">The distance.</param>
    /// <param name="readingsMm">Its readings (mm); none takes it out.</param>
    public static SpecSheet With(
        SpecSheet sheet,
        in BenchPlace place,
        ImmutableArray<double> readingsMm
    )
    {
        ArgumentNullException.ThrowIfNull(sheet);
        if (readingsMm.IsEmpty)
        {
            return Without(sheet, place);
        }
        var path = PathOf(sheet, place) ?? "";
        if (path.Length == 0)
        {
            var list = place.Distance == BenchDistance.Gap ? "measured.gaps" : "measured.positions";
            var index = sheet.CountOf(list);
            path = string.Create(
                CultureInfo.InvariantCulture,
                $"{list}[{index}].{BenchNames.Path(place.Distance).Split('.')[1]}"
            );
            sheet = sheet.With($"{list}[{index}].cog", Whole(place.CogTeeth));
            if (place.Distance == BenchDistance.Gap)
            {
                sheet = sheet.With($"{list}[{index}].ring", Whole(place.RingTeeth));
            }
        }
        if (place.Distance == BenchDistance.PivotToAxleAfterScrew)
        {
            sheet = sheet
                .With("measured.afterScrew.cog", Whole(place.CogTeeth))
                .With("measured.afterScrew.turns", Text(place.Turns, "0.##"));
        }
        var usual = UsualMm(sheet);
        return sheet
            .With(path + ".value", Text(readingsMm.Average(), "0.###"))
            .With(
                path + ".uncertainty",
                readingsMm.Length == 1
                    ? null
                    : Text(
                        Math.Max(usual, ScatterMm(readingsMm)) / Math.Sqrt(readingsMm.Length),
                        "0.###"
                    )
            );
    }

    /// <summary>Standard deviation of some readings (mm); 0 for one.</summary>
    public static double ScatterMm(ImmutableArray<double> readingsMm)
    {
        if (readingsMm.Length < 2)
        {
            return 0;
        }
        var mean = readingsMm.Average();
        return Math.Sqrt(readingsMm.Sum(r => (r - mean) * (r - mean)) / (readingsMm.Length - 1));
    }

    private static SpecSheet Without(SpecSheet sheet, in BenchPlace place)
    {
        if (PathOf(sheet, place) is not { } path)
        {
            return sheet;
        }
        var without = sheet.With(path + ".value", null).With(path + ".uncertainty", null);
        if (place.Distance == BenchDistance.PivotToAxleAfterScrew)
        {
            return without
                .With("measured.afterScrew.cog", null)
                .With("measured.afterScrew.turns", null);
        }
        var open = path.IndexOf('[', StringComparison.Ordinal);
        if (open < 0)
        {
            return without;
        }
        // An entry in which nothing is left but its gear goes too.
        var entry = path[..(path.IndexOf(']', open) + 1)] + ".";
        return without.Values.Keys.Any(key =>
            key.StartsWith(entry, StringComparison.Ordinal)
            && key.EndsWith(".value", StringComparison.Ordinal)
        )
            ? without
            : without.Without(
                path[..open],
                int.Parse(
                    path.AsSpan(open + 1, path.IndexOf(']', open) - open - 1),
                    CultureInfo.InvariantCulture
                )
            );
    }

    private static string? Entry(SpecSheet sheet, string list, int cog, int? ring, string last)
    {
        for (var i = 0; i < sheet.CountOf(list); i++)
        {
            var path = string.Create(CultureInfo.InvariantCulture, $"{list}[{i}]");
            if (
                sheet[path + ".cog"] == Whole(cog)
                && (ring is null || sheet[path + ".ring"] == Whole(ring.Value))
            )
            {
                return $"{path}.{last}";
            }
        }
        return null;
    }

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Text(double value, string format) =>
        value.ToString(format, CultureInfo.InvariantCulture);
}
