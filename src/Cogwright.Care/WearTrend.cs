using System.Collections.Immutable;
using Cogwright.Measurement;

namespace Cogwright.Care;

/// <summary>A measured value at what a counter stood at. Immutable.</summary>
/// <param name="Usage">km or hours.</param>
/// <param name="Value">The value.</param>
/// <param name="OwnUncertainty">Standard uncertainty of this point alone.</param>
/// <param name="SharedUncertainty">Standard uncertainty shared with all points of <paramref name="SharedWith"/>.</param>
/// <param name="SharedWith">Which those are; empty when none.</param>
public sealed record TrendPoint(
    double Usage,
    double Value,
    double OwnUncertainty,
    double SharedUncertainty = 0,
    string SharedWith = ""
);

/// <summary>A value and half the width of its interval, both in the unit of the value.</summary>
/// <param name="Value">The value on the line.</param>
/// <param name="HalfWidth">Half the width of the interval of 95 %.</param>
public readonly record struct TrendValue(double Value, double HalfWidth);

/// <summary>
/// The straight line a + b·x through points with known uncertainties, some of them shared, by generalised least squares. Immutable.
/// </summary>
/// <remarks>
/// β = (XᵀV⁻¹X)⁻¹XᵀV⁻¹y with V = diag(u²) + what is shared. Where the points lie about the line as near as they say, their
/// uncertainties are believed as far as such are known, with ν = n − 2 + 8; where they scatter more, the scatter alone counts: all
/// variances are enlarged by χ²/ν, with ν = n − 2. They are never made smaller. See docs/theory/wear.md.
/// </remarks>
public sealed record WearTrend
{
    /// <summary>Fewest points of a line that can tell its own uncertainty.</summary>
    public const int FewestPoints = 3;

    /// <summary>
    /// Degrees of freedom of the points' own uncertainties: known to about a quarter, ν = ½·0.25⁻² = 8 (GUM, G.4.2).
    /// </summary>
    public const int DegreesOfUncertainties = 8;

    /// <summary>Part of the scale of V that is added to its diagonal: points without uncertainty must not stop the fit.</summary>
    private const double Floor = 1e-9;

    private WearTrend() { }

    /// <summary>Value of the line where the counter stands at 0.</summary>
    public double Intercept { get; private init; }

    /// <summary>Rise of the line per km or hour.</summary>
    public double Slope { get; private init; }

    /// <summary>Variance of <see cref="Intercept"/>, enlarged by <see cref="Scale"/>.</summary>
    public double InterceptVariance { get; private init; }

    /// <summary>Covariance of intercept and slope, enlarged likewise.</summary>
    public double Covariance { get; private init; }

    /// <summary>Variance of <see cref="Slope"/>, enlarged likewise.</summary>
    public double SlopeVariance { get; private init; }

    /// <summary>χ²/(n − 2) of the points about the line.</summary>
    public double ReducedChiSquare { get; private init; }

    /// <summary>What the variances were enlarged by; at least 1.</summary>
    public double Scale { get; private init; }

    /// <summary>Whether the points scatter more than they say (χ² beyond its 95 % point), so that the scatter alone counts.</summary>
    public bool ScattersMore { get; private init; }

    /// <summary>Degrees of freedom ν of <see cref="T"/>.</summary>
    public int DegreesOfFreedom { get; private init; }

    /// <summary>Student's t for 95 % on both sides.</summary>
    public double T { get; private init; }

    /// <summary>The points.</summary>
    public ImmutableArray<TrendPoint> Points { get; private init; }

    /// <summary>
    /// The line, or null when there are fewer than <see cref="FewestPoints"/> or all at one place.
    /// </summary>
    /// <param name="points">The points, in any order; numbers finite, uncertainties not negative.</param>
    /// <exception cref="ArgumentException">A number is not finite or an uncertainty negative.</exception>
    public static WearTrend? Through(ImmutableArray<TrendPoint> points)
    {
        foreach (var point in points)
        {
            _ = new Reading(point.Value, point.OwnUncertainty).With(point.SharedUncertainty);
            _ = new Reading(point.Usage, 0);
        }
        var n = points.Length;
        if (n < FewestPoints || points.All(point => point.Usage == points[0].Usage))
        {
            return null;
        }
        // Counted in the widest stretch from the first point, so that 10 000 km and 1 km are solved alike.
        var origin = points.Min(point => point.Usage);
        var unit = points.Max(point => point.Usage) - origin;
        var factor = Cholesky(Variances(points));
        var ones = Solve(factor, [.. Enumerable.Repeat(1.0, n)]);
        var x = Solve(factor, [.. points.Select(p => (p.Usage - origin) / unit)]);
        var y = Solve(factor, [.. points.Select(p => p.Value)]);
        var (s11, s1x, sxx) = (Dot(ones, ones), Dot(ones, x), Dot(x, x));
        var determinant = s11 * sxx - s1x * s1x;
        if (!(determinant > 0))
        {
            return null;
        }
        var (t1, tx) = (Dot(ones, y), Dot(x, y));
        var a = (sxx * t1 - s1x * tx) / determinant;
        var b = (s11 * tx - s1x * t1) / determinant;
        var chiSquare = 0.0;
        for (var i = 0; i < n; i++)
        {
            chiSquare += Math.Pow(y[i] - a * ones[i] - b * x[i], 2);
        }
        var degrees = n - 2;
        var scattersMore = chiSquare > GreatestChiSquare(degrees);
        var enlarged = scattersMore
            ? chiSquare / degrees
            : Math.Max(
                1,
                (DegreesOfUncertainties + chiSquare) / (DegreesOfUncertainties + degrees)
            );
        var freedom = scattersMore ? degrees : degrees + DegreesOfUncertainties;
        var scale = enlarged / determinant;
        var (vaa, vab, vbb) = (sxx * scale, -s1x * scale, s11 * scale);
        // Back to the counter's own zero and unit: a' = a − b·o/w, b' = b/w.
        var shift = origin / unit;
        return new()
        {
            Intercept = a - b * shift,
            Slope = b / unit,
            InterceptVariance = vaa - 2 * shift * vab + shift * shift * vbb,
            Covariance = (vab - shift * vbb) / unit,
            SlopeVariance = vbb / unit / unit,
            ReducedChiSquare = chiSquare / degrees,
            Scale = enlarged,
            ScattersMore = scattersMore,
            DegreesOfFreedom = freedom,
            T = Student.Quantile(0.975, freedom),
            Points = points,
        };
    }

    /// <summary>The line at a place, with the interval of 95 % of the line itself.</summary>
    /// <param name="usage">km or hours.</param>
    public TrendValue At(double usage) =>
        new(
            Intercept + Slope * usage,
            T
                * Math.Sqrt(
                    Math.Max(
                        0,
                        InterceptVariance + 2 * usage * Covariance + usage * usage * SlopeVariance
                    )
                )
        );

    /// <summary>
    /// Where the line reaches a value from below: the inverse interval after Fieller, which is right also for few points.
    /// Null when a rise is not proven with 95 % (then that interval is no interval).
    /// </summary>
    /// <param name="value">The value to reach.</param>
    public TrendCrossing? Reaches(double value)
    {
        var t2 = T * T;
        var above = Intercept - value;
        var a = Slope * Slope - t2 * SlopeVariance;
        if (Slope <= 0 || a <= 0)
        {
            return null;
        }
        var half = Slope * above - t2 * Covariance;
        var c = above * above - t2 * InterceptVariance;
        // Never negative while a > 0, but for rounding: the line's own crossing lies in the interval.
        var root = Math.Sqrt(Math.Max(0, half * half - a * c));
        return new(-above / Slope, (-half - root) / a, (-half + root) / a);
    }

    // The 95 % point of χ² after Wilson and Hilferty, within 3 % of the tables: it only decides what is believed.
    private static double GreatestChiSquare(int degrees)
    {
        var part = 2 / (9.0 * degrees);
        return degrees * Math.Pow(1 - part + Judgement.GuardFactor * Math.Sqrt(part), 3);
    }

    private static double[,] Variances(ImmutableArray<TrendPoint> points)
    {
        var n = points.Length;
        var v = new double[n, n];
        var largest = 0.0;
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                var (one, other) = (points[i], points[j]);
                var together =
                    i == j || (one.SharedWith.Length > 0 && one.SharedWith == other.SharedWith);
                v[i, j] =
                    (together ? one.SharedUncertainty * other.SharedUncertainty : 0)
                    + (i == j ? one.OwnUncertainty * one.OwnUncertainty : 0);
            }
            largest = Math.Max(largest, v[i, i]);
        }
        for (var i = 0; i < n; i++)
        {
            v[i, i] += largest == 0 ? 1e-12 : Floor * largest;
        }
        return v;
    }

    // V = L·Lᵀ; V is positive definite by its floor.
    private static double[,] Cholesky(double[,] v)
    {
        var n = v.GetLength(0);
        var l = new double[n, n];
        for (var j = 0; j < n; j++)
        {
            for (var i = j; i < n; i++)
            {
                var sum = v[i, j];
                for (var k = 0; k < j; k++)
                {
                    sum -= l[i, k] * l[j, k];
                }
                l[i, j] = i == j ? Math.Sqrt(sum) : sum / l[j, j];
            }
        }
        return l;
    }

    private static double[] Solve(double[,] l, double[] right)
    {
        var result = new double[right.Length];
        for (var i = 0; i < right.Length; i++)
        {
            var sum = right[i];
            for (var k = 0; k < i; k++)
            {
                sum -= l[i, k] * result[k];
            }
            result[i] = sum / l[i, i];
        }
        return result;
    }

    private static double Dot(double[] a, double[] b) => a.Zip(b, (p, q) => p * q).Sum();
}

/// <summary>Where a line reaches a value. Immutable.</summary>
/// <param name="Usage">Best value (km or hours).</param>
/// <param name="Earliest">Lower end of the interval of 95 %.</param>
/// <param name="Latest">Upper end of it.</param>
public sealed record TrendCrossing(double Usage, double Earliest, double Latest);
