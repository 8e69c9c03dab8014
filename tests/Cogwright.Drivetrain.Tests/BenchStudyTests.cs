using Cogwright.Drivetrain.Bench;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Synthetic derailleurs, read with noise: how near the predicted gap comes in gears that nobody measured.</summary>
public class BenchStudyTests(ITestOutputHelper output)
{
    private static bool Long => Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1";

    private sealed record Outcome(
        int Cases,
        int Gears,
        int Within,
        int CasesWithin,
        double RootMeanSquareMm,
        double NormalizedDeviation,
        double Covered
    )
    {
        internal double Share => (double)Within / Gears;
    }

    private Outcome Study(
        int cases,
        double noiseMm,
        Func<DrivetrainSpec, IEnumerable<BenchPlace>> beyondForm
    )
    {
        var random = new Random(20_261_125);
        var (gears, within, whole, covered, squares, normalized) = (0, 0, 0, 0, 0.0, 0.0);
        var status = new Dictionary<BenchFitStatus, int>();
        for (var i = 0; i < cases; i++)
        {
            var ofClass = BenchCases.Classes[i % BenchCases.Classes.Length];
            var truth = BenchCases.Draw(ofClass, random);
            var readings = BenchCases.Measure(
                truth,
                BenchMeasurements.Form(truth).Concat(beyondForm(truth)),
                noiseMm,
                random
            );
            var fit = BenchGeometry.Fit(readings, BenchCases.Priors(ofClass, truth));
            status[fit.Status] = status.GetValueOrDefault(fit.Status) + 1;
            var measured = readings
                .Readings.Select(r => r.Place.CogTeeth)
                .Where(cog => cog > 0)
                .ToHashSet();
            var table = GearTableSolver.Solve(truth, truth.Chain.Pitches!.Value);
            var all = true;
            foreach (var gear in table.Gears)
            {
                if (gear.State != GearState.Ok || measured.Contains(gear.Gear.CogTeeth))
                {
                    continue;
                }
                var predicted = fit.Gaps.FirstOrDefault(g => g.Gear == gear.Gear);
                // A gear for which no gap is predicted counts as a miss.
                var error =
                    predicted is { } p && !double.IsNaN(p.GapMm) ? p.GapMm - gear.GapMm : 99;
                gears++;
                var isWithin = Math.Abs(error) <= 1;
                within += isWithin ? 1 : 0;
                all &= isWithin;
                if (predicted is { } q && q.GapUncertaintyMm > 0)
                {
                    squares += error * error;
                    var z = error / q.GapUncertaintyMm;
                    normalized += z * z;
                    covered += Math.Abs(z) <= 1.96 ? 1 : 0;
                }
            }
            whole += all ? 1 : 0;
        }
        output.WriteLine(string.Join(", ", status));
        return new(
            cases,
            gears,
            within,
            whole,
            Math.Sqrt(squares / gears),
            Math.Sqrt(normalized / gears),
            (double)covered / gears
        );
    }

    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.5, 1)]
    [InlineData(0.5, 2)]
    [InlineData(0.5, 3)]
    [InlineData(0.29, 0)]
    [InlineData(0.25, 1)]
    [InlineData(0.29, 2)]
    [InlineData(0.29, 3)]
    public void Explore(double noise, int set)
    {
        var result = Study(Long ? 1000 : 60, noise, spec => Extra(spec, set));
        output.WriteLine($"{noise} {set} {result} share {result.Share:P1}");
    }

    private static IEnumerable<BenchPlace> Extra(DrivetrainSpec spec, int set)
    {
        var cogs = BenchMeasurements.Cogs(spec);
        if (set is 1 or 3)
        {
            foreach (var cog in cogs)
            {
                yield return new(BenchDistance.PivotToBottomBracket, cog);
            }
        }
        if (set is 2 or 3)
        {
            yield return new(BenchDistance.Gap, cogs[^1], spec.Rings.Min(r => r.Teeth));
            yield return new(BenchDistance.Gap, cogs[0], spec.Rings.Max(r => r.Teeth));
            yield return new(BenchDistance.Gap, cogs[1], spec.Rings.Max(r => r.Teeth));
        }
    }
}
