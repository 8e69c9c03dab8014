namespace Cogwright.Measurement;

/// <summary>Student's t distribution, for intervals about what was estimated from few readings (GUM, annex G).</summary>
public static class Student
{
    /// <summary>Beyond this many degrees of freedom the sums below would be long; t is normal to 1e-4 there.</summary>
    private const int MostDegrees = 10_000;

    /// <summary>Halving an interval of doubles more often changes nothing.</summary>
    private const int MostHalvings = 200;

    /// <summary>Probability that a value of the distribution is not greater than <paramref name="t"/>.</summary>
    /// <remarks>Source: Abramowitz and Stegun, 26.7.3 and 26.7.4 (finite sums for whole degrees of freedom).</remarks>
    /// <param name="t">Any finite value.</param>
    /// <param name="degreesOfFreedom">ν, 1 to 10 000.</param>
    /// <exception cref="ArgumentException">t is no number, or ν is out of range.</exception>
    public static double Cumulative(double t, int degreesOfFreedom)
    {
        Demand.Value(t, nameof(t));
        Degrees(degreesOfFreedom);
        var theta = Math.Atan(t / Math.Sqrt(degreesOfFreedom));
        var (sin, cos) = Math.SinCos(theta);
        var odd = degreesOfFreedom % 2 == 1;
        var sum = 0.0;
        var term = odd ? cos : 1.0;
        for (var k = odd ? 3 : 2; k <= degreesOfFreedom; k += 2)
        {
            sum += term;
            term *= cos * cos * (k - 1) / k;
        }
        var within = odd ? 2 / Math.PI * (theta + sin * sum) : sin * sum;
        return 0.5 * (1 + within);
    }

    /// <summary>The value that is not exceeded with that probability.</summary>
    /// <param name="probability">0 to 1, both left out.</param>
    /// <param name="degreesOfFreedom">ν, 1 to 10 000.</param>
    /// <exception cref="ArgumentException">The probability or ν is out of range.</exception>
    public static double Quantile(double probability, int degreesOfFreedom)
    {
        Degrees(degreesOfFreedom);
        if (!(probability is > 0 and < 1))
        {
            throw new ArgumentException(
                Texts.Get("demand.probability", probability),
                nameof(probability)
            );
        }
        if (probability < 0.5)
        {
            return -Quantile(1 - probability, degreesOfFreedom);
        }
        var (low, high) = (0.0, 1.0);
        while (Cumulative(high, degreesOfFreedom) < probability)
        {
            (low, high) = (high, high * 2);
        }
        for (var i = 0; i < MostHalvings && low < high; i++)
        {
            var middle = low + (high - low) / 2;
            if (middle <= low || middle >= high)
            {
                break;
            }
            if (Cumulative(middle, degreesOfFreedom) < probability)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }
        return high;
    }

    private static void Degrees(int degreesOfFreedom)
    {
        if (degreesOfFreedom is < 1 or > MostDegrees)
        {
            throw new ArgumentException(
                Texts.Get("demand.degrees", degreesOfFreedom, MostDegrees),
                nameof(degreesOfFreedom)
            );
        }
    }
}
