using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;

namespace Cogwright.Files;

/// <summary>
/// Takes what somebody types, in any of the ways a workshop writes figures, and makes of it what a file holds: a decimal comma
/// becomes a point, a vulgar fraction a decimal; the unit stays as typed. What cannot be understood passes unchanged, so that the
/// check of the sheet tells what is wrong with it.
/// </summary>
public static class FieldTyping
{
    private const string Percent = "%";
    private const string Millimetre = "mm";
    private const string Missing = "null";

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

    /// <summary>
    /// What the sheet shall hold for a text typed into a field as the screen shows it: a bare number is percent where the field
    /// says so, and inches where lengths are typed in inches. Null when the field is emptied.
    /// </summary>
    /// <param name="field">The field.</param>
    /// <param name="typed">The text.</param>
    /// <param name="inInches">Whether bare lengths are in inches.</param>
    public static string? ToSheet(SpecField field, string? typed, bool inInches)
    {
        ArgumentNullException.ThrowIfNull(field);
        var held = ToSheet(field.Kind, typed);
        return (field.Kind, held) switch
        {
            (_, null) => null,
            (FieldKind.Quantity, _) when field.Unit == Percent => IsNumber(held)
                ? held + " " + Percent
                : held,
            (FieldKind.Quantity, _) when field.Unit == Millimetre => WithUnit(held, inInches),
            (FieldKind.Lengths, _) when inInches => Bracketed(
                Entries(held).Select(entry => WithUnit(entry, inInches))
            ),
            _ => held,
        };
    }

    /// <summary>
    /// The text of a field as a box shows it, so that the unit beside the box is true of every bare number in it: a fraction in
    /// percent; in inches, what the sheet holds in mm says so.
    /// </summary>
    /// <param name="field">The field.</param>
    /// <param name="inInches">Whether bare lengths are in inches.</param>
    public static string Shown(SpecField field, bool inInches)
    {
        ArgumentNullException.ThrowIfNull(field);
        return (field.Kind, field.Text) switch
        {
            (_, null) => "",
            (FieldKind.Quantity, { } text) when field.Unit == Percent => InPercent(text),
            (FieldKind.Quantity, { } text) when field.Unit == Millimetre => ShownLength(
                text,
                inInches
            ),
            (FieldKind.Lengths, { } text) when inInches && Entries(text) is { Count: > 0 } each =>
                string.Join("; ", each.Select(entry => ShownLength(entry, inInches))),
            (_, { } text) => text,
        };
    }

    /// <summary>One length of a sheet as a box shows it: a bare one is in mm and says so where bare lengths are in inches.</summary>
    /// <param name="sheetText">The text of the sheet.</param>
    /// <param name="inInches">Whether bare lengths are in inches.</param>
    public static string ShownLength(string sheetText, bool inInches)
    {
        ArgumentNullException.ThrowIfNull(sheetText);
        return inInches && IsNumber(sheetText) ? sheetText.Trim() + " " + Millimetre : sheetText;
    }

    /// <summary>A length as typed; a bare one that is in inches says so.</summary>
    /// <param name="typed">The text.</param>
    /// <param name="inInches">Whether bare lengths are in inches.</param>
    public static string WithUnit(string typed, bool inInches)
    {
        ArgumentNullException.ThrowIfNull(typed);
        return inInches && IsNumber(typed) ? typed.Trim() + " in" : typed.Trim();
    }

    /// <summary>Whether a text is a number and nothing else, so that it takes the unit beside its box.</summary>
    public static bool IsNumber(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return NumberText.Take(Number(text.Trim()), out _, out var rest) == NumberOutcome.Number
            && rest.Length == 0;
    }

    /// <summary>The two texts of an offset, forward and up, as they stand in a sheet; empty where nothing does.</summary>
    public static (string Forward, string Up) PairOf(string? sheetText)
    {
        var parts = Entries(sheetText ?? "");
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
        return LengthOf(typed) is { } length
            ? LengthMm(
                length with
                {
                    Unit =
                        length.Unit.Length > 0 ? length.Unit
                        : inInches ? "in"
                        : Millimetre,
                }
            )
            : null;
    }

    /// <summary>A length as somebody types it or a gauge sends it, taken apart; null when it is none.</summary>
    /// <param name="typed">The text.</param>
    /// <returns>The number, and the unit as files write it; empty for a bare number.</returns>
    public static (double Value, string Unit)? LengthOf(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        if (
            NumberText.Take(Number(typed.Trim()), out var value, out var rest)
            != NumberOutcome.Number
        )
        {
            return null;
        }
        return rest.Length == 0 ? (value, "")
            : Units.Find(Dimension.Length, rest) is { } unit ? (value, unit.Name)
            : null;
    }

    /// <summary>A length in mm.</summary>
    /// <param name="length">The number and its unit, as <see cref="LengthOf"/> gives it; not bare.</param>
    /// <exception cref="ArgumentException">There is no such unit.</exception>
    public static double LengthMm((double Value, string Unit) length) =>
        Units.Find(Dimension.Length, length.Unit) is { } unit
            ? Units.ToModel(length.Value, unit)
            : throw new ArgumentException(length.Unit, nameof(length));

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
            QuantityShape { Dimension: Dimension.Fraction } => Percent,
            QuantityShape quantity => Units.Of(quantity.Dimension)[0].Name,
            OffsetShape or LengthsShape => Millimetre,
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

    private static string Pair(IReadOnlyList<string> parts) => Bracketed(parts.Select(Number));

    private static string Bracketed(IEnumerable<string> entries) =>
        "["
        + string.Join(
            ", ",
            entries.Select(entry => entry == Missing ? Missing : SheetIntake.FlowText(entry))
        )
        + "]";

    /// <summary>The entries of a list that a sheet holds, without the quotes that a file needs.</summary>
    private static List<string> Entries(string sheetText) =>
        sheetText.StartsWith('[')
        && DocumentReader.Read(sheetText, new ProblemList("")) is SequenceNode sequence
        && sequence.Items.All(item => item is ScalarNode)
            ?
            [
                .. sequence
                    .Items.Cast<ScalarNode>()
                    .Select(item => item.IsEmpty ? Missing : item.Text),
            ]
            : Parts(sheetText);

    private static string InPercent(string text) =>
        NumberText.Take(text, out var value, out var rest) == NumberOutcome.Number
        && rest.Length == 0
        && Math.Abs(value) < 1e6
            ? ((decimal)value * 100).ToString("0.##########", CultureInfo.InvariantCulture)
            : text;

    /// <summary>The entries of a list however they are separated: by blanks, semicolons, or commas that are no decimal commas.</summary>
    private static List<string> Parts(string text)
    {
        var bare = text.Trim().TrimStart('[').TrimEnd(']');
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

    private static string Lengths(string text) =>
        Bracketed(Entries(text).Select(part => part is "-" or "–" or "?" ? Missing : Number(part)));

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
        // Two numbers with a dash or a slash are how a box names a whole cassette: the check asks for every cog.
        return parts.Length != 2 ? string.Join('-', parts)
            : text.AsSpan().ContainsAny('-', '–', '/') ? $"{parts[0]}-{parts[1]}"
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
