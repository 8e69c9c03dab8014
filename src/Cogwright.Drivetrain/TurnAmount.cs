using System.Globalization;

namespace Cogwright.Drivetrain;

/// <summary>Amounts of turning as a mechanic writes them.</summary>
public static class TurnAmount
{
    private static readonly string[] Quarters = ["", "¼", "½", "¾"];

    /// <summary>Such as "1¾"; what is no whole number of quarters as a number with two decimals at most. The sign is not shown.</summary>
    public static string Of(double turns)
    {
        var amount = Math.Abs(turns);
        var quarters = Math.Round(amount * 4);
        if (Math.Abs((amount * 4) - quarters) > 1e-9)
        {
            return amount.ToString("0.##", CultureInfo.InvariantCulture);
        }
        var whole = (int)(quarters / 4);
        var part = Quarters[(int)quarters % 4];
        return whole == 0 && part.Length > 0
            ? part
            : whole.ToString(CultureInfo.InvariantCulture) + part;
    }
}
