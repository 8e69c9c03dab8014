using System.Collections.Immutable;

namespace Cogwright.Drivetrain.Bench;

/// <summary>
/// From what a caliper reads to the geometry of the mechanism: weighted least squares with the class as prior.
/// </summary>
/// <remarks>
/// The equations, the gauges and the accuracy stand in docs/theory/bench-geometry.md. With a Gaussian prior this is
/// the most probable mechanism (maximum a posteriori); its covariance is that of JCGM 102 to first order.
/// </remarks>
public static class BenchGeometry
{
    /// <summary>
    /// A second solution counts as about as good when it is at most ten times less probable: 2 ln 10 in the sum.
    /// </summary>
    private const double AlikeWithin = 4.605;

    /// <summary>Solutions closer than this, in prior deviations, are one and the same.</summary>
    private const double SameWithin = 0.2;

    /// <summary>Above this share of the prior's deviation the class says more than the readings: half the information.</summary>
    public const double PriorDominatedFrom = 0.70710678;

    /// <summary>Normal deviate beyond which all readings together are not believed: one in a thousand.</summary>
    private const double InconsistentBeyond = 3.09;

    /// <summary>From the class the search takes about ten steps; a mirror image that takes longer is a poor one.</summary>
    private const int MostIterations = 80;

    /// <summary>About half of what a search takes; for telling how far one is.</summary>
    private const double UsualIterations = 5;

    /// <summary>The part of the work that the search is, and that the first fit is of the search; for telling how far it is.</summary>
    private const double SearchShare = 0.6;
    private const double FirstShare = 0.25;

    /// <summary>Steps of the short look at a mirror image.</summary>
    private const int LookIterations = 8;

    /// <summary>What a mirror image may still be worse by after the short look (in the weighted sum of squares).</summary>
    private const double HopelessBeyond = 60;

    /// <summary>A step that lowers the sum by less than this part of it moves nothing that a caliper could see.</summary>
    private const double LeastPromise = 1e-9;

    /// <summary>The same for the worst single reading out of some twenty.</summary>
    private const double MisreadBeyond = 4.0;

    /// <summary>The fit for a spec that holds its measurements; the class values in it are the prior.</summary>
    public static BenchFit Fit(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return Fit(spec.Measured ?? new BenchMeasurements([]), BenchPriors.Of(spec));
    }

    /// <summary>The mechanism that explains the readings best.</summary>
    /// <param name="measurements">The readings; those that name no cog or gear of the bike are left out and marked so.</param>
    /// <param name="priors">The class.</param>
    public static BenchFit Fit(BenchMeasurements measurements, BenchPriors priors)
    {
        ArgumentNullException.ThrowIfNull(measurements);
        ArgumentNullException.ThrowIfNull(priors);
        BenchFit? fit = null;
        foreach (var _ in Steps(measurements, priors, found => fit = found))
        {
            // Nobody waits for anything in between.
        }
        return fit!;
    }

    /// <summary>
    /// The fit of <see cref="Fit(DrivetrainSpec)"/> in steps of some milliseconds each: whoever draws a screen on the same thread
    /// can do so in between, and can stop by asking for no more.
    /// </summary>
    /// <param name="spec">The spec with its measurements.</param>
    /// <param name="found">Called with the fit before the last step ends.</param>
    /// <returns>How far it is after each step: a share from 0 to 1 that never falls, told by the kind of work, not by a clock.</returns>
    public static IEnumerable<double> Steps(DrivetrainSpec spec, Action<BenchFit> found)
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentNullException.ThrowIfNull(found);
        return Steps(spec.Measured ?? new BenchMeasurements([]), BenchPriors.Of(spec), found);
    }

    private static IEnumerable<double> Steps(
        BenchMeasurements measurements,
        BenchPriors priors,
        Action<BenchFit> found
    )
    {
        if (
            measurements.Readings.IsEmpty
            || priors.Spec is not { RearDerailleur: not null, Hanger: not null }
        )
        {
            found(new() { Status = BenchFitStatus.Nothing, Spec = priors.Spec });
            yield break;
        }
        var space = new BenchSpace(priors);
        // The chain's length decides how the cage stands; where it is open, the length that will be cut is taken.
        Solution best = null!;
        Solution? other = null;
        var search = Search(
            space,
            measurements.Readings,
            (chosen, second) => (best, other) = (chosen, second)
        );
        foreach (var share in search)
        {
            yield return share * SearchShare;
        }
        if (
            best.Result.End != LeastSquaresEnd.Converged
            || space.At(best.Result.X, 0, out _) is null
            || SpecCheck.Problems(BenchFinish.Spec(space, best, measurements)).Length > 0
        )
        {
            found(new() { Status = BenchFitStatus.Implausible, Spec = priors.Spec });
            yield break;
        }
        foreach (var share in BenchReport.Steps(space, best, measurements, other, found))
        {
            yield return SearchShare + (share * (1 - SearchShare));
        }
    }

    /// <summary>The best of the fits from the class and from its mirror images, and the one that comes close to it.</summary>
    private static IEnumerable<double> Search(
        BenchSpace space,
        ImmutableArray<BenchReading> readings,
        Action<Solution, Solution?> found
    )
    {
        Solution best = null!;
        foreach (
            var share in FitFrom(
                space,
                readings,
                new double[space.Free.Length],
                MostIterations,
                solution => best = solution
            )
        )
        {
            yield return share * FirstShare;
        }
        var all = new List<Solution> { best };
        var starts = MirrorStarts.Of(space, best.Result.X).ToList();
        for (var i = 0; i < starts.Count; i++)
        {
            // Most mirror images are far off and creep: a short look shows which are worth the whole way.
            Solution look = null!;
            foreach (
                var share in FitFrom(space, readings, starts[i], LookIterations, s => look = s)
            )
            {
                yield return Share(i + (share / 2));
            }
            if (look.Result.SumOfSquares - best.Result.SumOfSquares > HopelessBeyond)
            {
                continue;
            }
            Solution fit = null!;
            foreach (
                var share in FitFrom(space, readings, look.Result.X, MostIterations, s => fit = s)
            )
            {
                yield return Share(i + ((1 + share) / 2));
            }
            if (fit.Result.End == LeastSquaresEnd.Converged)
            {
                all.Add(fit);
                if (fit.Result.SumOfSquares < best.Result.SumOfSquares)
                {
                    best = fit;
                }
            }
        }
        found(
            best,
            all.Where(s =>
                    s.Used.Length == best.Used.Length
                    && s.Result.SumOfSquares - best.Result.SumOfSquares < AlikeWithin
                    && Differs(s.Result.X, best.Result.X)
                )
                .MinBy(s => s.Result.SumOfSquares)
        );

        double Share(double mirrors) => FirstShare + ((1 - FirstShare) * mirrors / starts.Count);
    }

    private static bool Differs(double[] a, double[] b) =>
        a.Zip(b).Any(pair => Math.Abs(pair.First - pair.Second) > SameWithin);

    /// <summary>
    /// One search. Gaps exist only where the chain closes, so they join once the rest has brought the mechanism near.
    /// </summary>
    private static IEnumerable<double> FitFrom(
        BenchSpace space,
        ImmutableArray<BenchReading> readings,
        double[] start,
        int mostIterations,
        Action<Solution> found
    )
    {
        var usable = Usable(space, readings, start, withGaps: false);
        LeastSquaresResult first = null!;
        foreach (var i in Minimize(space, usable, start, mostIterations, result => first = result))
        {
            yield return Passed(i) / 2;
        }
        var all = Usable(space, readings, first.X, withGaps: true);
        if (all.Length == usable.Length)
        {
            found(new(usable, first));
            yield break;
        }
        LeastSquaresResult second = null!;
        foreach (var i in Minimize(space, all, first.X, mostIterations, result => second = result))
        {
            yield return (1 + Passed(i)) / 2;
        }
        found(new(all, second));

        // Nobody knows how many there will be: each takes a part of what is left.
        static double Passed(int iterations) => iterations / (iterations + UsualIterations);
    }

    private static IEnumerable<int> Minimize(
        BenchSpace space,
        ImmutableArray<BenchReading> readings,
        double[] start,
        int mostIterations,
        Action<LeastSquaresResult> found
    ) =>
        LeastSquares.Steps(
            Residuals(space, readings),
            start,
            readings.Length + start.Length,
            Ones(start.Length),
            mostIterations,
            LeastPromise,
            found
        );

    private static double[] Ones(int n)
    {
        var ones = new double[n];
        Array.Fill(ones, 1);
        return ones;
    }

    private static ImmutableArray<BenchReading> Usable(
        BenchSpace space,
        ImmutableArray<BenchReading> readings,
        double[] y,
        bool withGaps
    )
    {
        if (space.At(y, 0, out var body) is not { } spec)
        {
            return [];
        }
        var gapsToo = withGaps && readings.Any(IsGap) && BenchModel.CanBeBuilt(spec);
        return
        [
            .. readings.Where(r =>
                (gapsToo || !IsGap(r))
                // Both are copied into the spec as they are: nothing else depends on them.
                && r.Place.Distance is not (BenchDistance.Chainline or BenchDistance.TensionTip)
                && BenchModel.CheckedReadingMm(spec, BodyAngleRad(space, y, r.Place, body), r.Place)
                    is not null
            ),
        ];
    }

    private static bool IsGap(BenchReading reading) => reading.Place.Distance == BenchDistance.Gap;

    /// <summary>The body angle at a reading (rad): that of the point, or after the turns that the reading was taken at.</summary>
    private static double BodyAngleRad(
        BenchSpace space,
        ReadOnlySpan<double> y,
        in BenchPlace place,
        double withoutTurnsRad
    )
    {
        if (place.Turns == 0)
        {
            return withoutTurnsRad;
        }
        _ = space.At(y, place.Turns, out var angle);
        return angle;
    }

    /// <summary>Readings in their own uncertainties, then the distance from the prior in its deviations.</summary>
    private static ResidualFunction Residuals(
        BenchSpace space,
        ImmutableArray<BenchReading> readings
    )
    {
        var hasGaps = readings.Any(IsGap);
        return (y, residuals) =>
        {
            if (
                space.At(y, 0, out var body) is not { } spec
                || (hasGaps && !BenchModel.CanBeBuilt(spec))
            )
            {
                return false;
            }
            for (var i = 0; i < readings.Length; i++)
            {
                var place = readings[i].Place;
                var angle = BodyAngleRad(space, y, place, body);
                if (BenchModel.CheckedReadingMm(spec, angle, place) is not { } model)
                {
                    return false;
                }
                residuals[i] = (model - readings[i].ValueMm) / space.DeviationMm(readings[i]);
            }
            y.CopyTo(residuals[readings.Length..]);
            return true;
        };
    }

    /// <summary>What the mechanism at a point gives for a reading (mm), or null.</summary>
    internal static double? Model(BenchSpace space, ReadOnlySpan<double> y, in BenchPlace place) =>
        space.At(y, place.Turns, out var body) is { } spec
            ? BenchModel.ReadingMm(spec, body, place)
            : null;

    /// <summary>A point, with the readings that led there.</summary>
    internal sealed record Solution(ImmutableArray<BenchReading> Used, LeastSquaresResult Result);

    /// <summary>Whether all readings, or the worst one, lie too far off to be noise.</summary>
    internal static bool IsInconsistent(double sumOfSquares, int readings, double worst)
    {
        // Wilson and Hilferty's approximation of a quantile of chi-squared (PNAS 17 (1931) 684).
        var v = 2.0 / (9 * readings);
        var limit = readings * Math.Pow(1 - v + (InconsistentBeyond * Math.Sqrt(v)), 3);
        return sumOfSquares > limit || worst > MisreadBeyond;
    }
}
