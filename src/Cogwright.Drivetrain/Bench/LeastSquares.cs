namespace Cogwright.Drivetrain.Bench;

/// <summary>Fills the residuals at a point; false when they do not exist there.</summary>
internal delegate bool ResidualFunction(ReadOnlySpan<double> x, Span<double> residuals);

/// <summary>How a least-squares search ended.</summary>
internal enum LeastSquaresEnd
{
    /// <summary>No step lowers the sum of squares any more.</summary>
    Converged,

    /// <summary>The bound on iterations came first.</summary>
    TooManyIterations,

    /// <summary>The residuals do not exist at the start.</summary>
    NoStart,
}

/// <summary>What a least-squares search found.</summary>
/// <param name="End">How it ended.</param>
/// <param name="X">The parameters.</param>
/// <param name="Residuals">The residuals there.</param>
/// <param name="Jacobian">Their derivatives there, row by row: residual × parameter.</param>
/// <param name="SumOfSquares">The sum of their squares.</param>
/// <param name="Iterations">Steps taken.</param>
internal sealed record LeastSquaresResult(
    LeastSquaresEnd End,
    double[] X,
    double[] Residuals,
    double[] Jacobian,
    double SumOfSquares,
    int Iterations
);

/// <summary>
/// Nonlinear least squares for a few dozen parameters: Levenberg and Marquardt's method with Marquardt's scaling
/// (D. Marquardt, SIAM J. Appl. Math. 11 (1963) 431) and the damping rule of H. B. Nielsen (IMM-REP-1999-05).
/// Dense, on flat arrays; derivatives are central differences.
/// </summary>
internal static class LeastSquares
{
    /// <summary>Relative step of a central difference: the cube root of the rounding unit balances its two errors.</summary>
    private const double RelativeStep = 6e-6;

    /// <summary>The search ends when the model promises to lower the sum by less than this part of it: rounding.</summary>
    internal const double LeastPromise = 1e-15;

    /// <summary>First damping, as a part of the diagonal.</summary>
    private const double FirstDamping = 1e-3;

    /// <summary>Damping beyond which a step is too short for arithmetic to see.</summary>
    private const double MostDamping = 1e16;

    /// <summary>The least sum of squares near a start.</summary>
    /// <param name="function">The residuals.</param>
    /// <param name="start">Where to start.</param>
    /// <param name="residuals">How many residuals there are.</param>
    /// <param name="scales">The size of a change in each parameter that is worth telling; |start| or 1 when null.</param>
    /// <param name="mostIterations">Bound on the steps.</param>
    /// <param name="leastPromise">Part of the sum that is still worth a step.</param>
    internal static LeastSquaresResult Minimize(
        ResidualFunction function,
        ReadOnlySpan<double> start,
        int residuals,
        double[]? scales = null,
        int mostIterations = 500,
        double leastPromise = LeastPromise
    )
    {
        LeastSquaresResult? result = null;
        var steps = Steps(
            function,
            start.ToArray(),
            residuals,
            scales,
            mostIterations,
            leastPromise,
            found => result = found
        );
        foreach (var _ in steps)
        {
            // Nobody waits for anything in between.
        }
        return result!;
    }

    /// <summary>
    /// The same search one iteration at a time, so that whoever draws a screen on the same thread can do so in between.
    /// </summary>
    /// <returns>The number of the iteration that comes next; <paramref name="found"/> is called before the last one ends.</returns>
    internal static IEnumerable<int> Steps(
        ResidualFunction function,
        double[] start,
        int residuals,
        double[]? scales,
        int mostIterations,
        double leastPromise,
        Action<LeastSquaresResult> found
    )
    {
        var n = start.Length;
        var x = (double[])start.Clone();
        var r = new double[residuals];
        var jacobian = new double[residuals * n];
        if (!function(x, r))
        {
            found(new(LeastSquaresEnd.NoStart, x, r, jacobian, double.NaN, 0));
            yield break;
        }
        var sum = Dot(r, r);
        var normal = new double[n * n];
        var damped = new double[n * n];
        var gradient = new double[n];
        var diagonal = new double[n];
        var step = new double[n];
        var trial = new double[n];
        var trialResiduals = new double[residuals];
        var damping = FirstDamping;
        var growth = 2.0;
        var fresh = false;
        for (var iteration = 0; iteration < mostIterations; iteration++)
        {
            yield return iteration;
            if (!fresh)
            {
                Differentiate(function, x, r, jacobian, scales);
                Normal(jacobian, r, normal, gradient);
                for (var i = 0; i < n; i++)
                {
                    diagonal[i] = Math.Max(diagonal[i], normal[(i * n) + i]);
                    diagonal[i] = diagonal[i] > 0 ? diagonal[i] : 1;
                }
                fresh = true;
            }
            Array.Copy(normal, damped, normal.Length);
            for (var i = 0; i < n; i++)
            {
                damped[(i * n) + i] += damping * diagonal[i];
            }
            var better = false;
            if (Cholesky.Factor(damped, n))
            {
                Array.Copy(gradient, step, n);
                Cholesky.Solve(damped, n, step);
                var promise = 0.0;
                for (var i = 0; i < n; i++)
                {
                    trial[i] = x[i] - step[i];
                    promise += step[i] * ((damping * diagonal[i] * step[i]) + gradient[i]);
                }
                if (promise <= leastPromise * sum)
                {
                    found(new(LeastSquaresEnd.Converged, x, r, jacobian, sum, iteration));
                    yield break;
                }
                if (function(trial, trialResiduals))
                {
                    var trialSum = Dot(trialResiduals, trialResiduals);
                    if (trialSum < sum)
                    {
                        better = true;
                        var gain = 2 * ((sum - trialSum) / promise) - 1;
                        damping *= Math.Max(1.0 / 3, 1 - (gain * gain * gain));
                        growth = 2;
                        (x, trial) = (trial, x);
                        (r, trialResiduals) = (trialResiduals, r);
                        sum = trialSum;
                        fresh = false;
                    }
                }
            }
            if (!better)
            {
                damping *= growth;
                growth *= 2;
                if (damping > MostDamping)
                {
                    // No step, however short, goes down any more: this is as low as arithmetic can see.
                    found(new(LeastSquaresEnd.Converged, x, r, jacobian, sum, iteration));
                    yield break;
                }
            }
        }
        found(new(LeastSquaresEnd.TooManyIterations, x, r, jacobian, sum, mostIterations));
    }

    /// <summary>Derivatives by central differences; by one side where the other does not exist.</summary>
    private static void Differentiate(
        ResidualFunction function,
        double[] x,
        double[] r,
        double[] jacobian,
        double[]? scales
    )
    {
        var n = x.Length;
        var above = new double[r.Length];
        var below = new double[r.Length];
        for (var j = 0; j < n; j++)
        {
            var at = x[j];
            var size = Math.Max(Math.Abs(at), scales?[j] ?? 0);
            var h = RelativeStep * (size > 0 ? size : 1);
            x[j] = at + h;
            var width = x[j] - at;
            if (!function(x, above))
            {
                r.CopyTo(above, 0);
                width = 0;
            }
            x[j] = at - h;
            if (function(x, below))
            {
                width += at - x[j];
            }
            else
            {
                r.CopyTo(below, 0);
            }
            x[j] = at;
            for (var i = 0; i < r.Length; i++)
            {
                jacobian[(i * n) + j] = width > 0 ? (above[i] - below[i]) / width : 0;
            }
        }
    }

    /// <summary>JᵀJ and Jᵀr.</summary>
    private static void Normal(double[] jacobian, double[] r, double[] normal, double[] gradient)
    {
        var n = gradient.Length;
        Array.Clear(normal);
        Array.Clear(gradient);
        for (var i = 0; i < r.Length; i++)
        {
            var row = jacobian.AsSpan(i * n, n);
            for (var j = 0; j < n; j++)
            {
                gradient[j] += row[j] * r[i];
                for (var k = 0; k < n; k++)
                {
                    normal[(j * n) + k] += row[j] * row[k];
                }
            }
        }
    }

    private static double Dot(double[] a, double[] b)
    {
        var sum = 0.0;
        for (var i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }
        return sum;
    }
}
