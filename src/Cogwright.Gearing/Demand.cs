namespace Cogwright.Gearing;

/// <summary>What this room asks of the numbers it is given.</summary>
internal static class Demand
{
    /// <summary>Refuses a number that is no number or lies outside a range; the sentence's places are value, least and most.</summary>
    internal static void Between(double value, double least, double most, string input, string key)
    {
        if (!(value >= least && value <= most))
        {
            throw new ImpossibleInputException(input, Texts.Get(key, value, least, most));
        }
    }

    /// <summary>Refuses what is not a positive, finite number.</summary>
    internal static void Positive(double value, string input, string key)
    {
        if (!(value > 0 && double.IsFinite(value)))
        {
            throw new ImpossibleInputException(input, Texts.Get(key, value));
        }
    }
}
