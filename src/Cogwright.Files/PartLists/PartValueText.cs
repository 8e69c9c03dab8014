using System.Globalization;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>The values of parts as text: read from files in the ways workshops write figures, written exactly.</summary>
public static class PartValueText
{
    /// <summary>Most items of a list; more is a slip.</summary>
    private const int MostItems = 20;

    /// <summary>The value as text, its items separated by blanks; reading it gives exactly the same value again.</summary>
    public static string Of(PartValue value) => string.Join(' ', Items(value));

    internal static IEnumerable<string> Items(PartValue value) =>
        value switch
        {
            PartValue.Tags tags => tags.Names,
            PartValue.Number number => [Exact(number.Value)],
            PartValue.Numbers numbers => numbers.Values.Select(Exact),
            _ => [],
        };

    /// <summary>The value of a cell, or null with what is wrong.</summary>
    internal static PartValue? Read(PartField field, PartKind kind, PartCell cell, out string wrong)
    {
        wrong = "";
        switch (field.Shape)
        {
            case PartShape.Tag or PartShape.Tags:
                return ReadTags(field, cell, out wrong);
            case PartShape.Wholes or PartShape.Lengths:
                return ReadNumbers(field, kind, cell, out wrong);
            default:
                if (cell.Items is not null)
                {
                    wrong = Wrong(field, cell.Text);
                    return null;
                }
                return Number(field, cell.Text, out wrong) is { } number
                    ? new PartValue.Number(number)
                    : null;
        }
    }

    private static PartValue.Tags? ReadTags(PartField field, PartCell cell, out string wrong)
    {
        wrong = "";
        IReadOnlyList<string> names =
            cell.Items
            ?? (
                field.Shape == PartShape.Tag
                    ? [cell.Text.Trim()]
                    : cell.Text.Split(
                        [' ', ';', ','],
                        StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
                    )
            );
        if (
            names.Count == 0
            || names.Count > MostItems
            || (field.Shape == PartShape.Tag && names.Count > 1)
            || !names.All(PartNames.IsTag)
        )
        {
            wrong = Wrong(field, cell.Text);
            return null;
        }
        return new([.. names]);
    }

    private static PartValue.Numbers? ReadNumbers(
        PartField field,
        PartKind kind,
        PartCell cell,
        out string wrong
    )
    {
        var isWhole = field.Shape == PartShape.Wholes;
        var isRange = false;
        var items = cell.Items;
        if (items is null)
        {
            var text = cell.Text.Trim().TrimStart('[').TrimEnd(']');
            items = Split(text, isWhole);
            isRange = items.Count == 2 && isWhole && text.AsSpan().ContainsAny('-', '\u2013');
        }
        if (items.Count is 0 or > MostItems)
        {
            wrong = Wrong(field, cell.Text);
            return null;
        }
        if (isRange && kind == PartKind.Cassette)
        {
            // "11-34" is how a box names a whole cassette; two cogs are never meant by it.
            wrong = Texts.Get("parts.cogRange", items[0], items[1]);
            return null;
        }
        var numbers = new List<double>(items.Count);
        foreach (var item in items)
        {
            if (Number(field, item, out wrong) is not { } number)
            {
                return null;
            }
            numbers.Add(number);
        }
        wrong = "";
        if (isWhole)
        {
            numbers.Sort();
            if (numbers.Distinct().Count() != numbers.Count)
            {
                wrong = Texts.Get("parts.twice", Quoting.Short(cell.Text));
                return null;
            }
        }
        return new([.. numbers]);
    }

    /// <summary>
    /// The items of a list: separated by blanks or semicolons; whole numbers also by commas, dashes and strokes, lengths by
    /// commas where a point or a blank shows that they are no decimal commas.
    /// </summary>
    private static string[] Split(string text, bool isWhole)
    {
        const StringSplitOptions clean =
            StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries;
        if (isWhole)
        {
            return text.Split([' ', ';', ',', '-', '\u2013', '/'], clean);
        }
        if (
            !text.Contains(';', StringComparison.Ordinal)
            && text.Contains(',', StringComparison.Ordinal)
            && text.Contains('.', StringComparison.Ordinal)
        )
        {
            return text.Split([' ', ','], clean);
        }
        return [.. text.Split([' ', ';'], clean).Select(item => item.TrimEnd(','))];
    }

    /// <summary>One number in the field's unit, with a decimal point or comma; a length may name another unit.</summary>
    private static double? Number(PartField field, string text, out string wrong)
    {
        wrong = "";
        var outcome = NumberText.Take(text, out var value, out var rest);
        if (outcome == NumberOutcome.DecimalComma)
        {
            outcome = NumberText.Take(text.Replace(',', '.'), out value, out rest);
        }
        var isLength = field.Shape is PartShape.Length or PartShape.Lengths;
        if (outcome == NumberOutcome.Number && rest.Length > 0 && isLength)
        {
            if (Units.Find(Dimension.Length, rest) is { } unit)
            {
                (value, rest) = (Units.ToModel(value, unit), "");
            }
        }
        var isWhole = field.Shape is PartShape.Whole or PartShape.Wholes;
        if (
            outcome != NumberOutcome.Number
            || rest.Length > 0
            || (isWhole && value != Math.Floor(value))
        )
        {
            wrong = Wrong(field, text);
            return null;
        }
        if (!(value >= field.Least && value <= field.Most))
        {
            wrong = Texts.Get(
                "parts.outside",
                Quoting.Short(text),
                field.Title,
                field.Least,
                field.Most,
                field.Unit
            );
            return null;
        }
        return value;
    }

    private static string Wrong(PartField field, string text) =>
        Texts.Get("value.wrong", Quoting.Short(text), Texts.Get("parts.expect." + field.Shape));

    private static string Exact(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
