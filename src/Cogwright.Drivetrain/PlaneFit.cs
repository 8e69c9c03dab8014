using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>
/// Weighted least squares of z = c + f·sin α + t·cos α, with α from straight up: three unknowns, solved by the cofactors of
/// the normal matrix. Uncertainties are carried through the linear solution (JCGM 102, 6.2.1).
/// </summary>
internal sealed record PlaneFit
{
    /// <summary>
    /// Least determinant of the scaled normal matrix. Four quarters give 0.25, three of them 0.15, readings within three
    /// hours less than this: there a reading error would appear in the slopes more than five times larger.
    /// </summary>
    private const double LeastDeterminant = 2e-3;

    internal required double Constant { get; init; }

    internal required double Front { get; init; }

    internal required double Top { get; init; }

    internal required double FrontVariance { get; init; }

    internal required double TopVariance { get; init; }

    internal required double FrontTopCovariance { get; init; }

    internal required ImmutableArray<double> Residuals { get; init; }

    internal required ImmutableArray<double> ResidualUncertainties { get; init; }

    /// <summary>The fit, or null when the clock positions do not tell a plane.</summary>
    internal static PlaneFit? Of(ImmutableArray<RimReading> readings)
    {
        var n = readings.Length;
        var isWeighted = readings.All(r => r.StandardUncertaintyMm > 0);
        // Scaled by the largest uncertainty, so that the determinant tells of angles only.
        var scale = isWeighted ? readings.Max(r => r.StandardUncertaintyMm) : 1;
        var rows = new double[n][];
        var weights = new double[n];
        var normal = new double[3, 3];
        var plain = new double[3, 3];
        for (var i = 0; i < n; i++)
        {
            var (sin, cos) = Math.SinCos(readings[i].FromTopRad);
            rows[i] = [1, sin, cos];
            var ratio = isWeighted ? scale / readings[i].StandardUncertaintyMm : 1;
            weights[i] = ratio * ratio;
            for (var r = 0; r < 3; r++)
            {
                for (var c = 0; c < 3; c++)
                {
                    normal[r, c] += weights[i] * rows[i][r] * rows[i][c];
                    plain[r, c] += rows[i][r] * rows[i][c] / n;
                }
            }
        }
        if (Determinant(plain) < LeastDeterminant)
        {
            return null;
        }
        var inverse = Inverse(normal);
        // gain[k][i]: how much of reading i goes into unknown k.
        var gain = new double[3][];
        for (var k = 0; k < 3; k++)
        {
            gain[k] =
            [
                .. Enumerable
                    .Range(0, n)
                    .Select(i =>
                        weights[i]
                        * (
                            (inverse[k, 0] * rows[i][0])
                            + (inverse[k, 1] * rows[i][1])
                            + (inverse[k, 2] * rows[i][2])
                        )
                    ),
            ];
        }
        double Solved(int k) => readings.Select((r, i) => gain[k][i] * r.OutboardMm).Sum();
        double Covariance(int a, int b) =>
            readings
                .Select((r, i) => gain[a][i] * gain[b][i] * Square(r.StandardUncertaintyMm))
                .Sum();
        var solved = (double[])[Solved(0), Solved(1), Solved(2)];
        double Fitted(double[] row) =>
            (row[0] * solved[0]) + (row[1] * solved[1]) + (row[2] * solved[2]);
        double Leverage(int i, int j) =>
            (rows[i][0] * gain[0][j]) + (rows[i][1] * gain[1][j]) + (rows[i][2] * gain[2][j]);
        double ResidualVariance(int i) =>
            readings
                .Select(
                    (r, j) => Square(((i == j ? 1 : 0) - Leverage(i, j)) * r.StandardUncertaintyMm)
                )
                .Sum();
        return new()
        {
            Constant = solved[0],
            Front = solved[1],
            Top = solved[2],
            FrontVariance = Covariance(1, 1),
            TopVariance = Covariance(2, 2),
            FrontTopCovariance = Covariance(1, 2),
            Residuals = [.. readings.Select((r, i) => r.OutboardMm - Fitted(rows[i]))],
            ResidualUncertainties =
            [
                .. Enumerable.Range(0, n).Select(i => Math.Sqrt(ResidualVariance(i))),
            ],
        };
    }

    private static double Square(double value) => value * value;

    private static double Determinant(double[,] m) =>
        (m[0, 0] * Cofactor(m, 0, 0))
        + (m[0, 1] * Cofactor(m, 0, 1))
        + (m[0, 2] * Cofactor(m, 0, 2));

    // Indices taken in turn carry the sign of the cofactor with them.
    private static double Cofactor(double[,] m, int row, int column)
    {
        var (r1, r2) = ((row + 1) % 3, (row + 2) % 3);
        var (c1, c2) = ((column + 1) % 3, (column + 2) % 3);
        return (m[r1, c1] * m[r2, c2]) - (m[r1, c2] * m[r2, c1]);
    }

    private static double[,] Inverse(double[,] m)
    {
        var determinant = Determinant(m);
        var inverse = new double[3, 3];
        for (var r = 0; r < 3; r++)
        {
            for (var c = 0; c < 3; c++)
            {
                inverse[r, c] = Cofactor(m, c, r) / determinant;
            }
        }
        return inverse;
    }
}
