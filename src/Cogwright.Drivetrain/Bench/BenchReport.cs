using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>What follows from a solution: uncertainties, what the readings do not see, and what else to measure.</summary>
internal static class BenchReport
{
    /// <summary>Step of the differences through the solver, in prior deviations: the gap is smooth over it.</summary>
    private const double Step = 1e-3;

    /// <summary>A part of a loose direction lighter than this says nothing (its square is a tenth).</summary>
    private const double LightestPart = 0.316;

    /// <summary>A further reading that helps by less than this part is not worth the walk to the bike.</summary>
    private const double LeastHelp = 0.01;

    /// <summary>The part of the work that the derivatives of the gaps are; for telling how far it is.</summary>
    private const double GradientShare = 0.8;

    /// <summary>The report in steps; <see cref="BenchGeometry.Steps(DrivetrainSpec, Action{BenchFit})"/> says what they are.</summary>
    internal static IEnumerable<double> Steps(
        BenchSpace space,
        BenchGeometry.Solution found,
        BenchMeasurements measurements,
        BenchGeometry.Solution? other,
        Action<BenchFit> done
    )
    {
        var n = space.Free.Length;
        var y = found.Result.X;
        var information = Information(found, n);
        var covariance = Covariance(information, n);
        var finished = BenchFinish.Spec(space, found, measurements);
        var parameters = Parameters(space, y, covariance);
        var readings = Readings(space, measurements, found, covariance);
        var worst = Worst(readings);
        var pitches = ChainChooser.PitchesFor(finished, ChainChooser.Choose(finished));
        ImmutableArray<GapGradients.Row> gears = [];
        foreach (var j in GapGradients.Steps(space, y, pitches, Step, rows => gears = rows))
        {
            yield return GradientShare * j / n;
        }
        var taken = measurements.Readings.Select(reading => reading.Place).ToHashSet();
        ImmutableArray<BenchPlace> places =
        [
            .. BenchMeasurements
                .Form(space.Prior)
                .AddRange(BenchMeasurements.Further(space.Prior))
                .Where(place => !taken.Contains(place)),
        ];
        var further = new List<FurtherReading>();
        for (var i = 0; i < places.Length && !gears.IsEmpty; i++)
        {
            yield return GradientShare + ((1 - GradientShare) * i / places.Length);
            if (Helps(space, y, places[i], gears, covariance) is { } help)
            {
                further.Add(help);
            }
        }
        var gaps = Gaps(finished, pitches, gears, covariance, n);
        var twin = other is null ? null : BenchFinish.Spec(space, other, measurements);
        if (twin is not null && !SpecCheck.Problems(twin).IsEmpty)
        {
            // A mirror image that cannot be built is none.
            twin = null;
        }
        var inconsistent = BenchGeometry.IsInconsistent(
            found.Result.SumOfSquares,
            found.Used.Length,
            worst < 0 ? 0 : Math.Abs(readings[worst].Normalized)
        );
        var fit = new BenchFit
        {
            Status =
                inconsistent ? BenchFitStatus.Inconsistent
                : twin is not null ? BenchFitStatus.Ambiguous
                : BenchFitStatus.Fitted,
            Spec = BenchFinish.WithLists(finished, measurements, parameters),
            Parameters = parameters,
            Free = space.Free,
            Covariance = [.. covariance],
            Readings = readings,
            WorstReading = inconsistent ? Math.Max(worst, 0) : null,
            Pitches = pitches,
            Gaps = gaps,
            GapUncertaintyMm = RootMeanSquare(gears, covariance, n),
            NotIdentified = Loose(space, information, gears, n),
            Further = [.. further.OrderBy(reading => reading.GapUncertaintyMm)],
            Other = twin,
            OtherGapDifferenceMm = twin is null ? 0 : GapDifference(finished, twin, pitches),
            SumOfSquares = found.Result.SumOfSquares,
            Iterations = found.Result.Iterations,
        };
        done(fit);
    }

    /// <summary>JᵀJ of the readings alone; the prior adds the unit matrix.</summary>
    private static double[] Information(BenchGeometry.Solution found, int n)
    {
        var information = new double[n * n];
        var jacobian = found.Result.Jacobian;
        for (var i = 0; i < found.Used.Length; i++)
        {
            var row = jacobian.AsSpan(i * n, n);
            for (var j = 0; j < n; j++)
            {
                for (var k = 0; k < n; k++)
                {
                    information[(j * n) + k] += row[j] * row[k];
                }
            }
        }
        return information;
    }

    private static double[] Covariance(double[] information, int n)
    {
        var factor = (double[])information.Clone();
        for (var i = 0; i < n; i++)
        {
            factor[(i * n) + i] += 1;
        }
        // A unit matrix plus a Gram matrix is always positive definite.
        return Cholesky.Factor(factor, n)
            ? Cholesky.Inverse(factor, n)
            : throw new InvalidOperationException("I + JᵀJ is not positive definite");
    }

    private static ImmutableArray<FittedParameter> Parameters(
        BenchSpace space,
        double[] y,
        double[] covariance
    ) =>
        [
            .. Enum.GetValues<BenchParameter>()
                .Select(p =>
                {
                    var place = space.Free.IndexOf(p);
                    var share =
                        place < 0 ? 0 : Math.Sqrt(covariance[(place * space.Free.Length) + place]);
                    return new FittedParameter(
                        p,
                        space.Value(y, p),
                        share * space.Deviation(p),
                        space.Mean(p),
                        space.Deviation(p),
                        place < 0 ? BenchOrigin.Stated
                            : share <= BenchGeometry.PriorDominatedFrom ? BenchOrigin.Measured
                            : BenchOrigin.Assumed
                    );
                }),
        ];

    private static ImmutableArray<FittedReading> Readings(
        BenchSpace space,
        BenchMeasurements measurements,
        BenchGeometry.Solution found,
        double[] covariance
    )
    {
        var n = space.Free.Length;
        var list = ImmutableArray.CreateBuilder<FittedReading>(measurements.Readings.Length);
        var next = 0;
        foreach (var reading in measurements.Readings)
        {
            if (next >= found.Used.Length || found.Used[next] != reading)
            {
                list.Add(new(reading, double.NaN, double.NaN, double.NaN, double.NaN));
                continue;
            }
            var row = found.Result.Jacobian.AsSpan(next * n, n);
            var off = -found.Result.Residuals[next];
            var residual = off * space.DeviationMm(reading);
            var left = 1 - Variance(row, covariance, n);
            list.Add(
                new(
                    reading,
                    reading.ValueMm - residual,
                    residual,
                    residual / reading.UncertaintyMm,
                    // With nothing left to check it, rounding alone would make the figure.
                    left > 1e-6
                        ? off / Math.Sqrt(left)
                        : double.NaN
                )
            );
            next++;
        }
        return list.MoveToImmutable();
    }

    private static int Worst(ImmutableArray<FittedReading> readings)
    {
        var worst = -1;
        for (var i = 0; i < readings.Length; i++)
        {
            var size = Math.Abs(readings[i].Normalized);
            if (!double.IsNaN(size) && (worst < 0 || size > Math.Abs(readings[worst].Normalized)))
            {
                worst = i;
            }
        }
        return worst;
    }

    private static ImmutableArray<FittedGap> Gaps(
        DrivetrainSpec spec,
        int pitches,
        ImmutableArray<GapGradients.Row> gears,
        double[] covariance,
        int n
    )
    {
        var table = GearTableSolver.Solve(spec, pitches);
        return
        [
            .. table.Gears.Select(gear =>
            {
                var row = gears.FirstOrDefault(g => g.Gear == gear.Gear);
                return row.Gap is null || !gear.HasPose
                    ? new FittedGap(
                        gear.Gear,
                        gear.State,
                        gear.GapMm,
                        double.NaN,
                        double.NaN,
                        double.NaN
                    )
                    : new FittedGap(
                        gear.Gear,
                        gear.State,
                        gear.GapMm,
                        Math.Sqrt(Variance(row.Gap, covariance, n) + row.ScatterVariance),
                        Math.Sqrt(Variance(row.Forward, covariance, n)),
                        Math.Sqrt(Variance(row.Up, covariance, n))
                    );
            }),
        ];
    }

    /// <summary>gᵀCg.</summary>
    internal static double Variance(ReadOnlySpan<double> g, double[] covariance, int n)
    {
        var sum = 0.0;
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                sum += g[i] * covariance[(i * n) + j] * g[j];
            }
        }
        return Math.Max(0, sum);
    }

    private static double RootMeanSquare(
        ImmutableArray<GapGradients.Row> gears,
        double[] covariance,
        int n
    ) =>
        gears.IsEmpty
            ? double.NaN
            : Math.Sqrt(gears.Average(g => Variance(g.Gap, covariance, n) + g.ScatterVariance));

    /// <summary>
    /// Directions in which the readings hold less information than the class does: eigenvalues of JᵀJ below 1.
    /// </summary>
    private static ImmutableArray<LooseDirection> Loose(
        BenchSpace space,
        double[] information,
        ImmutableArray<GapGradients.Row> gears,
        int n
    )
    {
        var (values, vectors) = SymmetricEigen.Of(information, n);
        var loose = new List<LooseDirection>();
        for (var k = 0; k < n; k++)
        {
            if (values[k] >= 1)
            {
                continue;
            }
            var direction = new double[n];
            for (var i = 0; i < n; i++)
            {
                direction[i] = vectors[(i * n) + k];
            }
            var deviation = 1 / Math.Sqrt(1 + Math.Max(0, values[k]));
            loose.Add(
                new(
                    [
                        .. Enumerable
                            .Range(0, n)
                            .Where(i => Math.Abs(direction[i]) >= LightestPart)
                            .OrderByDescending(i => Math.Abs(direction[i]))
                            .Select(i => (space.Free[i], direction[i])),
                    ],
                    gears.IsEmpty ? 0 : gears.Max(g => Math.Abs(Dot(g.Gap, direction))) * deviation
                )
            );
        }
        return [.. loose.OrderByDescending(d => d.GapEffectMm)];
    }

    /// <summary>
    /// What a reading not taken would leave of the gap's uncertainty (a rank-one update of the covariance); null when that is not
    /// worth the walk.
    /// </summary>
    private static FurtherReading? Helps(
        BenchSpace space,
        double[] y,
        BenchPlace place,
        ImmutableArray<GapGradients.Row> gears,
        double[] covariance
    )
    {
        var n = space.Free.Length;
        var before = gears.Average(g => Variance(g.Gap, covariance, n) + g.ScatterVariance);
        const double u = BenchReading.UsualUncertaintyMm;
        var gear = gears.FirstOrDefault(g => g.Gear == new Gear(place.RingTeeth, place.CogTeeth));
        var row =
            place.Distance == BenchDistance.Gap
                ? gear.Gap
                : GapGradients.Reading(space, y, place, Step);
        if (row is null)
        {
            return null;
        }
        var scatter = place.Distance == BenchDistance.Gap ? gear.ScatterVariance : 0;
        var seen = Times(covariance, row, n);
        var width = (u * u) + scatter + Dot(row, seen);
        var after = gears.Average(g =>
        {
            var shared = Dot(g.Gap, seen);
            return Math.Max(0, Variance(g.Gap, covariance, n) - (shared * shared / width))
                + g.ScatterVariance;
        });
        return after < before * (1 - LeastHelp) * (1 - LeastHelp)
            ? new FurtherReading(place, Math.Sqrt(after))
            : null;
    }

    private static double GapDifference(DrivetrainSpec a, DrivetrainSpec b, int pitches)
    {
        var (one, two) = (GearTableSolver.Solve(a, pitches), GearTableSolver.Solve(b, pitches));
        var most = 0.0;
        for (var i = 0; i < one.Gears.Length; i++)
        {
            if (one.Gears[i].HasPose && two.Gears[i].HasPose)
            {
                most = Math.Max(most, Math.Abs(one.Gears[i].GapMm - two.Gears[i].GapMm));
            }
        }
        return most;
    }

    private static double[] Times(double[] matrix, double[] v, int n)
    {
        var product = new double[n];
        for (var i = 0; i < n; i++)
        {
            product[i] = Dot(matrix.AsSpan(i * n, n), v);
        }
        return product;
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var sum = 0.0;
        for (var i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }
        return sum;
    }
}
