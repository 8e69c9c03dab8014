using System.Globalization;
using System.Text.RegularExpressions;

namespace Cogwright.Gearing;

/// <content>Sizes as people write them.</content>
public sealed partial record Tyre
{
    /// <summary>
    /// Reads a size or a roll-out: <c>28-622</c> (ISO 5775), <c>700x28C</c>, <c>650x47B</c>, <c>26x2.1</c> (inches with a point
    /// or comma), <c>2105 mm</c>, <c>2.105 m</c>, or a bare number of millimetres.
    /// </summary>
    /// <param name="text">What was typed.</param>
    /// <exception cref="ImpossibleInputException">It is no size, names more than one rim, or there is no such tyre.</exception>
    public static Tyre Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var typed = text.Trim();
        if (typed.Length == 0)
        {
            throw new ImpossibleInputException("tyre", Texts.Get("tyre.empty"));
        }
        if (IsoSize().Match(typed) is { Success: true } iso)
        {
            return OfSize(Number(iso.Groups[1]), (int)Number(iso.Groups[2]));
        }
        if (RollOut().Match(typed) is { Success: true } rolled)
        {
            var inMetres = rolled.Groups[2].Value.Equals("m", StringComparison.OrdinalIgnoreCase);
            return OfRollOut(Number(rolled.Groups[1]) * (inMetres ? 1000 : 1));
        }
        if (MetricSize().Match(typed) is { Success: true } metric)
        {
            // 700 with C or without, and 650 with B: what is sold under these names has these bead seats (common practice).
            var seat = (metric.Groups[1].Value, metric.Groups[3].Value.ToUpperInvariant()) switch
            {
                ("700", "" or "C") => 622,
                ("650", "B") => 584,
                ("650", "C") => 571,
                _ => throw Ambiguous(typed),
            };
            return OfSize(Number(metric.Groups[2]), seat);
        }
        if (InchSize().Match(typed) is { Success: true } inch)
        {
            // Widths in decimals go with these seats; widths in fractions with others (common practice).
            var seat = inch.Groups[1].Value.Replace(',', '.') switch
            {
                "20" => 406,
                "24" => 507,
                "26" => 559,
                "27.5" => 584,
                "29" => 622,
                _ => throw Ambiguous(typed),
            };
            return OfSize(Number(inch.Groups[2]) * GearMeasures.MmPerInch, seat);
        }
        throw InchFraction().IsMatch(typed)
            ? Ambiguous(typed)
            : new ImpossibleInputException("tyre", Texts.Get("tyre.form", Short(typed)));
    }

    private static double Number(Group group) =>
        double.Parse(group.ValueSpan.ToString().Replace(',', '.'), CultureInfo.InvariantCulture);

    private static ImpossibleInputException Ambiguous(string typed) =>
        new("tyre", Texts.Get("tyre.inch", Short(typed)));

    private static string Short(string typed) => typed.Length <= 40 ? typed : typed[..40] + "…";

    [GeneratedRegex(@"^(\d{1,3}(?:[.,]\d)?)\s*[-–]\s*(\d{3})$")]
    private static partial Regex IsoSize();

    [GeneratedRegex(@"^(\d{1,4}(?:[.,]\d{1,4})?)\s*(mm|m|)$", RegexOptions.IgnoreCase)]
    private static partial Regex RollOut();

    [GeneratedRegex(@"^(650|700)\s*[x×*]\s*(\d{2})\s*([A-D]?)$", RegexOptions.IgnoreCase)]
    private static partial Regex MetricSize();

    [GeneratedRegex(@"^(\d{2}(?:[.,]5)?)\s*[x×*]\s*(\d[.,]\d{1,3})""?$", RegexOptions.IgnoreCase)]
    private static partial Regex InchSize();

    [GeneratedRegex(@"^\d{2}(?:[.,]5)?\s*[x×*]\s*\d", RegexOptions.IgnoreCase)]
    private static partial Regex InchFraction();
}
