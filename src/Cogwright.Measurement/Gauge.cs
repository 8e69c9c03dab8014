namespace Cogwright.Measurement;

/// <summary>
/// What a value was measured with. It knows no unit of its own: resolution and uncertainty are in the unit of the
/// quantity that is measured. Immutable.
/// </summary>
public sealed record Gauge
{
    /// <summary>A gauge with its standard uncertainty.</summary>
    /// <param name="name">What it is called on the record, such as "digital caliper 2".</param>
    /// <param name="resolution">The least step of its display, or null when it has none (or it is in the uncertainty already).</param>
    /// <param name="standardUncertainty">Its standard uncertainty u, the resolution left out.</param>
    /// <exception cref="ArgumentException">The name is empty, or a number is negative or not finite.</exception>
    public Gauge(string name, double? resolution, double standardUncertainty)
    {
        if (string.IsNullOrWhiteSpace(name))
        {
            throw new ArgumentException(Texts.Get("demand.gaugeName"), nameof(name));
        }
        if (resolution is { } step)
        {
            Demand.Uncertainty(step, nameof(resolution));
        }
        Demand.Uncertainty(standardUncertainty, nameof(standardUncertainty));
        Name = name;
        Resolution = resolution;
        StandardUncertainty = standardUncertainty;
    }

    /// <summary>What it is called on the record.</summary>
    public string Name { get; }

    /// <summary>The least step of its display, or null.</summary>
    public double? Resolution { get; }

    /// <summary>Its standard uncertainty u, the resolution left out.</summary>
    public double StandardUncertainty { get; }

    /// <summary>Standard uncertainty of one reading: the gauge's own and r/√12 of its display, in quadrature (GUM 5.1.2).</summary>
    public double ReadingUncertainty =>
        Quadrature.Combine(StandardUncertainty, Quadrature.OfResolution(Resolution ?? 0));

    /// <summary>A gauge whose certificate gives the expanded uncertainty U = k·u.</summary>
    /// <param name="name">What it is called on the record.</param>
    /// <param name="expandedUncertainty">Expanded uncertainty U, not negative.</param>
    /// <param name="coverageFactor">Coverage factor k, most often 2.</param>
    /// <param name="resolution">The least step of its display, or null.</param>
    /// <exception cref="ArgumentException">A number is not finite, U is negative, or k is not positive.</exception>
    public static Gauge FromExpanded(
        string name,
        double expandedUncertainty,
        double coverageFactor,
        double? resolution = null
    )
    {
        Demand.Uncertainty(expandedUncertainty, nameof(expandedUncertainty));
        Demand.Factor(coverageFactor, nameof(coverageFactor));
        return new(name, resolution, expandedUncertainty / coverageFactor);
    }

    /// <summary>A reading taken with this gauge.</summary>
    /// <param name="value">What was read.</param>
    /// <param name="components">Further standard uncertainties, such as from repeated readings or from where the jaws were held.</param>
    /// <exception cref="ArgumentException">A number is not finite, or a component is negative.</exception>
    public Reading Read(double value, params ReadOnlySpan<double> components) =>
        new Reading(value, ReadingUncertainty).With(components);
}
