using System.Collections.Immutable;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>How a step stands.</summary>
public enum StepStanding
{
    /// <summary>Not done, and nothing hinders it.</summary>
    Ready,

    /// <summary>Not done, and something must hold first.</summary>
    Blocked,

    /// <summary>Done, as it should be, and nothing has touched it since.</summary>
    Good,

    /// <summary>Done, and not as it should be: outside, too close to call, or not as expected.</summary>
    NotGood,

    /// <summary>Done, and something has changed since: it is to be rechecked.</summary>
    Recheck,

    /// <summary>A later step has the last word on all that it settles.</summary>
    Superseded,

    /// <summary>Set roughly, moved by what came after, and to be set for good by a later step.</summary>
    Rough,

    /// <summary>Somebody answers for it as it is.</summary>
    Excepted,
}

/// <summary>A place in the work. Immutable.</summary>
/// <param name="Run">Index of the run.</param>
/// <param name="Step">Index of the step.</param>
public readonly record struct StepPlace(int Run, int Step);

/// <summary>What keeps a step from being done, and the way out. Immutable.</summary>
/// <param name="Condition">The condition that must hold.</param>
/// <param name="Lapsed">Why it holds no longer; null when it was not made yet.</param>
/// <param name="Maker">A step that makes it, or null: the mechanic brings it about and says so.</param>
public sealed record StepBlock(string Condition, RecheckReason? Lapsed, StepPlace? Maker);

/// <summary>
/// What a mechanic needs to know of the work at any moment: how each step stands, what was last verified, what is open, what
/// is next. Worked out from the state. For one thread.
/// </summary>
public sealed class JobReview
{
    private readonly BikeWork work;
    private ImmutableArray<WayBackStep> way;

    /// <summary>Of the work on a bike.</summary>
    /// <param name="work">Its state.</param>
    public JobReview(BikeWork work)
    {
        ArgumentNullException.ThrowIfNull(work);
        this.work = work;
        Recheck = new(work);
    }

    /// <summary>What is in doubt.</summary>
    public Recheck Recheck { get; }

    /// <summary>The way back to all good.</summary>
    public ImmutableArray<WayBackStep> Way => way.IsDefault ? way = WayBack.Of(work) : way;

    /// <summary>How a step stands.</summary>
    /// <param name="place">The step.</param>
    public StepStanding StandingOf(StepPlace place)
    {
        var run = work.Runs[place.Run];
        var result = run.Results[place.Step];
        if (result is not null && !Recheck.IsLastWord(place.Run, place.Step))
        {
            return StepStanding.Superseded;
        }
        var mark = Recheck.MarkOf(place.Run, place.Step);
        if (
            result is { IsGood: true }
            && mark is not null
            && StepOf(place).State == StepState.Rough
        )
        {
            return StepStanding.Rough;
        }
        if (result is { IsGood: true } && mark is null)
        {
            return StepStanding.Good;
        }
        if (IsExcepted(place, mark))
        {
            return StepStanding.Excepted;
        }
        return mark is not null ? StepStanding.Recheck
            : result is not null ? StepStanding.NotGood
            : BlocksOf(place).IsEmpty ? StepStanding.Ready
            : StepStanding.Blocked;
    }

    /// <summary>What keeps a step from being done now; empty when nothing does.</summary>
    /// <param name="place">The step.</param>
    public ImmutableArray<StepBlock> BlocksOf(StepPlace place)
    {
        var step = work.Runs[place.Run].Numbered.Steps[place.Step];
        return
        [
            .. Recheck
                .Missing(step)
                .Names.Select(name => new StepBlock(
                    name,
                    Recheck.WhyLapsed(name),
                    MakerOf(place, name)
                )),
        ];
    }

    /// <summary>
    /// The step to do next in a job: first what is to be rechecked on the bike, in its order and whichever job set it, then what is
    /// not done.
    /// </summary>
    /// <param name="job">The job's id.</param>
    /// <returns>The step, or null when nothing is left that can be done.</returns>
    public StepPlace? NextOf(string job)
    {
        foreach (var (place, _, _) in Way)
        {
            // What waits for a result that cannot be had now would have to be looked at again and again.
            if (
                StandingOf(place) is not StepStanding.Excepted
                && Recheck.MarkOf(place.Run, place.Step) is not { Level: RecheckLevel.Waits }
                && (BlocksOf(place).IsEmpty ? place : AgainFor(place, [])) is { } next
            )
            {
                return next;
            }
        }
        foreach (var place in PlacesOf(job))
        {
            switch (StandingOf(place))
            {
                case StepStanding.Ready:
                case StepStanding.NotGood when BlocksOf(place).IsEmpty:
                    return place;
                case StepStanding.Blocked
                or StepStanding.NotGood when AgainFor(place, []) is { } again:
                    return again;
            }
        }
        return null;
    }

    /// <summary>
    /// A step that was done and is done again so that another one may be, since what it had made does not hold any more; null
    /// when that would not do: something else is missing that no step has made, or the step itself waits for another.
    /// </summary>
    private StepPlace? AgainFor(StepPlace place, HashSet<StepPlace> seen)
    {
        StepPlace? first = null;
        foreach (var block in BlocksOf(place))
        {
            if (
                block.Maker is not { } maker
                || work.Runs[maker.Run].Results[maker.Step] is null
                || Recheck.MarkOf(maker.Run, maker.Step) is { Level: RecheckLevel.Waits }
                || !seen.Add(maker)
                || (BlocksOf(maker).IsEmpty ? maker : AgainFor(maker, seen)) is not { } again
            )
            {
                return null;
            }
            first ??= again;
        }
        return first;
    }

    /// <summary>The first step that is to be done on the bike or in a job and cannot be done now, or null.</summary>
    /// <param name="job">The job's id.</param>
    public StepPlace? FirstBlockedOf(string job) =>
        Way.Select(step => step.Place)
            .Where(place => StandingOf(place) is not StepStanding.Excepted)
            .Concat(PlacesOf(job).Where(place => StandingOf(place) is StepStanding.Blocked))
            .Where(place => !BlocksOf(place).IsEmpty)
            .Select(place => (StepPlace?)place)
            .FirstOrDefault();

    /// <summary>The result of a job that was confirmed last and is good: where interrupted work goes on from; or null.</summary>
    /// <param name="job">The job's id.</param>
    public StepPlace? LastVerifiedOf(string job) =>
        PlacesOf(job)
            .Where(place =>
                StepOf(place) is { Check: not null } or { Torque: not null }
                && StandingOf(place) is StepStanding.Good or StepStanding.Superseded
                && work.Runs[place.Run].Results[place.Step]!.IsGood
            )
            .Select(place => (StepPlace?)place)
            .MaxBy(place => work.Runs[place!.Value.Run].Results[place.Value.Step]!.MadeAt);

    /// <summary>Fasteners that procedures of a job tighten and that are not tight now, in the order of the steps.</summary>
    /// <param name="job">The job's id.</param>
    public ImmutableArray<string> OpenTorquesOf(string job)
    {
        // That an earlier job has tightened it says nothing of what this one has loosened.
        var tight = PlacesOf(job)
            .Where(place =>
                StepOf(place).Torque is not null
                && StandingOf(place) is StepStanding.Good or StepStanding.Excepted
            )
            .Select(place => StepOf(place).Torque!.Fastener)
            .ToHashSet(StringComparer.Ordinal);
        return
        [
            .. PlacesOf(job)
                .Select(place => StepOf(place).Torque?.Fastener)
                .OfType<string>()
                .Distinct()
                .Where(fastener => !tight.Contains(fastener)),
        ];
    }

    /// <summary>Adjusters that a job sets and that stand where they were only set roughly, or where a change has left them.</summary>
    /// <param name="job">The job's id.</param>
    public ImmutableArray<string> RoughOf(string job) =>
        [
            .. PlacesOf(job)
                .Where(place =>
                    Recheck.IsLastWord(place.Run, place.Step)
                    && (
                        StepOf(place).State == StepState.Rough
                        || StandingOf(place) is StepStanding.Recheck or StepStanding.NotGood
                    )
                )
                .SelectMany(place => StepOf(place).Adjusts)
                .Distinct(),
        ];

    /// <summary>
    /// What stands between a job and its handover, and nobody answers for with a reason: its steps that are not done or not as
    /// they should be, and everything on the bike that is to be rechecked, whichever job set it.
    /// </summary>
    /// <param name="job">The job's id.</param>
    public ImmutableArray<StepPlace> OpenOf(string job) =>
        [
            .. Places()
                .Where(place =>
                    StandingOf(place) switch
                    {
                        StepStanding.Recheck => true,
                        StepStanding.Ready or StepStanding.Blocked or StepStanding.NotGood =>
                            work.Runs[place.Run].Job == job,
                        _ => false,
                    }
                ),
        ];

    /// <summary>
    /// The causes of a doubt from the result back to what happened: each line says what waits for what, the last one what
    /// happened.
    /// </summary>
    /// <param name="mark">The doubt.</param>
    public ImmutableArray<RecheckReason> ChainOf(RecheckMark mark)
    {
        ArgumentNullException.ThrowIfNull(mark);
        var chain = ImmutableArray.CreateBuilder<RecheckReason>();
        var seen = new HashSet<(int, int)>();
        for (var at = mark; at is not null; )
        {
            if (!seen.Add((at.Run, at.Step)))
            {
                break;
            }
            var reason = at.Reasons[0];
            chain.Add(reason);
            at = reason.From is { } from ? Recheck.MarkOf(from.Run, from.Step) : null;
        }
        return chain.ToImmutable();
    }

    private IEnumerable<StepPlace> Places() =>
        work.Runs.SelectMany(
            (run, r) => Enumerable.Range(0, run.Results.Length).Select(s => new StepPlace(r, s))
        );

    private IEnumerable<StepPlace> PlacesOf(string job) =>
        Places().Where(place => work.Runs[place.Run].Job == job);

    private ProcedureStep StepOf(StepPlace place) =>
        work.Runs[place.Run].Procedure.Steps[place.Step];

    /// <summary>An exception holds for what was known when it was made, of the result and of all that it rests on.</summary>
    private bool IsExcepted(StepPlace place, RecheckMark? mark) =>
        work.Runs[place.Run].Exceptions[place.Step] is { } exception
        && (work.Runs[place.Run].Results[place.Step]?.MadeAt ?? 0) < exception.At
        && (mark is null || Recheck.LastCauseOf(mark) < exception.At);

    private StepPlace? MakerOf(StepPlace place, string condition)
    {
        var steps = work.Runs[place.Run].Procedure.Steps;
        for (var before = place.Step - 1; before >= 0; before--)
        {
            if (steps[before].Makes.Contains(condition))
            {
                return new(place.Run, before);
            }
        }
        for (var after = place.Step + 1; after < steps.Length; after++)
        {
            if (steps[after].Makes.Contains(condition))
            {
                return new(place.Run, after);
            }
        }
        return null;
    }
}
