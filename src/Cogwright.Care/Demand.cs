namespace Cogwright.Care;

/// <summary>What this room asks of the numbers it is given.</summary>
internal static class Demand
{
    /// <summary>Refuses a number out of its range, or no number.</summary>
    internal static double Between(double value, double least, double most, string parameter) =>
        value >= least && value <= most
            ? value
            : throw new ArgumentException(
                Texts.Get("demand.between", value, least, most),
                parameter
            );
}
