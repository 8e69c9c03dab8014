using BenchmarkDotNet.Attributes;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;

namespace Cogwright.Benchmarks;

/// <summary>
/// The 2×12 gear table of the worked example: ours, with everything it says of a gear, against the twin's bare cage
/// angles.
/// </summary>
[MemoryDiagnoser]
public class GearTableBenchmark
{
    private readonly NaiveMechanism[] gears = ExampleGears.All();

    [Benchmark(Baseline = true)]
    public GearTable Ours() => GearTableSolver.Solve(Example.Spec, ExampleGears.Pitches);

    /// <summary>The same walk in fixed steps of a degree, then MathNet's Brent: it may miss closures that ours cannot.</summary>
    [Benchmark]
    public double TwinWalkOfOneDegree() => Walked(1);

    /// <summary>The same walk in the steps that the tests use.</summary>
    [Benchmark]
    public double TwinWalkOfAFiftieth() => Walked(0.02);

    /// <summary>The twin is handed the bracket from stop to stop; only the example is so kind as to allow it.</summary>
    [Benchmark]
    public double TwinHandedTheBracket()
    {
        var sum = 0.0;
        foreach (var gear in gears)
        {
            sum += NaiveClosure.RootBetween(gear, gear.RearStopRad, gear.FrontStopRad);
        }
        return sum;
    }

    private double Walked(double stepDeg)
    {
        var sum = 0.0;
        foreach (var gear in gears)
        {
            sum += NaiveClosure.Walk(gear, Example.Rad(stepDeg)).CageAngleRad;
        }
        return sum;
    }
}
