using System.Collections.Immutable;
using BenchmarkDotNet.Attributes;
using Cogwright.Gearing;
using Cogwright.Gearing.Tests;

namespace Cogwright.Benchmarks;

/// <summary>
/// A hundred thousand points of a track, ridden in two hundred sets of gears: from the track to the order of all sets. The twin
/// is plain: a general-purpose root finder for every piece of road, lists and objects for every choice of a gear. It rides ten
/// sets only, beside ours on the same ten.
/// </summary>
[MemoryDiagnoser]
public class RideBenchmark
{
    private const int Points = 100_000;
    private static readonly int[] SmallRings = [26, 28, 30, 32, 34, 36, 38, 39, 40, 42];
    private static readonly int[] Largest = [25, 27, 28, 30, 32, 34, 36, 40, 42, 46];

    private static readonly int[] Differences = [14, 16];

    private Track track = null!;
    private RideQuestion question = null!;

    [GlobalSetup]
    public void SetUp()
    {
        // A hilly way with the noise of a recorder: hills of 40 m every 1.5 km, a pass of 600 m, a metre of noise.
        var points = Enumerable.Range(0, Points).ToList();
        track = new(
            "hills",
            [.. points.Select(i => 47 + (i * 3e-5))],
            [.. points.Select(i => 8 + (0.01 * Math.Sin(i / 900.0)))],
            [
                .. points.Select(i =>
                    800
                    + (40 * Math.Sin(i / 75.0))
                    + (600 * Math.Sin(i / 9000.0))
                    + (i * 7919 % 13 / 6.0)
                ),
            ],
            [0]
        );
        question = new()
        {
            Route = TrackRoad.Of(track),
            Rider = new()
            {
                Load = new()
                {
                    MassKg = 88,
                    DragAreaM2 = 0.4,
                    RollingCoefficient = 0.005,
                },
                Power = PowerPlan.Steady(190),
            },
            Wind = new(3, 1),
            Tyre = Tyre.OfSize(32, 622),
            Present = Set(34, 34, 16),
            Candidates =
            [
                .. from ring in SmallRings
                from cog in Largest
                from step in Differences
                select new RideCandidate($"{ring}-{cog}-{step}", Set(ring, cog, step)),
            ],
        };
    }

    /// <summary>From the track: distances, smoothing, pace, and two hundred sets of gears.</summary>
    [Benchmark]
    public RideResult Ours() => RideStudy.Of(question with { Route = TrackRoad.Of(track) });

    [Benchmark(Baseline = true)]
    public RideResult OursTenSets() => RideStudy.Of(Ten());

    [Benchmark]
    public int TwinTenSets()
    {
        var ten = Ten();
        var (speeds, times, _) = NaivePace.Of(ten.Route, ten.Rider, ten.Wind);
        return ten.Candidates.Sum(candidate =>
            NaiveRide
                .Of(candidate.Set, ten.Tyre.CircumferenceM, ten.Rider, speeds, times)
                .FrontShifts
        );
    }

    private RideQuestion Ten() =>
        question with
        {
            Candidates = [.. question.Candidates.Where((_, i) => i % 20 == 0)],
        };

    private static GearSet Set(int smallRing, int largestCog, int difference)
    {
        double[] spread = [0, 0.05, 0.1, 0.15, 0.2, 0.27, 0.35, 0.44, 0.55, 0.68, 0.83, 1];
        ImmutableArray<int> cogs =
        [
            .. spread
                .Select(
                    (part, i) => Math.Max(11 + i, (int)Math.Round(11 + (part * (largestCog - 11))))
                )
                .Distinct(),
        ];
        return new($"{smallRing}/{largestCog}", [smallRing, smallRing + difference], cogs);
    }
}
