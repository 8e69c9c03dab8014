using System.Globalization;

namespace Cogwright.Files.Fields;

/// <summary>How taking a number from a text ended.</summary>
internal enum NumberOutcome
{
    Number,
    NotANumber,
    NotFinite,
    Hexadecimal,
    DecimalComma,
    TooLarge,
}

/// <summary>
/// Takes a decimal number from the front of a text, the same in every culture. Only plain decimals and powers of
/// ten count: what a caliper shows, never hexadecimal, underscores or sixty-fold numbers that YAML also knows.
/// </summary>
internal static class NumberText
{
    internal static NumberOutcome Take(string text, out double value, out string rest)
    {
        value = 0;
        rest = "";
        // The typographic minus comes in with figures copied from documents.
        var s = text.Trim().Replace('\u2212', '-');
        var unsigned = s.TrimStart('+', '-');
        var word = unsigned.TrimStart('.');
        if (
            word.StartsWith("nan", StringComparison.OrdinalIgnoreCase)
            || word.StartsWith("inf", StringComparison.OrdinalIgnoreCase)
        )
        {
            return NumberOutcome.NotFinite;
        }
        if (
            unsigned.Length > 1
            && unsigned[0] == '0'
            && char.ToLowerInvariant(unsigned[1]) is 'x' or 'o'
        )
        {
            return NumberOutcome.Hexadecimal;
        }
        var end = NumberEnd(s);
        if (end == 0)
        {
            return NumberOutcome.NotANumber;
        }
        rest = s[end..].Trim();
        if (end < s.Length && s[end] == ',')
        {
            var isComma =
                end + 1 < s.Length
                && char.IsAsciiDigit(s[end + 1])
                && !s.Contains('.', StringComparison.Ordinal)
                && s.IndexOf(',', end + 1) < 0;
            return isComma ? NumberOutcome.DecimalComma : NumberOutcome.NotANumber;
        }
        if (
            rest.Length > 0
            && (char.IsDigit(rest[0]) || rest[0] is '.' or ',' or '_' or ':' or '+' or '-' or '/')
        )
        {
            return NumberOutcome.NotANumber;
        }
        value = double.Parse(s.AsSpan(0, end), NumberStyles.Float, CultureInfo.InvariantCulture);
        return double.IsFinite(value) ? NumberOutcome.Number : NumberOutcome.TooLarge;
    }

    /// <summary>Where the number at the front ends; 0 when there is none.</summary>
    private static int NumberEnd(string s)
    {
        var i = s.Length > 0 && s[0] is '+' or '-' ? 1 : 0;
        var digits = 0;
        for (; i < s.Length && char.IsAsciiDigit(s[i]); i++)
        {
            digits++;
        }
        if (i < s.Length && s[i] == '.')
        {
            for (i++; i < s.Length && char.IsAsciiDigit(s[i]); i++)
            {
                digits++;
            }
        }
        if (digits == 0)
        {
            return 0;
        }
        if (i < s.Length && s[i] is 'e' or 'E')
        {
            var j = i + 1;
            if (j < s.Length && s[j] is '+' or '-')
            {
                j++;
            }
            var firstDigit = j;
            while (j < s.Length && char.IsAsciiDigit(s[j]))
            {
                j++;
            }
            i = j > firstDigit ? j : i;
        }
        return i;
    }
}
