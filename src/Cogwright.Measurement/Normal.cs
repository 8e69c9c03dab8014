namespace Cogwright.Measurement;

/// <summary>The normal distribution.</summary>
public static class Normal
{
    /// <summary>Below this, 1 − erf keeps its digits; above it the continued fraction converges fast enough.</summary>
    private const double SeriesBelow = 1.0;

    /// <summary>Beyond this, erfc is smaller than any double.</summary>
    private const double VanishesBeyond = 27.3;

    /// <summary>Last factor of the continued fraction this near to 1 ends it: one step of a double either way.</summary>
    private const double ConvergedWithin = 2.3e-16;

    /// <summary>More terms than either form ever needs (about 120 at the seam); reaching it is a mistake in the program.</summary>
    private const int MostTerms = 1000;

    /// <summary>Φ(z): probability that a standard normal value is not greater than z.</summary>
    /// <exception cref="ArgumentException">z is no number.</exception>
    public static double Cumulative(double z) => 0.5 * ComplementaryError(-z / Math.Sqrt(2));

    /// <summary>erfc(x) = 2/√π ∫ₓ^∞ exp(−t²) dt, relative error about 1e-15 (absolute where it vanishes).</summary>
    /// <remarks>
    /// Sources: NIST Digital Library of Mathematical Functions 7.6.2 (series of positive terms) and 7.9.1 (continued
    /// fraction), evaluated by the modified Lentz method.
    /// </remarks>
    /// <exception cref="ArgumentException">x is no number.</exception>
    public static double ComplementaryError(double x)
    {
        if (double.IsNaN(x))
        {
            throw new ArgumentException(Texts.Get("demand.value", x), nameof(x));
        }
        if (x < 0)
        {
            return 2 - ComplementaryError(-x);
        }
        if (x > VanishesBeyond)
        {
            return 0;
        }
        return x < SeriesBelow ? 1 - ErrorSeries(x) : ContinuedFraction(x);
    }

    // erf x = 2/√π exp(−x²) Σ 2ⁿ x²ⁿ⁺¹ / (1·3·…·(2n+1))
    private static double ErrorSeries(double x)
    {
        var term = x;
        var sum = x;
        for (var n = 1; n < MostTerms; n++)
        {
            term *= 2 * x * x / ((2 * n) + 1);
            sum += term;
            if (term <= sum * 1e-17)
            {
                return 2 / Math.Sqrt(Math.PI) * Math.Exp(-x * x) * sum;
            }
        }
        throw new InvalidOperationException(Texts.Get("normal.noConvergence", x));
    }

    // erfc x = exp(−x²)/√π · 1/(x + (1/2)/(x + 1/(x + (3/2)/(x + …))))
    private static double ContinuedFraction(double x)
    {
        var f = x;
        var c = x;
        var d = 0.0;
        for (var n = 1; n < MostTerms; n++)
        {
            var a = 0.5 * n;
            d = 1 / (x + (a * d));
            c = x + (a / c);
            var delta = c * d;
            f *= delta;
            if (Math.Abs(delta - 1) <= ConvergedWithin)
            {
                return ExpOfMinusSquare(x) / (Math.Sqrt(Math.PI) * f);
            }
        }
        throw new InvalidOperationException(Texts.Get("normal.noConvergence", x));
    }

    // exp(−x²) loses x² units in the last place when x² is rounded first; a head that squares exactly keeps them.
    private static double ExpOfMinusSquare(double x)
    {
        var head = Math.Floor(x * 16) / 16;
        return Math.Exp(-head * head) * Math.Exp(-(x - head) * (x + head));
    }
}
