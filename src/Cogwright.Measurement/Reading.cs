namespace Cogwright.Measurement;

/// <summary>A measured value with its standard uncertainty, both in the unit of the quantity. Immutable.</summary>
public sealed record Reading
{
    /// <summary>A reading.</summary>
    /// <param name="value">What was read.</param>
    /// <param name="standardUncertainty">Its standard uncertainty u, not negative; 0 for a count.</param>
    /// <exception cref="ArgumentException">A number is not finite, or the uncertainty is negative.</exception>
    public Reading(double value, double standardUncertainty)
    {
        Demand.Value(value, nameof(value));
        Demand.Uncertainty(standardUncertainty, nameof(standardUncertainty));
        Value = value;
        StandardUncertainty = standardUncertainty;
    }

    /// <summary>What was read.</summary>
    public double Value { get; }

    /// <summary>Its standard uncertainty u.</summary>
    public double StandardUncertainty { get; }

    /// <summary>The same value with further components of uncertainty added in quadrature.</summary>
    /// <exception cref="ArgumentException">A component is negative or no number.</exception>
    public Reading With(params ReadOnlySpan<double> components) =>
        new(Value, Quadrature.Combine([StandardUncertainty, .. components]));
}
