using System.Globalization;
using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;

namespace Cogwright.Benchmarks;

/// <summary>How much work each way does, counted and not timed.</summary>
internal static class WorkCounts
{
    internal static void Print()
    {
        var table = GearTableSolver.Solve(Example.Spec, ExampleGears.Pitches);
        var gears = ExampleGears.All();
        var count = (double)gears.Length;
        var degree = gears.Sum(g => NaiveClosure.Walk(g, Example.Rad(1)).Evaluations) / count;
        var fiftieth = gears.Sum(g => NaiveClosure.Walk(g, Example.Rad(0.02)).Evaluations) / count;
        var ours = table.Gears.Sum(g => g.Evaluations) / count;
        Say($"path evaluations per gear: ours {ours:0.0} (the pose at the rear stop among them)");
        Say($"  twin in steps of 1°: {degree:0.0}, in steps of 0.02°: {fiftieth:0.0}");
    }

    private static void Say(FormattableString text) =>
        Console.WriteLine(text.ToString(CultureInfo.InvariantCulture));
}
