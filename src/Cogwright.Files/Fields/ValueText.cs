using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Drivetrain;

namespace Cogwright.Files.Fields;

/// <summary>Writes values: for people with their unit and rounded, for files exactly.</summary>
internal static class ValueText
{
    /// <summary>The value as a person would write it, to a thousandth.</summary>
    internal static string ForPeople(object value, Shape shape) =>
        value switch
        {
            Point p => $"({Rounded(p.X)}, {Rounded(p.Y)}) mm",
            double number when shape is QuantityShape quantity => ForPeople(
                number,
                quantity.Dimension
            ),
            double number => Rounded(number),
            ImmutableArray<int> teeth => string.Join('-', teeth),
            ImmutableArray<double?> lengths => string.Join(
                ", ",
                lengths.Select(l => l is { } v ? Rounded(v) : "–")
            ) + " mm",
            ImmutableArray<string> names => string.Join(", ", names),
            _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
        };

    private static string ForPeople(double value, Dimension dimension) =>
        dimension switch
        {
            Dimension.Length => Rounded(value) + " mm",
            Dimension.Angle => Rounded(value * 180 / Math.PI) + " °",
            Dimension.Torque => Rounded(value) + " N·m",
            Dimension.TorqueRate => Rounded(value) + " N·m/rad",
            Dimension.Fraction => Rounded(value * 100) + " %",
            Dimension.Turns => Rounded(value),
            _ => throw new ArgumentOutOfRangeException(nameof(dimension)),
        };

    private static string Rounded(double value) =>
        value.ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>The value as a file holds it: reading it gives exactly the same value again.</summary>
    internal static string ForFile(object value, Shape shape) =>
        value switch
        {
            double number when shape is QuantityShape quantity => ForFile(
                number,
                quantity.Dimension
            ),
            Point p => $"[{Exact(p.X)}, {Exact(p.Y)}]",
            ImmutableArray<int> { Length: > 2 } teeth => string.Join('-', teeth),
            ImmutableArray<int> teeth => $"[{string.Join(", ", teeth)}]",
            ImmutableArray<double?> lengths =>
                $"[{string.Join(", ", lengths.Select(l => l is { } v ? Exact(v) : "null"))}]",
            ImmutableArray<string> names => $"[{string.Join(", ", names.Select(Quoted))}]",
            string id when shape is PartIdShape => IsPlainId(id) ? id : Quoted(id),
            bool flag => flag ? "true" : "false",
            string text when shape is TextShape => Quoted(text),
            _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
        };

    /// <summary>An id that YAML could take for a number, a flag or a list's dash stands in quotes.</summary>
    private static bool IsPlainId(string id) =>
        char.IsAsciiLetter(id[0]) && id.AsSpan().ContainsAny('-', '.');

    private static string ForFile(double value, Dimension dimension) =>
        dimension switch
        {
            Dimension.Angle => Degrees(value),
            Dimension.TorqueRate => $"\"{Exact(value)} N·m/rad\"",
            _ => Exact(value),
        };

    /// <summary>Degrees when some decimal of them gives exactly that angle, else radians with their unit.</summary>
    private static string Degrees(double angleRad)
    {
        var degrees = angleRad * 180 / Math.PI;
        foreach (var format in (string[])["0.#########", "R"])
        {
            var written = degrees.ToString(format, CultureInfo.InvariantCulture);
            var back =
                double.Parse(written, CultureInfo.InvariantCulture)
                * Units.BareToModel(Dimension.Angle);
            if (back == angleRad)
            {
                return written;
            }
        }
        return $"\"{Exact(angleRad)} rad\"";
    }

    private static string Exact(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    /// <summary>Text in double quotes, in which only the quote and the backslash mean something else.</summary>
    internal static string Quoted(string text) =>
        $"\"{text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"";
}
