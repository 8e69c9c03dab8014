using System.Buffers;
using System.Globalization;
using System.Text;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>Writes parts files that <see cref="PartsReader"/> reads back to the same parts.</summary>
public static class PartsWriter
{
    private static readonly SearchValues<char> NeedQuotes = SearchValues.Create(",;\t\"\r\n");

    /// <summary>The parts as YAML, in their order.</summary>
    public static string ToYaml(IEnumerable<Part> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"format: {YamlParts.Format}\n");
        var start = text.Length;
        text.Append(YamlParts.List).Append(":\n");
        var isAny = false;
        foreach (var part in parts)
        {
            isAny = true;
            text.Append("  - id: ").Append(Plain(part.Id)).Append('\n');
            Line("kind", PartKinds.NameOf(part.Kind));
            Line("name", ValueText.Quoted(part.Name));
            if (part.Maker.Length > 0)
            {
                Line("maker", ValueText.Quoted(part.Maker));
            }
            if (part.Source.Length > 0)
            {
                Line("source", ValueText.Quoted(part.Source));
            }
            if (part.InStock is { } count)
            {
                Line("inStock", count.ToString(CultureInfo.InvariantCulture));
            }
            foreach (var field in PartFields.All)
            {
                if (part.Values.TryGetValue(field, out var value))
                {
                    var items = string.Join(", ", PartValueText.Items(value).Select(Plain));
                    Line(field.Name, IsList(field) ? $"[{items}]" : items);
                }
            }
            if (!part.SpecValues.IsEmpty)
            {
                text.Append("    ").Append(YamlParts.SpecGroup).Append(":\n");
                foreach (var (path, value) in part.SpecValues)
                {
                    text.Append("      ")
                        .Append(
                            path.Contains('[', StringComparison.Ordinal)
                                ? ValueText.Quoted(path)
                                : path
                        )
                        .Append(": ")
                        .Append(ValueText.Quoted(value))
                        .Append('\n');
                }
            }
        }
        if (!isAny)
        {
            text.Length = start;
            text.Append(YamlParts.List).Append(": []\n");
        }
        return text.ToString();

        void Line(string name, string value) =>
            text.Append("    ").Append(name).Append(": ").Append(value).Append('\n');
    }

    /// <summary>The parts as CSV (RFC 4180, commas, CRLF), in their order; a column for every field that any of them has.</summary>
    public static string ToCsv(IEnumerable<Part> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        var all = parts.ToList();
        var fields = PartFields.All.Where(f => all.Exists(p => p.Values.ContainsKey(f))).ToList();
        var paths = all.SelectMany(p => p.SpecValues.Keys)
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal)
            .ToList();
        var text = new StringBuilder();
        Row(
            PartEntryReader
                .OfEvery.Concat(fields.Select(f => f.Name))
                .Concat(paths.Select(p => PartEntryReader.SpecPrefix + p))
        );
        foreach (var part in all)
        {
            Row(
                (
                    (string[])
                        [
                            part.Id,
                            PartKinds.NameOf(part.Kind),
                            part.Name,
                            part.Maker,
                            part.Source,
                            part.InStock?.ToString(CultureInfo.InvariantCulture) ?? "",
                        ]
                )
                    .Concat(
                        fields.Select(f =>
                            part.Values.TryGetValue(f, out var value) ? PartValueText.Of(value) : ""
                        )
                    )
                    .Concat(paths.Select(p => part.SpecValues.GetValueOrDefault(p, "")))
            );
        }
        return text.ToString();

        void Row(IEnumerable<string> cells) =>
            text.AppendJoin(',', cells.Select(Cell)).Append("\r\n");
    }

    private static string Cell(string text) =>
        text.AsSpan().ContainsAny(NeedQuotes)
            ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\""
            : text;

    /// <summary>A name or number that YAML takes as it stands, else in quotes.</summary>
    private static string Plain(string text) =>
        text.Length > 0
            && char.IsAsciiLetterOrDigit(text[0])
            && !text.Equals("null", StringComparison.OrdinalIgnoreCase)
        || (text.Length > 1 && text[0] == '-' && char.IsAsciiDigit(text[1]))
            ? text
            : ValueText.Quoted(text);

    private static bool IsList(PartField field) =>
        field.Shape is PartShape.Tags or PartShape.Wholes or PartShape.Lengths;
}
