namespace Cogwright.Measurement;

/// <summary>
/// Standard uncertainties put together. Source: JCGM 100:2008 (GUM), 5.1.2 for inputs that do not depend on one
/// another, 4.3.7 and F.2.2.1 for the resolution of a display.
/// </summary>
public static class Quadrature
{
    /// <summary>Root of the sum of squares of standard uncertainties, all in one unit.</summary>
    /// <exception cref="ArgumentException">One of them is negative or no number.</exception>
    public static double Combine(params ReadOnlySpan<double> standardUncertainties)
    {
        var largest = 0.0;
        foreach (var u in standardUncertainties)
        {
            Demand.Uncertainty(u, nameof(standardUncertainties));
            largest = Math.Max(largest, u);
        }
        if (largest == 0)
        {
            return 0;
        }
        // Scaled, so that squares neither overflow nor vanish.
        var sum = 0.0;
        foreach (var u in standardUncertainties)
        {
            var part = u / largest;
            sum += part * part;
        }
        return largest * Math.Sqrt(sum);
    }

    /// <summary>Standard uncertainty r/√12 of a display that steps by <paramref name="resolution"/>: rectangular, half-width r/2.</summary>
    /// <exception cref="ArgumentException">The resolution is negative or no number.</exception>
    public static double OfResolution(double resolution)
    {
        Demand.Uncertainty(resolution, nameof(resolution));
        return resolution / Math.Sqrt(12);
    }
}
