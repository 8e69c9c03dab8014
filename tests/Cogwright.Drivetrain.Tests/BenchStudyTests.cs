using System.Globalization;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Synthetic derailleurs, read with noise: how near the predicted gap comes in gears that nobody measured.</summary>
public class BenchStudyTests(ITestOutputHelper output)
{
    private sealed record Outcome(
        int Cases,
        int Gears,
        int Within,
        int CasesWithin,
        double RootMeanSquareMm,
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
        var (gears, within, whole, covered, squares) = (0, 0, 0, 0, 0.0);
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
            (double)covered / gears
        );
    }

    /// <param name="noiseMm">Standard deviation of a reading (mm).</param>
    /// <param name="set">0 the form, 1 and the pivot to the bottom bracket, 2 and three gaps with the chain on.</param>
    /// <param name="least">Share of gears within 1 mm that is held; what is reached stands in the theory page.</param>
    [Theory]
    [InlineData(0.5, 0, 0.64)]
    [InlineData(0.5, 1, 0.82)]
    [InlineData(0.5, 2, 0.95)]
    [InlineData(0.25, 1, 0.95)]
    public void Fit_SyntheticDerailleurs_PredictsUnmeasuredGaps(
        double noiseMm,
        int set,
        double least
    )
    {
        var result = Study(Draws.IsLong ? 1000 : 60, noiseMm, spec => Beyond(spec, set));
        output.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"noise {noiseMm} mm, set {set}: {result.Share:P1} of {result.Gears} gears within 1 mm, all gears of {result.CasesWithin} of {result.Cases} cases; rms error {result.RootMeanSquareMm:0.00} mm; |error| below 1.96 u in {result.Covered:P1}"
            )
        );
        Assert.InRange(result.Share, least, 1);
        // The stated uncertainty is worth its name: 95 % nominal, less what linearity and the draw's selection cost.
        Assert.InRange(result.Covered, 0.87, 1);
    }

    private static IEnumerable<BenchPlace> Beyond(DrivetrainSpec spec, int set)
    {
        var cogs = BenchMeasurements.Cogs(spec);
        var (smallest, largest) = (spec.Rings.Min(r => r.Teeth), spec.Rings.Max(r => r.Teeth));
        return set switch
        {
            1 => cogs.Select(cog => new BenchPlace(BenchDistance.PivotToBottomBracket, cog)),
            2 =>
            [
                new(BenchDistance.Gap, cogs[^1], smallest),
                new(BenchDistance.Gap, cogs[0], largest),
                new(BenchDistance.Gap, cogs[1], largest),
            ],
            _ => [],
        };
    }
}
