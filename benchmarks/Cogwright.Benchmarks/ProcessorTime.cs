using System.Diagnostics;
using System.Globalization;

namespace Cogwright.Benchmarks;

/// <summary>
/// The same benchmarks by processor time instead of the clock, in turns: for a machine that is busy with other work,
/// where a clock mostly tells how long one waited.
/// </summary>
internal static class ProcessorTime
{
    private const int Rounds = 7;

    private static readonly TimeSpan PerRound = TimeSpan.FromMilliseconds(150);

    internal static void Print()
    {
        var table = new GearTableBenchmark();
        Compare(
            ("gear table, ours", () => table.Ours()),
            ("gear table, twin, walk of 1°", () => table.TwinWalkOfOneDegree()),
            ("gear table, twin, walk of 0.02°", () => table.TwinWalkOfAFiftieth()),
            ("gear table, twin handed the bracket", () => table.TwinHandedTheBracket())
        );
        var sweep = new TravelSweepBenchmark();
        Compare(("travel sweep, ours", sweep.Sweep), ("travel sweep, plain twin", sweep.PlainTwin));
        Ride();
        var path = new PathBenchmark();
        Compare(
            ("path, ours", Many(path.Ours)),
            ("path, arithmetic floor", Many(path.ArithmeticFloor)),
            ("path, ours with its step bound", Many(path.OursWithItsStepBound)),
            ("path, twin", Many(path.Twin))
        );
        Console.WriteLine($"(a path's figure is for {Inner} of them)");
    }

    /// <summary>The ride alone: its twin takes seconds.</summary>
    internal static void Ride()
    {
        var ride = new RideBenchmark();
        ride.SetUp();
        Compare(
            ("ride, 10 sets of gears, ours", () => ride.OursTenSets()),
            ("ride, 10 sets of gears, plain twin", () => ride.TwinTenSets()),
            ("ride, 200 sets of gears, ours", () => ride.Ours())
        );
    }

    private const int Inner = 1_000;

    private static Func<object> Many(Func<double> work) =>
        () =>
        {
            var sum = 0.0;
            for (var i = 0; i < Inner; i++)
            {
                sum += work();
            }
            return sum;
        };

    private static void Compare(params (string Name, Func<object> Work)[] ways)
    {
        var least = new double[ways.Length];
        Array.Fill(least, double.PositiveInfinity);
        for (var round = 0; round < Rounds; round++)
        {
            for (var i = 0; i < ways.Length; i++)
            {
                least[i] = Math.Min(least[i], Microseconds(ways[i].Work));
            }
        }
        for (var i = 0; i < ways.Length; i++)
        {
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{ways[i].Name, -38} {least[i], 12:0.00} µs  {least[i] / least[0], 8:0.00} of ours"
                )
            );
        }
    }

    /// <summary>Processor time of one call (µs); the least of several rounds is the least disturbed.</summary>
    private static double Microseconds(Func<object> work)
    {
        using var process = Process.GetCurrentProcess();
        var calls = 0;
        process.Refresh();
        var start = process.TotalProcessorTime;
        TimeSpan spent;
        do
        {
            for (var i = 0; i < 1 + (calls / 4); i++)
            {
                GC.KeepAlive(work());
                calls++;
            }
            process.Refresh();
            spent = process.TotalProcessorTime - start;
        } while (spent < PerRound);
        return spent.TotalMicroseconds / calls;
    }
}
