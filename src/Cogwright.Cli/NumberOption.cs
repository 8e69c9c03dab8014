using System.Globalization;

namespace Cogwright.Cli;

/// <summary>Reads the number of an option, with a point or a comma; an error names the option, the value and what was expected.</summary>
internal static class NumberOption
{
    /// <summary>A number, or null when the option was not given.</summary>
    /// <param name="option">The option, such as <c>--lean</c>.</param>
    /// <param name="text">What stands behind it.</param>
    /// <param name="expected">What was expected, one sentence.</param>
    internal static double? Parse(string option, string? text, string expected) =>
        text is null ? null
        : TryParse(text, out var value) ? value
        : throw Refused(option, text, expected);

    /// <summary>A whole number, or null when the option was not given.</summary>
    internal static int? Whole(string option, string? text, string expected) =>
        text is null ? null
        : int.TryParse(
            text.Trim(),
            NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out var value
        )
            ? value
        : throw Refused(option, text, expected);

    /// <summary>A number as a mechanic writes it: no exponent, no thousands, one point or one comma.</summary>
    internal static bool TryParse(string text, out double value) =>
        double.TryParse(
            text.Trim().Replace(',', '.'),
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
            CultureInfo.InvariantCulture,
            out value
        ) && double.IsFinite(value);

    private static BadInputException Refused(string option, string text, string expected) =>
        new(Texts.Get("option.number", option, text, expected));
}
