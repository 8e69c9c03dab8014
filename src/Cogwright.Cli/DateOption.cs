using System.Globalization;

namespace Cogwright.Cli;

/// <summary>Reads the day of an option; an error names the option, the value and what was expected.</summary>
internal static class DateOption
{
    private const int FirstYear = 1950;
    private const int LastYear = 2200;

    /// <summary>A day, or null when the option was not given.</summary>
    /// <param name="option">The option, such as <c>--date</c>.</param>
    /// <param name="text">What stands behind it, such as 2026-03-02.</param>
    /// <exception cref="BadInputException">It is no day.</exception>
    internal static DateOnly? Parse(string option, string? text) =>
        text is null ? null
        : DateOnly.TryParseExact(
            text.Trim(),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var date
        ) && date.Year is >= FirstYear and <= LastYear
            ? date
        : throw new BadInputException(Texts.Get("option.date", option, text));
}
