using System.Globalization;

namespace Cogwright.Setup;

/// <summary>Turns of a screw as a mechanic says them.</summary>
internal static class TurnWords
{
    private static readonly string[] Quarters = ["", "¼", "½", "¾"];

    /// <summary>Such as "1¾ turns anticlockwise"; turns are clockwise positive and not 0.</summary>
    internal static string Of(double turns)
    {
        var amount = Math.Abs(turns);
        return Texts.Get(
            amount > 1 ? "turn.many" : "turn.one",
            Amount(amount),
            Texts.Get(turns > 0 ? "turn.clockwise" : "turn.anticlockwise")
        );
    }

    private static string Amount(double turns)
    {
        var quarters = Math.Round(turns * 4);
        if (Math.Abs((turns * 4) - quarters) > 1e-9)
        {
            return turns.ToString("0.##", CultureInfo.InvariantCulture);
        }
        var whole = (int)(quarters / 4);
        var part = Quarters[(int)quarters % 4];
        return whole == 0 ? part : whole.ToString(CultureInfo.InvariantCulture) + part;
    }
}
