using Cogwright.Drivetrain.Bench;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace Cogwright.Drivetrain.Tests;

public class BenchGeometryTests
{
    private static DrivetrainSpec Class => BenchCases.Classes[0];

    private static (DrivetrainSpec Truth, BenchFit Fit) Fitted(double noiseMm, int seed)
    {
        var random = new Random(seed);
        var truth = BenchCases.Draw(Class, random);
        var readings = BenchCases.Measure(truth, BenchMeasurements.Form(truth), noiseMm, random);
        return (truth, BenchGeometry.Fit(readings, BenchCases.Priors(Class, truth)));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void Steps_OneAfterTheOther_NeverGoBackAndEndInTheSameFit(int seed)
    {
        var random = new Random(seed);
        var truth = BenchCases.Draw(Class, random);
        var readings = BenchCases.Measure(truth, BenchMeasurements.Form(truth), 0.2, random);
        var spec = Class with { Measured = readings };
        BenchFit? found = null;
        var shares = BenchGeometry.Steps(spec, fit => found = fit).ToList();
        Assert.Equal(shares.Order(), shares);
        Assert.All(shares, share => Assert.InRange(share, 0, 1));
        // Enough of them that none holds up a screen for long.
        Assert.True(shares.Count > 30, $"{shares.Count} steps");
        var whole = BenchGeometry.Fit(spec);
        Assert.Equal(whole.SumOfSquares, found!.SumOfSquares);
        Assert.Equal(whole.GapUncertaintyMm, found.GapUncertaintyMm);
        Assert.Equal(whole.Further, found.Further);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Fit_PerfectReadings_FindsTheMechanism(int seed)
    {
        var truth = BenchCases.Draw(Class, new Random(seed));
        var ends = (int[])[truth.Cogs.Teeth[0], truth.Cogs.Teeth[^1]];
        // Without the gaps of cogs between: their own tips are no parameter, and a micrometre would see them.
        var places = BenchMeasurements
            .Form(truth)
            .Concat(BenchMeasurements.Further(truth))
            .Where(p => p.Distance != BenchDistance.Gap || ends.Contains(p.CogTeeth));
        // Believed to a hundredth: the prior has no say left, and what is seen comes out as it is.
        var fit = BenchGeometry.Fit(
            BenchCases.Measure(truth, places, 0, null, 0.01),
            BenchCases.Priors(Class, truth)
        );
        Assert.Equal(BenchFitStatus.Fitted, fit.Status);
        var found = GearTableSolver.Solve(fit.Spec, fit.Pitches);
        foreach (var gear in GearTableSolver.Solve(truth, truth.Chain.Pitches!.Value).Gears)
        {
            if (gear.HasPose)
            {
                var same = found.Find(gear.Gear)!.Value;
                Assert.Equal(
                    (gear.Guide - truth.Frame.Axle).Length,
                    (same.Guide - fit.Spec.Frame.Axle).Length,
                    0.1
                );
            }
        }
    }

    [Fact]
    public void Fit_ReadingsOfTheClassItself_StaysThere()
    {
        var truth = Class with
        {
            RearDerailleur = Class.RearDerailleur! with { OutboardStopRad = null },
        };
        var readings = BenchCases.Measure(truth, BenchMeasurements.Form(truth), 0, null, 0.5);
        var fit = BenchGeometry.Fit(readings, BenchCases.Priors(Class, truth));
        Assert.Equal(BenchFitStatus.Fitted, fit.Status);
        Assert.Equal(0, fit.SumOfSquares, 1e-9);
        Assert.All(
            fit.Parameters,
            p =>
                Assert.Equal(0, (p.Value - p.PriorValue) / Math.Max(p.PriorUncertainty, 1e-9), 1e-4)
        );
        // The worked example's own gap, through measurements and back.
        var gap = fit.Gaps.First(g => g.Gear == new Gear(34, 34));
        Assert.Equal(6.4308, gap.GapMm, 1e-3);
    }

    [Fact]
    public void Fit_SameProblem_MathNetAgrees()
    {
        var (truth, _) = Fitted(0.5, 11);
        var readings = BenchCases.Measure(
            truth,
            BenchMeasurements.Form(truth),
            0.5,
            new Random(12)
        );
        var priors = BenchCases.Priors(Class, truth);
        var fit = BenchGeometry.Fit(readings, priors);
        var space = new BenchSpace(priors);
        var used = fit.Readings.Where(r => r.IsUsed).Select(r => r.Reading).ToArray();
        var n = space.Free.Length;
        var vector = Vector<double>.Build;
        var objective = ObjectiveFunction.NonlinearModel(
            (p, x) =>
                vector.Dense(
                    used.Length + n,
                    i =>
                        i < used.Length
                            ? BenchGeometry.Model(space, p.ToArray(), used[i].Place)!.Value
                                / used[i].UncertaintyMm
                            : p[i - used.Length]
                ),
            vector.Dense(used.Length + n, i => i),
            vector.Dense(
                used.Length + n,
                i => i < used.Length ? used[i].ValueMm / used[i].UncertaintyMm : 0
            )
        );
        var theirs = new LevenbergMarquardtMinimizer(maximumIterations: 500).FindMinimum(
            objective,
            vector.Dense(n)
        );
        for (var i = 0; i < n; i++)
        {
            var parameter = fit.Parameters.First(p => p.Parameter == space.Free[i]);
            var ours = (parameter.Value - parameter.PriorValue) / parameter.PriorUncertainty;
            Assert.Equal(theirs.MinimizingPoint[i], ours, 1e-3);
        }
        // The covariance too: MathNet scales it by the residual's variance, so the ratio of two is compared.
        var scale = theirs.Covariance[0, 0] / fit.Covariance[0];
        for (var i = 0; i < n; i++)
        {
            Assert.Equal(
                scale,
                theirs.Covariance[i, i] / fit.Covariance[(i * n) + i],
                1e-2 * scale
            );
        }
    }

    [Fact]
    public void GapUncertainty_ThroughTheSolver_AgreesWithMonteCarlo()
    {
        var (truth, fit) = Fitted(0.25, 21);
        var priors = BenchCases.Priors(Class, truth);
        var space = new BenchSpace(priors);
        var n = fit.Free.Length;
        var covariance = Matrix<double>.Build.Dense(n, n, (i, j) => fit.Covariance[(i * n) + j]);
        var factor = covariance.Cholesky().Factor;
        var centre = Vector<double>.Build.Dense(
            n,
            i =>
            {
                var p = fit.Parameters.First(q => q.Parameter == fit.Free[i]);
                return (p.Value - p.PriorValue) / p.PriorUncertainty;
            }
        );
        var random = new Random(22);
        var draws = Draws.IsLong ? 20_000 : 2_000;
        var samples = fit.Gaps.ToDictionary(g => g.Gear, _ => new List<double>());
        for (var k = 0; k < draws; k++)
        {
            var z = Vector<double>.Build.Dense(n, _ => BenchCases.Normal(random));
            if (space.At((centre + (factor * z)).ToArray(), 0, out _) is not { } spec)
            {
                continue;
            }
            foreach (var gear in GearTableSolver.Solve(spec, fit.Pitches).Gears)
            {
                if (gear.HasPose)
                {
                    samples[gear.Gear].Add(gear.GapMm);
                }
            }
        }
        var compared = 0;
        foreach (var gap in fit.Gaps)
        {
            var values = samples[gap.Gear];
            // Where part of the draws has no taut chain, the rest is no fair sample.
            if (double.IsNaN(gap.GapUncertaintyMm) || values.Count < draws * 0.999)
            {
                continue;
            }
            var mean = values.Average();
            var deviation = Math.Sqrt(values.Average(v => (v - mean) * (v - mean)));
            var own =
                truth.Cogs.Teeth.IndexOf(gap.Gear.CogTeeth) is var cog
                && (cog == 0 || cog == truth.Cogs.Teeth.Length - 1)
                    ? 0
                    : BenchPriors.CogTipScatterMm;
            var expected = Math.Sqrt((deviation * deviation) + (own * own));
            // 2 000 draws know a deviation to 1.6 %; the rest is the solver's curvature.
            Assert.InRange(gap.GapUncertaintyMm / expected, 0.9, 1.1);
            compared++;
        }
        Assert.InRange(compared, 10, fit.Gaps.Length);
    }

    [Fact]
    public void Fit_OneMisreading_IsNamed()
    {
        var (truth, _) = Fitted(0.5, 31);
        var readings = BenchCases.Measure(truth, BenchMeasurements.Form(truth), 0.1, new(32), 0.5);
        var wrong = readings
            .Readings.ToList()
            .FindIndex(r => r.Place is { Distance: BenchDistance.PivotToHangerBolt, CogTeeth: 19 });
        var spoilt = readings.Readings.SetItem(
            wrong,
            readings.Readings[wrong] with
            {
                ValueMm = readings.Readings[wrong].ValueMm + 10,
            }
        );
        var fit = BenchGeometry.Fit(new(spoilt), BenchCases.Priors(Class, truth));
        Assert.Equal(BenchFitStatus.Inconsistent, fit.Status);
        Assert.Equal(19, fit.Readings[fit.WorstReading!.Value].Reading.Place.CogTeeth);
        Assert.Contains("19", BenchWords.Of(fit).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Further_BestReading_BringsWhatItPromises()
    {
        var (truth, fit) = Fitted(0.5, 41);
        var best = fit.Further[0];
        Assert.True(best.GapUncertaintyMm < fit.GapUncertaintyMm);
        Assert.Equal(
            fit.Further.Select(f => f.GapUncertaintyMm).Order(),
            fit.Further.Select(f => f.GapUncertaintyMm)
        );
        // Taken with no error at all, so that the second fit stands near the first.
        var taken = new BenchReading(
            best.Place,
            BenchModel.ReadingMm(fit.Spec, fit.Spec.RearDerailleur!.BodyAngleRad, best.Place)
                ?? throw new InvalidOperationException("no reading")
        );
        var again = BenchGeometry.Fit(
            new([.. fit.Readings.Select(r => r.Reading), taken]),
            BenchCases.Priors(Class, truth)
        );
        Assert.Equal(best.GapUncertaintyMm, again.GapUncertaintyMm, 0.1 * best.GapUncertaintyMm);
    }

    [Fact]
    public void Fit_CageOnly_LeavesTheRestAssumed()
    {
        var stated = Class with
        {
            Assumptions =
            [
                new("hanger.offset", "", "class"),
                new("rearDerailleur.upperPivot", "", "class"),
                new("rearDerailleur.slant", "", "class"),
                new("rearDerailleur.linkLength", "", "class"),
                new("rearDerailleur.cage.tension.offset", "", "class"),
            ],
            Measured = new([
                new(new(BenchDistance.AcrossLinkPins), 60.2),
                new(new(BenchDistance.PivotToTension), 78.4),
            ]),
        };
        var fit = BenchGeometry.Fit(stated);
        Assert.Equal(
            ["rearDerailleur.linkLength", "rearDerailleur.cage.tension.offset"],
            fit.Spec.Fitted.Select(f => f.Path)
        );
        Assert.Equal(
            ["hanger.offset", "rearDerailleur.upperPivot", "rearDerailleur.slant"],
            fit.Spec.Assumptions.Select(a => a.Path)
        );
        Assert.Equal(60.2, fit.Spec.RearDerailleur!.LinkLengthMm, 0.1);
        // What the spec states is left alone.
        Assert.Equal(410, fit.Spec.Frame.ChainstayMm);
        Assert.Equal(
            BenchOrigin.Stated,
            fit.Parameters.First(p => p.Parameter == BenchParameter.Chainstay).Origin
        );
        Assert.Contains(
            fit.NotIdentified,
            d => d.Parts.Any(p => p.Parameter == BenchParameter.Slant)
        );
    }

    [Fact]
    public void Fit_CageReadWithoutHandedness_TellsTheMirrorImage()
    {
        // A guide pulley nearly in line with pivot and tension pulley: by distances it may lie on either side.
        var cage = Class.RearDerailleur!.Cage;
        var spec = Class with
        {
            RearDerailleur = Class.RearDerailleur with
            {
                Cage = cage with
                {
                    Guide = cage.Guide with { OffsetMm = new(-0.2, 14) },
                    Tension = cage.Tension with { OffsetMm = new(0, -74) },
                },
            },
            Assumptions = [new("rearDerailleur.cage.guide.offset", "", "class")],
        };
        // The law of cosines for 180° less 14°.
        var across = Math.Sqrt(
            (14 * 14) + (74 * 74) - (2 * 14 * 74 * Math.Cos(Math.PI - Example.Rad(14)))
        );
        var fit = BenchGeometry.Fit(
            spec with
            {
                Measured = new([
                    new(new(BenchDistance.PivotToGuide), 14, 0.02),
                    new(new(BenchDistance.PivotToTension), 74, 0.02),
                    new(new(BenchDistance.GuideToTension), across, 0.02),
                ]),
            }
        );
        Assert.Equal(BenchFitStatus.Ambiguous, fit.Status);
        var (one, other) = (
            fit.Spec.RearDerailleur!.Cage.Guide.OffsetMm,
            fit.Other!.RearDerailleur!.Cage.Guide.OffsetMm
        );
        Assert.Equal(one.X, -other.X, 0.4);
        Assert.Equal(14 * Math.Sin(Example.Rad(14)), Math.Abs(one.X), 0.4);
        Assert.True(fit.OtherGapDifferenceMm > 0.5);
    }

    [Fact]
    public void Readings_OfTheExample_AgreeWithTheGearTable()
    {
        var spec = Example.Spec;
        var table = GearTableSolver.Solve(spec, 110);
        foreach (var gear in table.Gears)
        {
            var teeth = gear.Gear.CogTeeth;
            var body = spec.RearDerailleur!.BodyAngleRad;
            double Read(BenchDistance distance, int ring = 0) =>
                BenchModel.ReadingMm(spec, body, new(distance, teeth, ring))!.Value;
            var bolt = spec.Frame.Axle + spec.Hanger!.OffsetMm;
            Assert.Equal(
                (gear.CagePivot - spec.Frame.Axle).Length,
                Read(BenchDistance.PivotToAxle),
                1e-9
            );
            Assert.Equal(
                (gear.CagePivot - bolt).Length,
                Read(BenchDistance.PivotToHangerBolt),
                1e-9
            );
            Assert.Equal(gear.CagePivot.Length, Read(BenchDistance.PivotToBottomBracket), 1e-9);
            Assert.Equal(gear.GapMm, Read(BenchDistance.Gap, gear.Gear.RingTeeth), 1e-9);
        }
    }

    [Fact]
    public void GapReading_OfWhatCannotBeBuilt_IsNone()
    {
        // A search passes through such mechanisms; the solver's walk is only proven for those that can be built.
        var derailleur = Example.Spec.RearDerailleur!;
        var impossible = Example.Spec with
        {
            RearDerailleur = derailleur with { Cage = derailleur.Cage with { FrontStopRad = -10 } },
        };
        Assert.NotEmpty(SpecCheck.Problems(impossible));
        Assert.Null(
            BenchModel.ReadingMm(
                impossible,
                derailleur.BodyAngleRad,
                new(BenchDistance.Gap, 34, 34)
            )
        );
    }

    [Fact]
    public void Fit_ScrewReadAgain_FindsLeverAndDirection()
    {
        var truth = BenchCases.Draw(Class, new Random(51));
        var places = BenchMeasurements.Form(truth).Concat(BenchMeasurements.Further(truth));
        var readings = BenchCases.Measure(truth, places, 0, null, 0.01);
        var fit = BenchGeometry.Fit(readings, BenchCases.Priors(Class, truth));
        var (found, real) = (
            fit.Spec.RearDerailleur!.BodyAngleScrew!,
            truth.RearDerailleur!.BodyAngleScrew!
        );
        Assert.Equal(real.ClockwiseWidensGap, found.ClockwiseWidensGap);
        Assert.InRange(found.LeverRadiusMm!.Value / real.LeverRadiusMm!.Value, 0.9, 1.1);
    }

    [Fact]
    public void Fit_NothingMeasured_SaysSo() =>
        Assert.Equal(BenchFitStatus.Nothing, BenchGeometry.Fit(Class).Status);

    [Fact]
    public void Fit_SameReadings_GivesTheSame()
    {
        var (_, one) = Fitted(0.5, 61);
        var (_, two) = Fitted(0.5, 61);
        Assert.Equal(one.Covariance, two.Covariance);
        Assert.Equal(one.Gaps, two.Gaps);
    }

    [Theory]
    [InlineData(0, 0.5, 0, "check.measuredLength")]
    [InlineData(410, 0, 0, "check.measuredUncertainty")]
    [InlineData(410, 0.5, 99, "check.measuredCog")]
    public void SpecCheck_ImpossibleReading_IsTold(
        double valueMm,
        double uncertaintyMm,
        int cog,
        string key
    )
    {
        var spec = Example.Spec with
        {
            Measured = new([new(new(BenchDistance.PivotToAxle, cog), valueMm, uncertaintyMm)]),
        };
        var problem = Assert.Single(SpecCheck.Problems(spec));
        Assert.Equal(
            key == "check.measuredUncertainty"
                ? "measured.positions.pivotToAxle.uncertainty"
                : "measured.positions.pivotToAxle",
            problem.Path
        );
        Assert.StartsWith(
            key == "check.measuredCog" ? "There is no cog"
                : key == "check.measuredLength" ? "0 mm"
                : "An uncertainty",
            problem.Message,
            StringComparison.Ordinal
        );
    }
}
