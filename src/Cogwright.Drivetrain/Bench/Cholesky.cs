namespace Cogwright.Drivetrain.Bench;

/// <summary>Cholesky's factor of a small symmetric positive definite matrix, row by row in a flat array.</summary>
/// <remarks>Source: G. H. Golub and C. F. Van Loan, Matrix Computations, section 4.2.</remarks>
internal static class Cholesky
{
    /// <summary>Puts the factor into the lower half; false when the matrix is not positive definite.</summary>
    internal static bool Factor(double[] a, int n)
    {
        for (var j = 0; j < n; j++)
        {
            for (var i = j; i < n; i++)
            {
                var sum = a[(i * n) + j];
                for (var k = 0; k < j; k++)
                {
                    sum -= a[(i * n) + k] * a[(j * n) + k];
                }
                if (i == j)
                {
                    if (!(sum > 0) || !double.IsFinite(sum))
                    {
                        return false;
                    }
                    a[(j * n) + j] = Math.Sqrt(sum);
                }
                else
                {
                    a[(i * n) + j] = sum / a[(j * n) + j];
                }
            }
        }
        return true;
    }

    /// <summary>Solves with a factor, in place.</summary>
    internal static void Solve(double[] factor, int n, Span<double> b)
    {
        for (var i = 0; i < n; i++)
        {
            for (var k = 0; k < i; k++)
            {
                b[i] -= factor[(i * n) + k] * b[k];
            }
            b[i] /= factor[(i * n) + i];
        }
        for (var i = n - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < n; k++)
            {
                b[i] -= factor[(k * n) + i] * b[k];
            }
            b[i] /= factor[(i * n) + i];
        }
    }

    /// <summary>The inverse of the matrix with that factor.</summary>
    internal static double[] Inverse(double[] factor, int n)
    {
        var inverse = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            var row = inverse.AsSpan(i * n, n);
            row[i] = 1;
            Solve(factor, n, row);
        }
        return inverse;
    }
}
