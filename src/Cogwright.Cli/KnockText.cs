using Cogwright.Drivetrain;

namespace Cogwright.Cli;

/// <summary>Reads a knock from the command line: mm inward at the guide pulley, or degrees.</summary>
internal static class KnockText
{
    private const double MostMm = 60;
    private const double MostDeg = 40;

    /// <summary>The knock, or an error that says what was expected.</summary>
    internal static Knock Parse(string text)
    {
        var (number, isAngle) = Split(text.Trim());
        if (
            NumberOption.TryParse(number, out var size)
            && size >= 0
            && size <= (isAngle ? MostDeg : MostMm)
        )
        {
            return new(isAngle ? size * Math.PI / 180 : size, isAngle);
        }
        throw new BadInputException(Texts.Get("option.knock", text, MostMm, MostDeg));
    }

    private static (string Number, bool IsAngle) Split(string text)
    {
        foreach (var unit in (string[])["°", "deg"])
        {
            if (text.EndsWith(unit, StringComparison.OrdinalIgnoreCase))
            {
                return (text[..^unit.Length].TrimEnd(), true);
            }
        }
        return text.EndsWith("mm", StringComparison.OrdinalIgnoreCase)
            ? (text[..^2].TrimEnd(), false)
            : (text, false);
    }
}
