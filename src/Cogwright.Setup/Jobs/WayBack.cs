using System.Collections.Immutable;

namespace Cogwright.Setup.Jobs;

/// <summary>A step on the way back to all good. Immutable.</summary>
/// <param name="Place">The step.</param>
/// <param name="Mark">Why its result is to be rechecked; null when it is only done so that another step may be.</param>
/// <param name="Needs">Conditions that no step of these procedures makes: the mechanic brings them about and says so.</param>
public sealed record WayBackStep(StepPlace Place, RecheckMark? Mark, ImmutableArray<string> Needs);

/// <summary>
/// The least work that makes every marked result good again, in an order in which no step is blocked: what is voided is done
/// again, what is in doubt is looked at, and what must be done so that a step may be done comes before it. Found by doing it:
/// each step is applied to the state as if its result had come out well, a look as if nothing had to be turned. When a look
/// finds that something must be turned, the way from there is asked for anew.
/// </summary>
public static class WayBack
{
    // A step may come more than once, such as a cage brought to and fro; procedures whose steps undo one another for ever
    // are told by their lint, and end here.
    private const int MostTimesEach = 4;

    private static readonly FactSource Nobody = new("", 0, "");

    /// <summary>The steps, in the order of doing; empty when all is good.</summary>
    /// <param name="work">The state.</param>
    public static ImmutableArray<WayBackStep> Of(BikeWork work)
    {
        ArgumentNullException.ThrowIfNull(work);
        var walk = new Walk(work);
        while (walk.Next() is { } place)
        {
            walk.Go(place);
        }
        return walk.Way.ToImmutable();
    }

    private sealed class Walk
    {
        private readonly Dictionary<StepPlace, int> times = [];
        private readonly HashSet<StepPlace> open = [];
        private BikeWork work;
        private Recheck recheck;

        internal Walk(BikeWork work)
        {
            this.work = work;
            recheck = new(work);
        }

        internal ImmutableArray<WayBackStep>.Builder Way { get; } =
            ImmutableArray.CreateBuilder<WayBackStep>();

        /// <summary>The first marked result that waits for no other one.</summary>
        internal StepPlace? Next()
        {
            foreach (var mark in recheck.Marks)
            {
                var first = First(mark);
                if (times.GetValueOrDefault(first) < MostTimesEach)
                {
                    return first;
                }
            }
            return null;
        }

        internal void Go(StepPlace place)
        {
            open.Add(place);
            var step = work.Runs[place.Run].Numbered.Steps[place.Step];
            // What one step makes the next may end, so it is asked again until nothing is missing.
            while (Maker(place, recheck.Missing(step)) is { } maker)
            {
                var first = recheck.MarkOf(maker.Run, maker.Step) is { } doubt
                    ? First(doubt)
                    : maker;
                Go(IsFree(first) ? first : maker);
            }
            var needs = recheck.Missing(step);
            foreach (var need in needs.Names)
            {
                Apply(new ConditionSaid(Nobody, need, true));
            }
            var mark = recheck.MarkOf(place.Run, place.Step);
            Apply(
                new StepDone(Nobody, work.Runs[place.Run].Id, step.Step.Id, StepOutcome.Done)
                {
                    Held = mark is not { Level: RecheckLevel.Redo },
                }
            );
            times[place] = times.GetValueOrDefault(place) + 1;
            open.Remove(place);
            Way.Add(new(place, mark, [.. needs.Names]));
        }

        private void Apply(JobFact fact)
        {
            work = work.Then(fact);
            recheck = new(work);
        }

        private bool IsFree(StepPlace place) =>
            times.GetValueOrDefault(place) < MostTimesEach && !open.Contains(place);

        /// <summary>
        /// Where a doubt begins: something has happened to it itself, and it rests on nothing of which that is true too, unless
        /// the two rest on one another.
        /// </summary>
        private StepPlace First(RecheckMark mark)
        {
            var first = mark;
            while (
                recheck
                    .Under(first)
                    .FirstOrDefault(other =>
                        other.Level != RecheckLevel.Waits
                        && (
                            first.Level == RecheckLevel.Waits
                            || !recheck.Under(other).Any(back => IsSame(back, first))
                        )
                    )
                    is { } earlier
            )
            {
                first = earlier;
            }
            return new(first.Run, first.Step);
        }

        private static bool IsSame(RecheckMark one, RecheckMark other) =>
            (one.Run, one.Step) == (other.Run, other.Step);

        /// <summary>
        /// A step that makes one of these conditions: of the same run the last one before, else the first one after, else the
        /// last one of another run; null when nothing is missing or no step makes it.
        /// </summary>
        private StepPlace? Maker(StepPlace place, ConditionBits missing)
        {
            if (missing.IsEmpty)
            {
                return null;
            }
            foreach (var candidate in Candidates(place))
            {
                var makes = work.Runs[candidate.Run].Numbered.Steps[candidate.Step].Makes;
                if ((makes.Bits & missing.Bits) != 0 && IsFree(candidate))
                {
                    return candidate;
                }
            }
            return null;
        }

        private IEnumerable<StepPlace> Candidates(StepPlace place)
        {
            for (var before = place.Step - 1; before >= 0; before--)
            {
                yield return new(place.Run, before);
            }
            for (var after = place.Step + 1; after < work.Runs[place.Run].Results.Length; after++)
            {
                yield return new(place.Run, after);
            }
            for (var run = work.Runs.Length - 1; run >= 0; run--)
            {
                for (var last = work.Runs[run].Results.Length - 1; last >= 0; last--)
                {
                    if (run != place.Run)
                    {
                        yield return new(run, last);
                    }
                }
            }
        }
    }
}
