using System.Globalization;

namespace Cogwright.Web.Pieces;

/// <summary>A number as somebody types it at the stand.</summary>
internal static class TypedNumber
{
    private const double Most = 1e6;

    /// <summary>
    /// The number, with a comma or a point, a sign (also the true minus) and nothing else; null when it is none. Finite, whatever was
    /// typed.
    /// </summary>
    /// <param name="text">The text.</param>
    internal static double? Of(string text) =>
        double.TryParse(
            text.Trim().Replace(',', '.').Replace('−', '-'),
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var number
        ) && double.IsFinite(number)
            ? number
            : null;

    /// <summary>The same where an empty field is nothing, 0; null when it is no number, below 0, or a million and more.</summary>
    /// <param name="text">The text.</param>
    internal static double? OrNothing(string text) =>
        string.IsNullOrWhiteSpace(text) ? 0
        : Of(text) is >= 0 and < Most and var number ? number
        : null;
}
