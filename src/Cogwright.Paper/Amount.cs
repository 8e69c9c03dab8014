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

    // No torque wrench is read to a hundredth; a limit is never rounded outwards.
    private static string TorqueFigures(Target target) =>
        Figures(
            target with
            {
                Lower = Tenth(target.Lower, Math.Ceiling),
                Upper = Tenth(target.Upper, Math.Floor),
            }
        );

    private static double? Tenth(double? newtonMetres, Func<double, double> inwards)
    {
        if (newtonMetres is not { } exact)
        {
            return null;
        }
        // A tenth that was computed may miss itself by a rounding error.
        var tenths = exact * 10;
        var near = Math.Round(tenths);
        return (Math.Abs(tenths - near) < SameMm * 10 ? near : inwards(tenths)) / 10;
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
