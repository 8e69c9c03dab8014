using Cogwright.Drivetrain.Bench;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace Cogwright.Drivetrain.Tests;

/// <summary>
/// NIST's nonlinear regression problems (Statistical Reference Datasets), data and certified values written down from
/// memory. Memory is checked by the sum of squares: a wrong figure among the data would not give the certified one to
/// ten digits. MathNet solves the same data beside it.
/// </summary>
public class LeastSquaresTests
{
    /// <summary>One problem; the start is NIST's first, the far one.</summary>
    public sealed record Problem(
        string Name,
        double[] X,
        double[] Y,
        Func<double[], double, double> Model,
        double[] Start,
        double[] Certified,
        double SumOfSquares
    )
    {
        public override string ToString() => Name;
    }

    public static TheoryData<Problem> Problems { get; } =
    [
        new Problem(
            "Misra1a",
            [
                77.6,
                114.9,
                141.1,
                190.8,
                239.9,
                289.0,
                332.8,
                378.4,
                434.8,
                477.3,
                536.8,
                593.1,
                689.1,
                760.0,
            ],
            [
                10.07,
                14.73,
                17.94,
                23.93,
                29.61,
                35.18,
                40.02,
                44.82,
                50.76,
                55.05,
                61.01,
                66.40,
                75.47,
                81.78,
            ],
            (b, x) => b[0] * (1 - Math.Exp(-b[1] * x)),
            [500, 0.0001],
            [2.3894212918e2, 5.5015643181e-4],
            1.2455138894e-1
        ),
        new Problem(
            "DanWood",
            [1.309, 1.471, 1.490, 1.565, 1.611, 1.680],
            [2.138, 3.421, 3.597, 4.340, 4.882, 5.660],
            (b, x) => b[0] * Math.Pow(x, b[1]),
            [1, 5],
            [7.6886226176e-1, 3.8604055871],
            4.3173084083e-3
        ),
        new Problem(
            "BoxBOD",
            [1, 2, 3, 5, 7, 10],
            [109, 149, 149, 191, 213, 224],
            (b, x) => b[0] * (1 - Math.Exp(-b[1] * x)),
            [100, 0.75],
            [2.1380940889e2, 5.4723748542e-1],
            1.1680088766e3
        ),
        new Problem(
            "Rat42",
            [9, 14, 21, 28, 42, 57, 63, 70, 79],
            [8.930, 10.800, 18.590, 22.330, 39.350, 56.110, 61.730, 64.620, 67.080],
            (b, x) => b[0] / (1 + Math.Exp(b[1] - (b[2] * x))),
            [100, 1, 0.1],
            [7.2462237576e1, 2.6180768402, 6.7359200066e-2],
            8.0565229338
        ),
        new Problem(
            "MGH09",
            [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625],
            [
                0.1957,
                0.1947,
                0.1735,
                0.1600,
                0.0844,
                0.0627,
                0.0456,
                0.0342,
                0.0323,
                0.0235,
                0.0246,
            ],
            (b, x) => b[0] * ((x * x) + (x * b[1])) / ((x * x) + (x * b[2]) + b[3]),
            [0.25, 0.39, 0.415, 0.39],
            [1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1],
            3.0750560385e-4
        ),
    ];

    [Theory]
    [MemberData(nameof(Problems), DisableDiscoveryEnumeration = true)]
    public void LeastSquares_NistProblem_GivesCertifiedValues(Problem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var found = LeastSquares.Minimize(
            (b, r) =>
            {
                var p = b.ToArray();
                for (var i = 0; i < r.Length; i++)
                {
                    r[i] = problem.Y[i] - problem.Model(p, problem.X[i]);
                }
                return true;
            },
            problem.Start,
            problem.X.Length
        );
        Assert.Equal(LeastSquaresEnd.Converged, found.End);
        Assert.Equal(1, found.SumOfSquares / problem.SumOfSquares, 1e-9);
        for (var i = 0; i < problem.Certified.Length; i++)
        {
            Assert.Equal(1, found.X[i] / problem.Certified[i], 1e-6);
        }
    }

    [Theory]
    [MemberData(nameof(Problems), DisableDiscoveryEnumeration = true)]
    public void MathNet_SameProblem_GivesTheSame(Problem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        var vector = Vector<double>.Build;
        var objective = ObjectiveFunction.NonlinearModel(
            (p, x) => x.Map(at => problem.Model([.. p], at)),
            vector.Dense(problem.X),
            vector.Dense(problem.Y)
        );
        // MathNet's method strays from the far start of some of these; the certified values, moved, are its start.
        var start = vector.Dense([.. problem.Certified.Select(b => b * 1.05)]);
        var found = new LevenbergMarquardtMinimizer(maximumIterations: 1000).FindMinimum(
            objective,
            start
        );
        for (var i = 0; i < problem.Certified.Length; i++)
        {
            Assert.Equal(1, found.MinimizingPoint[i] / problem.Certified[i], 1e-4);
        }
    }

    [Fact]
    public void LeastSquares_RankDeficient_StaysFinite()
    {
        // Only the sum of the two is seen: the damping keeps the step finite and the residual still goes to nothing.
        var found = LeastSquares.Minimize(
            (x, r) =>
            {
                r[0] = x[0] + x[1] - 3;
                return true;
            },
            [0, 0],
            1
        );
        Assert.Equal(3, found.X[0] + found.X[1], 1e-9);
    }

    [Fact]
    public void LeastSquares_StartWithoutResiduals_SaysSo()
    {
        var found = LeastSquares.Minimize((_, _) => false, [1], 1);
        Assert.Equal(LeastSquaresEnd.NoStart, found.End);
    }

    [Fact]
    public void SymmetricEigen_RandomMatrix_AgreesWithMathNet()
    {
        var random = new Random(1);
        const int n = 12;
        var flat = new double[n * n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                flat[(i * n) + j] = flat[(j * n) + i] = random.NextDouble() - 0.5;
            }
        }
        var (values, vectors) = SymmetricEigen.Of(flat, n);
        var matrix = Matrix<double>.Build.Dense(n, n, (i, j) => flat[(i * n) + j]);
        var theirs = matrix.Evd(Symmetricity.Symmetric).EigenValues.Select(v => v.Real).Order();
        Assert.All(
            values.Order().Zip(theirs),
            pair => Assert.Equal(pair.Second, pair.First, 1e-12)
        );
        for (var k = 0; k < n; k++)
        {
            var v = Vector<double>.Build.Dense(n, i => vectors[(i * n) + k]);
            Assert.Equal(0, ((matrix * v) - (values[k] * v)).L2Norm(), 1e-12);
        }
    }
}
