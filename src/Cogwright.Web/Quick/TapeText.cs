using System.Globalization;

namespace Cogwright.Web.Quick;

/// <summary>A length as somebody reads it off a tape.</summary>
/// <param name="Mm">The length (mm).</param>
/// <param name="Unit">The unit it was taken in: mm, cm or in.</param>
/// <param name="IsGuessed">Whether the unit was told by the size of the number alone.</param>
internal readonly record struct TapeText(double Mm, string Unit, bool IsGuessed)
{
    private const double InchMm = 25.4;

    /// <summary>
    /// Takes 430, 43.0 cm, 16,9 in or 16 7/8". A bare number is taken in the unit in which a chainstay would read like
    /// that: no chainstay is both.
    /// </summary>
    /// <returns>Null when it is no length.</returns>
    internal static TapeText? Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var rest = text.Trim().ToLowerInvariant();
        string? unit = null;
        foreach (var (ending, name) in Endings)
        {
            if (rest.EndsWith(ending, StringComparison.Ordinal))
            {
                unit = name;
                rest = rest[..^ending.Length].TrimEnd();
                break;
            }
        }
        if (Number(rest) is not { } number)
        {
            return null;
        }
        var taken =
            unit
            ?? (
                number is > 10 and < 26 ? "in"
                : number is >= 30 and < 80 ? "cm"
                : "mm"
            );
        var mm =
            number
            * taken switch
            {
                "in" => InchMm,
                "cm" => 10,
                _ => 1,
            };
        return double.IsFinite(mm) ? new(mm, taken, unit is null && taken != "mm") : null;
    }

    private static (string Ending, string Unit)[] Endings { get; } =
    [
        ("inches", "in"),
        ("inch", "in"),
        ("in", "in"),
        ("\"", "in"),
        ("″", "in"),
        ("”", "in"),
        ("mm", "mm"),
        ("cm", "cm"),
    ];

    private static double? Number(string text)
    {
        var slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0)
        {
            return Plain(text);
        }
        // 16 7/8 or 7/8: whole inches and a fraction, as a tape is divided.
        var blank = text.LastIndexOf(' ', slash);
        var whole = blank < 0 ? 0 : Plain(text[..blank]);
        return
            Plain(text[(blank + 1)..slash]) is { } over
            && Plain(text[(slash + 1)..]) is > 0 and { } under
            ? whole + (over / under)
            : null;
    }

    private static double? Plain(string text) =>
        double.TryParse(
            text.Trim().Replace(',', '.'),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var value
        )
            ? value
            : null;
}
