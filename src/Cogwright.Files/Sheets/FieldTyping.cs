using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Takes what somebody types, in any of the ways a workshop writes figures, and makes of it what a file holds: a decimal comma
/// becomes a point, a vulgar fraction a decimal; the unit stays as typed. What cannot be understood passes unchanged, so that the
/// check of the sheet tells what is wrong with it.
/// </summary>
public static class FieldTyping
{
    /// <summary>What the sheet shall hold for a text typed into a field; null when the field is emptied.</summary>
    public static string? ToSheet(FieldKind kind, string? typed)
    {
        var text = typed?.Trim() ?? "";
        if (text.Length == 0)
        {
            return null;
        }
        return kind switch
        {
            FieldKind.Quantity or FieldKind.Number => Number(text),
            FieldKind.Count => text.TrimStart('#'),
            FieldKind.Teeth => Teeth(text),
            FieldKind.Lengths => Lengths(text),
            FieldKind.Offset => Pair(Parts(text)),
            _ => text,
        };
    }

    /// <summary>The two texts of an offset, forward and up, as they stand in a sheet; empty where nothing does.</summary>
    public static (string Forward, string Up) PairOf(string? sheetText)
    {
        var parts = Parts(sheetText ?? "");
        return (parts.ElementAtOrDefault(0) ?? "", parts.ElementAtOrDefault(1) ?? "");
    }

    /// <summary>What the sheet shall hold for the two lengths of an offset; null when both are empty.</summary>
    public static string? ToPair(string? forward, string? up) =>
        string.IsNullOrWhiteSpace(forward) && string.IsNullOrWhiteSpace(up)
            ? null
            : Pair([Number((forward ?? "").Trim()), Number((up ?? "").Trim())]);

    /// <summary>A length in mm as somebody types it or a gauge sends it, or null when it is none: "29.05", "29,05 mm", "1 1/8 in".</summary>
    /// <param name="typed">The text.</param>
    /// <param name="inInches">Whether a bare number is in inches.</param>
    public static double? LengthMm(string typed, bool inInches = false)
    {
        ArgumentNullException.ThrowIfNull(typed);
        if (
            NumberText.Take(Number(typed.Trim()), out var value, out var rest)
            != NumberOutcome.Number
        )
        {
            return null;
        }
        var unit = Units.Find(
            Dimension.Length,
            rest.Length == 0
                ? inInches
                    ? "in"
                    : "mm"
                : rest
        );
        return unit is null ? null : Units.ToModel(value, unit);
    }

    internal static FieldKind KindOf(Shape shape) =>
        shape switch
        {
            FlagShape => FieldKind.YesNo,
            CountShape => FieldKind.Count,
            ChoiceShape or NumberChoiceShape => FieldKind.Choice,
            QuantityShape => FieldKind.Quantity,
            NumberShape => FieldKind.Number,
            OffsetShape => FieldKind.Offset,
            TeethShape => FieldKind.Teeth,
            LengthsShape => FieldKind.Lengths,
            _ => FieldKind.Text,
        };

    internal static string UnitOf(Shape shape) =>
        shape switch
        {
            QuantityShape { Dimension: Dimension.Fraction } => "%",
            QuantityShape quantity => Units.Of(quantity.Dimension)[0].Name,
            OffsetShape or LengthsShape => "mm",
            _ => "",
        };

    /// <summary>The value in force, where the sheet's own text does not say it already.</summary>
    internal static string? InForce(Leaf leaf, string? text)
    {
        if (text is not null && leaf.Shape is not QuantityShape)
        {
            return null;
        }
        if (leaf.Value is ImmutableArray<double?> lengths)
        {
            return string.Join(
                ", ",
                lengths.Select(l => l?.ToString("0.###", CultureInfo.InvariantCulture) ?? "–")
            );
        }
        var said = ValueText.ForPeople(leaf.Value, leaf.Shape);
        return
            text is not null
            && NumberText.Take(text, out _, out var rest) == NumberOutcome.Number
            && rest.Length == 0
            && leaf.Shape is QuantityShape { Dimension: not Dimension.Fraction }
            ? null
            : said;
    }

    private static string Pair(IReadOnlyList<string> parts) =>
        "[" + string.Join(", ", parts.Select(p => SheetIntake.FlowText(Number(p)))) + "]";

    /// <summary>The entries of a list however they are separated: by blanks, semicolons, or commas that are no decimal commas.</summary>
    private static List<string> Parts(string text)
    {
        var bare = text.Trim()
            .TrimStart('[')
            .TrimEnd(']')
            .Replace("\"", "", StringComparison.Ordinal);
        if (bare.Contains(';', StringComparison.Ordinal))
        {
            return Split(bare, ";");
        }
        if (bare.Contains(", ", StringComparison.Ordinal))
        {
            return Split(bare, ", ");
        }
        var blanks = Split(bare, " ");
        if (blanks.Count > 1 && blanks.TrueForAll(IsNumber))
        {
            return blanks;
        }
        var commas = Split(bare, ",");
        // "8,5" is one number; "8.5,9" and "8,9,10" are lists.
        return
            commas.Count > 1 && (commas.Count != 2 || bare.Contains('.', StringComparison.Ordinal))
            ? commas
            : [bare];
    }

    private static List<string> Split(string text, string by) =>
        [
            .. text.Split(
                    by,
                    StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
                )
                .Select(part => part.TrimEnd(',', ' ')),
        ];

    private static bool IsNumber(string text) =>
        NumberText.Take(Number(text), out _, out var rest) == NumberOutcome.Number
        && rest.Length == 0;

    private static string Lengths(string text) =>
        "["
        + string.Join(
            ", ",
            Parts(text)
                .Select(part =>
                    part is "-" or "–" or "?" or "null"
                        ? "null"
                        : SheetIntake.FlowText(Number(part))
                )
        )
        + "]";

    private static string Teeth(string text)
    {
        var parts = text.Trim('[', ']')
            .Split(
                (char[])[' ', ',', ';', '-', '–', '/'],
                StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
            );
        if (parts.Length == 0 || !parts.All(part => part.All(char.IsAsciiDigit)))
        {
            return text;
        }
        // Two numbers with a dash are how a box names a whole cassette: the check asks for every cog.
        return parts.Length != 2 ? string.Join('-', parts)
            : text.AsSpan().ContainsAny('-', '–') ? $"{parts[0]}-{parts[1]}"
            : $"[{parts[0]}, {parts[1]}]";
    }

    /// <summary>Decimal comma to point, "16 1/4" to "16.25"; everything else unchanged.</summary>
    private static string Number(string text)
    {
        var digits = text.Replace('\u2212', '-');
        if (Fraction(digits) is { } whole)
        {
            return whole;
        }
        var comma = digits.IndexOf(',', StringComparison.Ordinal);
        var isDecimal =
            comma >= 0
            && !digits.Contains('.', StringComparison.Ordinal)
            && digits.IndexOf(',', comma + 1) < 0
            && comma + 1 < digits.Length
            && char.IsAsciiDigit(digits[comma + 1]);
        return isDecimal ? digits.Replace(',', '.') : digits;
    }

    private static string? Fraction(string text)
    {
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash <= 0)
        {
            return null;
        }
        var end = slash + 1;
        while (end < text.Length && char.IsAsciiDigit(text[end]))
        {
            end++;
        }
        var before = text[..slash].Trim();
        var sign = before.StartsWith('-') ? -1 : 1;
        var numbers = before
            .TrimStart('-', '+')
            .Split((char[])[' ', '-', '+'], StringSplitOptions.RemoveEmptyEntries);
        if (
            numbers.Length is < 1 or > 2
            || !numbers.All(n => n.Length < 7 && n.All(char.IsAsciiDigit))
            || !int.TryParse(
                text.AsSpan(slash + 1, end - slash - 1),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var below
            )
            || below == 0
        )
        {
            return null;
        }
        var whole = numbers.Length == 2 ? int.Parse(numbers[0], CultureInfo.InvariantCulture) : 0;
        var above = int.Parse(numbers[^1], CultureInfo.InvariantCulture);
        var value = sign * (whole + ((double)above / below));
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Math.Round(value, 6)}{(end < text.Length && text[end] != ' ' ? " " : "")}{text[end..]}"
        );
    }
}
