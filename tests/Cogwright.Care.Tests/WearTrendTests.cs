using System.Collections.Immutable;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;

namespace Cogwright.Care.Tests;

public sealed class WearTrendTests
{
    // NIST Statistical Reference Datasets, linear regression, Norris: y, x.
    private static readonly double[] Norris =
    [
        0.1,
        0.2,
        338.8,
        337.4,
        118.1,
        118.2,
        888.0,
        884.6,
        9.2,
        10.1,
        228.1,
        226.5,
        668.5,
        666.3,
        998.5,
        996.3,
        449.1,
        448.6,
        778.9,
        777.0,
        559.2,
        558.2,
        0.3,
        0.4,
        0.1,
        0.6,
        778.1,
        775.5,
        668.8,
        666.9,
        339.3,
        338.0,
        448.9,
        447.5,
        10.8,
        11.6,
        557.7,
        556.0,
        228.3,
        228.1,
        998.0,
        995.8,
        888.8,
        887.6,
        119.6,
        120.2,
        0.3,
        0.3,
        0.6,
        0.3,
        557.6,
        556.8,
        339.3,
        339.1,
        888.0,
        887.2,
        998.5,
        999.0,
        778.9,
        779.0,
        10.2,
        11.1,
        117.6,
        118.3,
        228.9,
        229.2,
        668.4,
        669.1,
        449.2,
        448.9,
        0.2,
        0.5,
    ];

    /// <summary>Certified values of NIST for Norris (data and values from memory).</summary>
    [Fact]
    public void Through_NorrisOfNist_GivesTheCertifiedValues()
    {
        var trend = WearTrend.Through([
            .. Norris.Chunk(2).Select(pair => new TrendPoint(pair[1], pair[0], 0.1)),
        ])!;

        Assert.Equal(-0.262323073774029, trend.Intercept, 1e-8);
        Assert.Equal(1.00211681802045, trend.Slope, 1e-11);
        Assert.Equal(0.232818234301152, Math.Sqrt(trend.InterceptVariance), 1e-8);
        Assert.Equal(0.429796848199937e-3, Math.Sqrt(trend.SlopeVariance), 1e-11);
        Assert.Equal(0.884796396144373, 0.1 * Math.Sqrt(trend.ReducedChiSquare), 1e-8);
        Assert.Equal(34, trend.DegreesOfFreedom);
    }

    private static readonly Gen<ImmutableArray<TrendPoint>> Points = Gen.Select(
            Gen.Double[0, 9000],
            Gen.Double[-0.2, 1.5],
            Gen.Double[0.02, 0.3],
            Gen.Double[0, 0.2],
            Gen.Bool
        )
        .Select(p => new TrendPoint(p.Item1, p.Item2, p.Item3, p.Item4, p.Item5 ? "g" : ""))
        .Array[3, 12]
        .Select(points => points.ToImmutableArray());

    /// <summary>Generalised least squares written out with a general-purpose library.</summary>
    [Fact]
    public void Through_RandomPoints_AgreesWithMathNet() =>
        Points
            .Where(points => points.Max(p => p.Usage) - points.Min(p => p.Usage) > 10)
            .Sample(
                points =>
                {
                    var n = points.Length;
                    var x = Matrix<double>.Build.Dense(
                        n,
                        2,
                        (i, j) => j == 0 ? 1 : points[i].Usage
                    );
                    var y = Vector<double>.Build.Dense(n, i => points[i].Value);
                    var v = Matrix<double>.Build.Dense(
                        n,
                        n,
                        (i, j) =>
                            (
                                i == j
                                || (points[i].SharedWith == "g" && points[j].SharedWith == "g")
                                    ? points[i].SharedUncertainty * points[j].SharedUncertainty
                                    : 0
                            ) + (i == j ? Math.Pow(points[i].OwnUncertainty, 2) : 0)
                    );
                    var w = v.Inverse();
                    var covariance = (x.Transpose() * w * x).Inverse();
                    var beta = covariance * x.Transpose() * w * y;
                    var r = y - x * beta;
                    var trend = WearTrend.Through(points)!;

                    Assert.True(trend.Scale >= 1);
                    Assert.Equal(r * w * r / (n - 2), trend.ReducedChiSquare, 1e-4);
                    Assert.Equal(
                        1,
                        Near(beta[0], trend.Intercept, Math.Sqrt(covariance[0, 0])),
                        1e-5
                    );
                    Assert.Equal(1, Near(beta[1], trend.Slope, Math.Sqrt(covariance[1, 1])), 1e-5);
                    Assert.Equal(1, trend.SlopeVariance / (covariance[1, 1] * trend.Scale), 1e-5);
                    Assert.Equal(
                        1,
                        trend.InterceptVariance / (covariance[0, 0] * trend.Scale),
                        1e-5
                    );
                },
                iter: 300
            );

    /// <summary>Weighted least squares as MathNet has it, for points that share nothing.</summary>
    [Fact]
    public void Through_IndependentPoints_IsMathNetsWeightedRegression()
    {
        ImmutableArray<TrendPoint> points =
        [
            new(0, 0, 0.05),
            new(800, 0.12, 0.08),
            new(1700, 0.22, 0.08),
            new(2600, 0.41, 0.04),
        ];
        var fit = MathNet.Numerics.LinearRegression.WeightedRegression.Weighted(
            Matrix<double>.Build.Dense(4, 2, (i, j) => j == 0 ? 1 : points[i].Usage),
            Vector<double>.Build.Dense(4, i => points[i].Value),
            Matrix<double>.Build.Diagonal(4, 4, i => Math.Pow(points[i].OwnUncertainty, -2))
        );

        var trend = WearTrend.Through(points)!;

        Assert.Equal(fit[0], trend.Intercept, 1e-9);
        Assert.Equal(fit[1], trend.Slope, 1e-12);
    }

    [Fact]
    public void Reaches_Value_IsWhereTheBandOfTheLineMeetsIt() =>
        Points.Sample(
            points =>
            {
                if (WearTrend.Through(points) is not { } trend || trend.Reaches(0.75) is not { } at)
                {
                    return;
                }
                Assert.True(at.Earliest <= at.Usage && at.Usage <= at.Latest);
                foreach (var end in (double[])[at.Earliest, at.Latest])
                {
                    var line = trend.At(end);
                    Assert.Equal(
                        0,
                        Math.Abs(line.Value - 0.75) - line.HalfWidth,
                        1e-6 * (1 + line.HalfWidth)
                    );
                }
            },
            iter: 500
        );

    /// <summary>
    /// The interval is right: of chains whose wear is known, the true crossing lies in it 95 times of 100. Where the
    /// readings say the truth it is on the safe side; where they scatter thrice what they say, one in ten is believed wrongly.
    /// </summary>
    [Theory]
    [InlineData(3.0, 0.88, 0.97)]
    [InlineData(4.0, 0.88, 0.98)]
    [InlineData(1.0, 0.95, 1.0)]
    public void Reaches_KnownWear_LiesInTheIntervalAsOftenAsSaid(
        double scatter,
        double least,
        double most
    )
    {
        var random = new Random(11);
        const double Limit = 0.5;
        const double PerKm = 0.00025;
        const double U = 0.02;
        var (covered, told) = (0, 0);
        for (var run = 0; run < 4000; run++)
        {
            double Gauss() =>
                Math.Sqrt(-2 * Math.Log(1 - random.NextDouble()))
                * Math.Cos(2 * Math.PI * random.NextDouble());
            ImmutableArray<TrendPoint> points =
            [
                .. Enumerable
                    .Range(0, 6)
                    .Select(i => new TrendPoint(
                        i * 300,
                        PerKm * i * 300 + scatter * U * Gauss(),
                        U
                    )),
            ];
            if (WearTrend.Through(points)!.Reaches(Limit) is { } at)
            {
                told++;
                covered += at.Earliest <= Limit / PerKm && Limit / PerKm <= at.Latest ? 1 : 0;
            }
        }

        Assert.True(told > 2500);
        Assert.True(
            (double)covered / told >= least && (double)covered / told <= most,
            $"{covered} of {told}"
        );
    }

    /// <summary>Three readings that lie on a line as near as they say suffice for a forecast.</summary>
    [Fact]
    public void Reaches_ThreeReadingsThatAgree_Suffice()
    {
        var trend = WearTrend.Through([
            new(2490, -3.4, 0.1),
            new(3880, -2.5, 0.1),
            new(4860, -1.9, 0.1),
        ])!;

        Assert.False(trend.ScattersMore);
        Assert.Equal(9, trend.DegreesOfFreedom);
        Assert.InRange(trend.Reaches(-1)!.Usage, 6200, 6400);
    }

    [Fact]
    public void Through_TooFewOrAtOnePlace_IsNoLine()
    {
        Assert.Null(WearTrend.Through([new(0, 0, 0.05), new(500, 0.1, 0.05)]));
        Assert.Null(
            WearTrend.Through([new(500, 0, 0.05), new(500, 0.1, 0.05), new(500, 0.1, 0.05)])
        );
        Assert.Throws<ArgumentException>(() =>
            WearTrend.Through([new(0, double.NaN, 0.05), new(1, 0.1, 0.05), new(2, 0.1, 0.05)])
        );
    }

    [Fact]
    public void Reaches_NoRiseProven_CannotSay()
    {
        var flat = WearTrend.Through([
            new(0, 0.1, 0.05),
            new(500, 0.1, 0.05),
            new(900, 0.1, 0.05),
        ])!;
        var falling = WearTrend.Through([
            new(0, 0.5, 0.001),
            new(500, 0.4, 0.001),
            new(900, 0.32, 0.001),
        ])!;

        Assert.Null(flat.Reaches(0.5));
        Assert.Null(falling.Reaches(0.5));
    }

    [Fact]
    public void Through_WhatReadingsShare_DoesNotAverageOut()
    {
        static WearTrend Line(double own, double shared) =>
            WearTrend.Through([
                .. Enumerable
                    .Range(1, 10)
                    .Select(i => new TrendPoint(i * 100, 0.05 * i, own, shared, "gauge")),
            ])!;
        var alone = Line(0.1, 0).At(550).HalfWidth;
        var together = Line(0.001, 0.1).At(550).HalfWidth;

        Assert.True(together > 3 * alone, $"{together} against {alone}");
    }

    private static double Near(double expected, double actual, double unit) =>
        1 + (actual - expected) / unit;
}
