using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>A set of gears that comes into question. Immutable.</summary>
/// <param name="Id">What the caller knows it by, such as the ids of its parts.</param>
/// <param name="Set">Rings and cogs.</param>
public sealed record RideCandidate(string Id, GearSet Set);

/// <summary>A ride to be studied. Immutable.</summary>
public sealed record RideQuestion
{
    /// <summary>Most candidates in one study.</summary>
    public const int MostCandidates = 100_000;

    /// <summary>The road.</summary>
    public required Route Route { get; init; }

    /// <summary>The rider.</summary>
    public required Rider Rider { get; init; }

    /// <summary>The wind; on a road without courses it comes from ahead when its direction is 0. Still air unless told.</summary>
    public Wind Wind { get; init; }

    /// <summary>The tyre of the driven wheel.</summary>
    public required Tyre Tyre { get; init; }

    /// <summary>The gears there are now.</summary>
    public required GearSet Present { get; init; }

    /// <summary>What might be fitted instead. Whether a part is compatible is the caller's to ask: every one of these is ridden.</summary>
    public ImmutableArray<RideCandidate> Candidates { get; init; } = [];
}

/// <summary>How far a study is. Immutable.</summary>
/// <param name="Done">Pieces ridden, over all sets of gears.</param>
/// <param name="All">Pieces to ride.</param>
public readonly record struct RideProgress(long Done, long All);

/// <summary>A candidate with what it comes to, and by how much it differs from what there is now. Immutable.</summary>
public sealed record RideComparison
{
    /// <summary>The candidate.</summary>
    public required RideCandidate Candidate { get; init; }

    /// <summary>What the ride comes to with it.</summary>
    public required RideAnswer Answer { get; init; }

    /// <summary>Whether it suits better (1), as well (0) or worse (−1) than what there is now, by <see cref="RideStudy"/>'s order.</summary>
    public required int Suits { get; init; }

    /// <summary>Share of the time outside the cadence range, less that of now (negative is better).</summary>
    public required double OutsideShareChange { get; init; }

    /// <summary>Mean distance from the wanted cadence, less that of now (rpm, negative is better).</summary>
    public required double OffAimRpmChange { get; init; }

    /// <summary>Slowest cadence on the steepest minute, less that of now (rpm), or null when it is not pedalled.</summary>
    public required double? SteepestLowestRpmChange { get; init; }

    /// <summary>Cadence of the lowest gear at the slowest speed on the steepest minute, less that of now (rpm), or null.</summary>
    public required double? SteepestInLowestGearRpmChange { get; init; }

    /// <summary>Front shifts, less those of now.</summary>
    public required int FrontShiftsChange { get; init; }

    /// <summary>Share of the time across, less that of now.</summary>
    public required double AcrossShareChange { get; init; }
}

/// <summary>The steepest minute of a ride. Immutable.</summary>
/// <param name="StartM">Where it begins (m from the start).</param>
/// <param name="Seconds">How long it is (s): a minute and up to a piece more, or less on a ride that is shorter.</param>
/// <param name="Gradient">Its mean gradient (rise over run).</param>
/// <param name="SlowestMs">Slowest speed on it that is pedalled (m/s), or null when it is not pedalled.</param>
public sealed record SteepestMinute(
    double StartM,
    double Seconds,
    double Gradient,
    double? SlowestMs
);

/// <summary>What came of a study. Immutable.</summary>
public sealed record RideResult
{
    /// <summary>Time on the whole road (s).</summary>
    public required double TotalS { get; init; }

    /// <summary>Time not pedalled (s): downhill at the top speed, or where the plan gives no power.</summary>
    public required double CoastingS { get; init; }

    /// <summary>Time at walking pace (s): the power does not move the bike any faster.</summary>
    public required double WalkedS { get; init; }

    /// <summary>Length of the road (m).</summary>
    public required double LengthM { get; init; }

    /// <summary>The steepest minute.</summary>
    public required SteepestMinute Steepest { get; init; }

    /// <summary>What the ride comes to with the gears there are now.</summary>
    public required RideAnswer Present { get; init; }

    /// <summary>What it comes to with each candidate, the one that suits best first.</summary>
    public required ImmutableArray<RideComparison> Candidates { get; init; }
}

/// <summary>Rides a road in many sets of gears and says which suit better, and by how much.</summary>
/// <remarks>
/// Better is: less time outside the cadence range (to a tenth of a per cent); then a cadence nearer to the wanted one (to a tenth
/// of a turn); then fewer front shifts; then less time across (to a tenth of a per cent). What is equal in all suits as well.
/// </remarks>
public static class RideStudy
{
    // Pieces ridden between two looks at the cancellation and two reports of progress: some milliseconds in a browser.
    private const int Breath = 100_000;
    private const int PaceBreath = 10_000;

    /// <summary>Studies a ride.</summary>
    /// <param name="question">Road, rider, gears.</param>
    /// <param name="progress">Told at each step how far it is; on the calling thread.</param>
    /// <param name="cancellation">Ends the study.</param>
    /// <exception cref="ImpossibleInputException">A number of the rider is out of range.</exception>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static RideResult Of(
        RideQuestion question,
        IProgress<RideProgress>? progress = null,
        CancellationToken cancellation = default
    )
    {
        RideResult? result = null;
        foreach (var step in Steps(question, found => result = found, cancellation))
        {
            progress?.Report(step);
        }
        return result!;
    }

    /// <summary>
    /// Studies step by step, for a page with one thread: between two steps it can draw, take input, or leave off.
    /// </summary>
    /// <param name="question">Road, rider, gears.</param>
    /// <param name="found">Told the result, after the last step.</param>
    /// <param name="cancellation">Ends the study.</param>
    /// <exception cref="ImpossibleInputException">A number of the rider is out of range.</exception>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static IEnumerable<RideProgress> Steps(
        RideQuestion question,
        Action<RideResult> found,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(found);
        question.Rider.Checked();
        if (question.Candidates.Length > RideQuestion.MostCandidates)
        {
            throw new ImpossibleInputException(
                "candidates",
                Texts.Get(
                    "ride.candidates",
                    question.Candidates.Length,
                    RideQuestion.MostCandidates
                )
            );
        }
        return Steps();

        IEnumerable<RideProgress> Steps()
        {
            var pieces = question.Route.Count;
            var all = (long)pieces * (question.Candidates.Length + 2);
            var pace = new RidePace(question.Route, question.Rider, question.Wind);
            while (pace.Advance(PaceBreath))
            {
                cancellation.ThrowIfCancellationRequested();
                yield return new(pace.Done, all);
            }
            var ride = new Riding(question, pace);
            var present = ride.In(question.Present);
            var answers = new RideAnswer[question.Candidates.Length];
            var done = 2L * pieces;
            var told = done;
            for (var i = 0; i < answers.Length; i++)
            {
                cancellation.ThrowIfCancellationRequested();
                answers[i] = ride.In(question.Candidates[i].Set);
                done += pieces;
                if (done - told >= Breath)
                {
                    told = done;
                    yield return new(done, all);
                }
            }
            cancellation.ThrowIfCancellationRequested();
            found(ride.Result(present, answers));
            yield return new(all, all);
        }
    }

    /// <summary>Less is better.</summary>
    private static (double, double, int, double) Rank(RideAnswer answer) =>
        (
            Math.Round(answer.OutsideShare, 3),
            Math.Round(answer.OffAimRpm, 1),
            answer.FrontShifts,
            Math.Round(answer.AcrossShare, 3)
        );

    private sealed class Riding
    {
        private readonly RideQuestion question;
        private readonly RidePace pace;
        private readonly GearChoice choice;
        private readonly (int From, int To) steepest;
        private readonly double? slowestMs;

        internal Riding(RideQuestion question, RidePace pace)
        {
            this.question = question;
            this.pace = pace;
            steepest = pace.SteepestMinute();
            slowestMs = SlowestOnSteepest();
            choice = new(
                question.Rider,
                question
                    .Candidates.Select(candidate => candidate.Set.Count)
                    .Append(question.Present.Count)
                    .Max()
            );
        }

        internal RideAnswer In(GearSet set)
        {
            choice.Load(set, question.Tyre.CircumferenceM);
            var speeds = pace.PedalledMs.AsSpan(0, pace.Pedalled);
            var times = pace.PedalledS.AsSpan(0, pace.Pedalled);
            var from = pace.PedalledBefore[steepest.From];
            var to = pace.PedalledBefore[steepest.To];
            choice.Ride(speeds[..from], times[..from]);
            var lowest = double.PositiveInfinity;
            var gear = -1;
            for (var i = from; i < to; i++)
            {
                var rpm = choice.Ride(speeds.Slice(i, 1), times.Slice(i, 1));
                if (rpm < lowest)
                {
                    lowest = rpm;
                    gear = choice.Gear;
                }
            }
            choice.Ride(speeds[to..], times[to..]);
            return Answer(set, lowest, gear);
        }

        internal RideResult Result(RideAnswer present, RideAnswer[] answers)
        {
            var now = Rank(present);
            var (gradient, seconds, start) = pace.Of(steepest.From, steepest.To);
            return new()
            {
                TotalS = pace.TotalS,
                CoastingS = pace.CoastingS,
                WalkedS = pace.WalkedS,
                LengthM = question.Route.LengthM,
                Steepest = new(start, seconds, gradient, slowestMs),
                Present = present,
                Candidates =
                [
                    .. question
                        .Candidates.Zip(answers)
                        .OrderBy(pair => Rank(pair.Second))
                        .Select(pair => new RideComparison
                        {
                            Candidate = pair.First,
                            Answer = pair.Second,
                            Suits = Math.Sign(now.CompareTo(Rank(pair.Second))),
                            OutsideShareChange = pair.Second.OutsideShare - present.OutsideShare,
                            OffAimRpmChange = pair.Second.OffAimRpm - present.OffAimRpm,
                            SteepestLowestRpmChange =
                                pair.Second.SteepestLowestRpm - present.SteepestLowestRpm,
                            SteepestInLowestGearRpmChange =
                                pair.Second.SteepestInLowestGearRpm
                                - present.SteepestInLowestGearRpm,
                            FrontShiftsChange = pair.Second.FrontShifts - present.FrontShifts,
                            AcrossShareChange = pair.Second.AcrossShare - present.AcrossShare,
                        }),
                ],
            };
        }

        private double? SlowestOnSteepest()
        {
            double? slowest = null;
            for (
                var i = pace.PedalledBefore[steepest.From];
                i < pace.PedalledBefore[steepest.To];
                i++
            )
            {
                slowest = Math.Min(slowest ?? double.PositiveInfinity, pace.PedalledMs[i]);
            }
            return slowest;
        }

        private RideAnswer Answer(GearSet set, double lowestOnSteepest, int gearOnSteepest)
        {
            var seconds = choice.Seconds;
            var cogs = set.Cogs.Length;
            var total = 0.0;
            var across = 0.0;
            for (var g = 0; g < seconds.Length; g++)
            {
                total += seconds[g];
                across += set.IsAcross(g / cogs, g % cogs) ? seconds[g] : 0;
            }
            var gears = ImmutableArray.CreateBuilder<GearShare>(seconds.Length);
            var byCog = new double[cogs];
            var byRing = new double[set.Rings.Length];
            for (var g = 0; g < seconds.Length; g++)
            {
                var share = total > 0 ? seconds[g] / total : 0;
                byRing[g / cogs] += share;
                byCog[g % cogs] += share;
                gears.Add(
                    new(
                        set.At(g / cogs, g % cogs),
                        set.IsAcross(g / cogs, g % cogs),
                        seconds[g],
                        share
                    )
                );
            }
            return new()
            {
                Set = set,
                PedalledS = total,
                Gears = gears.MoveToImmutable(),
                Cogs = [.. set.Cogs.Zip(byCog, (teeth, share) => new TeethShare(teeth, share))],
                Rings = [.. set.Rings.Zip(byRing, (teeth, share) => new TeethShare(teeth, share))],
                FrontShifts = choice.FrontShifts,
                RearShifts = choice.RearShifts,
                AcrossS = across,
                BelowShare = total > 0 ? choice.BelowS / total : 0,
                AboveShare = total > 0 ? choice.AboveS / total : 0,
                OffAimRpm = total > 0 ? choice.OffAim / total : 0,
                LowestRpm = double.IsFinite(choice.LowestRpm) ? choice.LowestRpm : null,
                SteepestLowestRpm = double.IsFinite(lowestOnSteepest) ? lowestOnSteepest : null,
                LowestGear = set.Lowest,
                SteepestInLowestGearRpm =
                    slowestMs * 60 / (set.Lowest.Ratio * question.Tyre.CircumferenceM),
                SteepestGear =
                    gearOnSteepest >= 0
                        ? set.At(gearOnSteepest / cogs, gearOnSteepest % cogs)
                        : null,
            };
        }
    }
}
