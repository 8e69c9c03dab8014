using Cogwright.Fastening;

namespace Cogwright.Cli;

/// <summary>Reads torques as a mechanic writes them: 9, 9,5 or 80 lbf·in; bare numbers are in N·m.</summary>
internal static class TorqueText
{
    /// <summary>The torque of an option (N·m), or null when the option was not given.</summary>
    /// <param name="option">The option, such as <c>--read</c>.</param>
    /// <param name="text">What stands behind it.</param>
    /// <param name="expected">What was expected, one sentence.</param>
    /// <exception cref="BadInputException">It is no torque above 0 and within what a hand tool has.</exception>
    internal static double? Nm(string option, string? text, string expected)
    {
        if (text is null)
        {
            return null;
        }
        var (number, unit) = Split(text);
        return
            unit is not null
            && NumberOption.TryParse(number, out var value)
            && unit.ToNm(value) is > 0 and <= TorqueRange.GreatestNm and var torqueNm
            ? torqueNm
            : throw new BadInputException(Texts.Get("option.number", option, text, expected));
    }

    /// <summary>What stands before the unit, and the unit: N·m when there is none, null when it is not known.</summary>
    internal static (string Number, TorqueUnit? Unit) Split(string text)
    {
        var end = text.AsSpan().LastIndexOfAnyInRange('0', '9') + 1;
        var unit = text[end..].Trim();
        return (text[..end], unit.Length == 0 ? TorqueUnit.NewtonMetre : TorqueUnit.Find(unit));
    }
}
