namespace Cogwright.Drivetrain.Bench;

/// <summary>Eigenvalues and eigenvectors of a small symmetric matrix by Jacobi's rotations.</summary>
/// <remarks>Source: G. H. Golub and C. F. Van Loan, Matrix Computations, section 8.5 (cyclic Jacobi).</remarks>
internal static class SymmetricEigen
{
    /// <summary>Sweeps after which it has long converged; it does so quadratically, in six to ten.</summary>
    private const int MostSweeps = 60;

    /// <summary>The eigenvalues, and the eigenvectors as the columns of a flat array row by row.</summary>
    internal static (double[] Values, double[] Vectors) Of(double[] matrix, int n)
    {
        var a = (double[])matrix.Clone();
        var v = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            v[(i * n) + i] = 1;
        }
        for (var sweep = 0; sweep < MostSweeps && OffDiagonal(a, n) > 0; sweep++)
        {
            for (var p = 0; p < n; p++)
            {
                for (var q = p + 1; q < n; q++)
                {
                    Rotate(a, v, n, p, q);
                }
            }
        }
        var values = new double[n];
        for (var i = 0; i < n; i++)
        {
            values[i] = a[(i * n) + i];
        }
        return (values, v);
    }

    private static double OffDiagonal(double[] a, int n)
    {
        var sum = 0.0;
        for (var p = 0; p < n; p++)
        {
            for (var q = p + 1; q < n; q++)
            {
                sum += Math.Abs(a[(p * n) + q]);
            }
        }
        return sum;
    }

    private static void Rotate(double[] a, double[] v, int n, int p, int q)
    {
        var apq = a[(p * n) + q];
        if (apq == 0)
        {
            return;
        }
        var tau = (a[(q * n) + q] - a[(p * n) + p]) / (2 * apq);
        var t = (tau >= 0 ? 1 : -1) / (Math.Abs(tau) + Math.Sqrt(1 + (tau * tau)));
        var c = 1 / Math.Sqrt(1 + (t * t));
        var s = t * c;
        for (var k = 0; k < n; k++)
        {
            (a[(k * n) + p], a[(k * n) + q]) = (
                (c * a[(k * n) + p]) - (s * a[(k * n) + q]),
                (s * a[(k * n) + p]) + (c * a[(k * n) + q])
            );
            (v[(k * n) + p], v[(k * n) + q]) = (
                (c * v[(k * n) + p]) - (s * v[(k * n) + q]),
                (s * v[(k * n) + p]) + (c * v[(k * n) + q])
            );
        }
        for (var k = 0; k < n; k++)
        {
            (a[(p * n) + k], a[(q * n) + k]) = (
                (c * a[(p * n) + k]) - (s * a[(q * n) + k]),
                (s * a[(p * n) + k]) + (c * a[(q * n) + k])
            );
        }
        a[(p * n) + q] = 0;
        a[(q * n) + p] = 0;
    }
}
