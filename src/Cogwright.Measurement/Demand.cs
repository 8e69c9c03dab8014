namespace Cogwright.Measurement;

/// <summary>What this room asks of the numbers it is given.</summary>
internal static class Demand
{
    /// <summary>Refuses a number that is negative, infinite or no number where an uncertainty or a resolution is asked.</summary>
    internal static void Uncertainty(double value, string parameter)
    {
        if (!double.IsFinite(value) || value < 0)
        {
            throw new ArgumentException(Texts.Get("demand.uncertainty", value), parameter);
        }
    }

    /// <summary>Refuses a value that is infinite or no number.</summary>
    internal static void Value(double value, string parameter)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentException(Texts.Get("demand.value", value), parameter);
        }
    }

    /// <summary>Refuses a factor that is not a positive number.</summary>
    internal static void Factor(double value, string parameter)
    {
        if (!double.IsFinite(value) || value <= 0)
        {
            throw new ArgumentException(Texts.Get("demand.factor", value), parameter);
        }
    }
}
