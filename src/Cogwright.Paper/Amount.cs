using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper;

/// <summary>A target's figures as the trade writes them: "7 ± 1 mm", "6 to 8 mm", "at most 0.5 mm".</summary>
internal static class Amount
{
    private const double SameMm = 1e-9;

    /// <summary>The figures of a target with their unit; empty for a check without a number.</summary>
    internal static string Of(Target target)
    {
        var text = target.IsTorque ? TorqueFigures(target) : Figures(target);
        return text.Length == 0 || target.Unit.Length == 0 ? text : text + " " + target.Unit;
    }

    /// <summary>A gear as ring-cog.</summary>
    internal static string Gear((int RingTeeth, int CogTeeth) gear) =>
        string.Create(CultureInfo.InvariantCulture, $"{gear.RingTeeth}-{gear.CogTeeth}");

    /// <summary>A number with at most two decimals.</summary>
    internal static string Number(double value) =>
        value.ToString("0.##", CultureInfo.InvariantCulture);

    // No torque wrench is read to a hundredth, and a limit is never rounded outwards. A band that holds no tenth keeps its
    // hundredths; one that holds none either, such as a single figure, is named by what is printed nearest to its middle.
    private static string TorqueFigures(Target target)
    {
        foreach (var perUnit in (ReadOnlySpan<int>)[10, 100])
        {
            var (lower, upper) = (
                Inwards(target.Lower, perUnit, Math.Ceiling),
                Inwards(target.Upper, perUnit, Math.Floor)
            );
            if (!(lower > upper))
            {
                return Figures(target with { Lower = lower, Upper = upper });
            }
        }
        return Number(((target.Lower + target.Upper) / 2)!.Value);
    }

    private static double? Inwards(double? newtonMetres, int perUnit, Func<double, double> inwards)
    {
        if (newtonMetres is not { } exact)
        {
            return null;
        }
        // A figure that was computed may miss itself by a rounding error.
        var parts = exact * perUnit;
        var near = Math.Round(parts);
        return (Math.Abs(parts - near) < SameMm * perUnit ? near : inwards(parts)) / perUnit;
    }

    private static string Figures(Target target) =>
        (target.Value, target.Lower, target.Upper) switch
        {
            ({ } value, { } lower, { } upper) => Between(value, lower, upper),
            ({ } value, { } lower, null) => Texts.Get(
                "sheet.valueAtLeast",
                Number(value),
                Number(lower)
            ),
            ({ } value, null, { } upper) => Texts.Get(
                "sheet.valueAtMost",
                Number(value),
                Number(upper)
            ),
            ({ } value, null, null) => Number(value),
            (null, { } lower, { } upper) when Number(lower) == Number(upper) => Number(upper),
            (null, { } lower, { } upper) => Texts.Get("sheet.range", Number(lower), Number(upper)),
            (null, { } lower, null) => Texts.Get("sheet.atLeast", Number(lower)),
            (null, null, { } upper) => Texts.Get("sheet.atMost", Number(upper)),
            _ => "",
        };

    private static string Between(double value, double lower, double upper)
    {
        var (below, above) = (value - lower, upper - value);
        if (Math.Abs(below) < SameMm && Math.Abs(above) < SameMm)
        {
            return Number(value);
        }
        return Number(below) == Number(above)
            ? Texts.Get("sheet.plusMinus", Number(value), Number(above))
            : Texts.Get("sheet.valueInRange", Number(value), Number(lower), Number(upper));
    }
}
