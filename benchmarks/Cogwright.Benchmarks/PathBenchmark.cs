using BenchmarkDotNet.Attributes;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;

namespace Cogwright.Benchmarks;

/// <summary>One evaluation of the path, with its slope, against the arithmetic that it cannot do without.</summary>
[MemoryDiagnoser]
public class PathBenchmark
{
    private readonly NaiveMechanism gear = ExampleGears.All()[5];
    private CageClosure closure = ExampleGears.All()[5].Careful();
    private double angle;
    private double x = 1.25;

    /// <summary>Two arctangents, one sine with cosine, four square roots: the least that a path takes.</summary>
    [Benchmark(Baseline = true)]
    public double ArithmeticFloor()
    {
        x = x < 2 ? x + 1e-3 : 1;
        var (sin, cos) = Math.SinCos(x);
        var first = Math.Sqrt(3 + x);
        var second = Math.Sqrt(5 + cos);
        var third = Math.Sqrt(7 + sin);
        var fourth = Math.Sqrt(9 + (x * cos));
        return Math.Atan2(first + sin, second) + Math.Atan2(third, fourth + cos);
    }

    [Benchmark]
    public double Ours()
    {
        Next();
        return closure.PathPitches(angle);
    }

    [Benchmark]
    public double OursWithItsStepBound()
    {
        Next();
        return closure.PathPitches(angle) + closure.CurvatureBound(0.1);
    }

    [Benchmark]
    public double Twin()
    {
        Next();
        return NaiveClosure.PathPitches(gear, angle)!.Value;
    }

    private void Next() => angle = angle < 0.5 ? angle + 1e-3 : -0.5;
}
