using System.Collections.Immutable;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>How much a result still tells.</summary>
public enum RecheckLevel
{
    /// <summary>It waits for another one: if that comes out as it was, this one is good again by itself.</summary>
    Waits,

    /// <summary>It may still hold: look or read again.</summary>
    Look,

    /// <summary>It does not hold: do it again.</summary>
    Redo,
}

/// <summary>Why a result is to be rechecked. Immutable.</summary>
/// <param name="Level">What this reason alone asks for.</param>
/// <param name="Cause">What happened after the result was made; null when it waits for a result that is itself in doubt.</param>
/// <param name="From">The result that it waits for or was made from, as run and step; null when the cause is a change.</param>
public sealed record RecheckReason(RecheckLevel Level, Cause? Cause, (int Run, int Step)? From);

/// <summary>A result that is to be rechecked. Immutable.</summary>
/// <param name="Run">Index of its run.</param>
/// <param name="Step">Index of its step.</param>
/// <param name="Level">The most that its reasons ask for.</param>
/// <param name="Reasons">Why, the gravest first; each cause once.</param>
public sealed record RecheckMark(
    int Run,
    int Step,
    RecheckLevel Level,
    ImmutableArray<RecheckReason> Reasons
);

/// <summary>
/// Which results no longer hold, and why. A result is in doubt when what it is about was voided, or what it was made from was
/// moved, after it was last confirmed; and it waits when what it was made on top of is in doubt itself, near or far. Worked out
/// from the state alone, and only as far as it is asked for. For one thread.
/// </summary>
public sealed class Recheck
{
    private readonly BikeWork work;
    private readonly Ground?[]?[] grounds;

    /// <summary>Of a state.</summary>
    /// <param name="work">The state.</param>
    public Recheck(BikeWork work)
    {
        ArgumentNullException.ThrowIfNull(work);
        this.work = work;
        grounds = new Ground?[work.Runs.Length][];
    }

    /// <summary>What a result rests on.</summary>
    private sealed class Ground
    {
        /// <summary>What happened after it was confirmed, the gravest first.</summary>
        internal required ImmutableArray<RecheckReason> Own { get; init; }

        /// <summary>The results that it was made on top of.</summary>
        internal required ImmutableArray<(int Run, int Step)> From { get; init; }

        internal bool? IsInDoubt { get; set; }

        internal RecheckMark? Mark { get; set; }
    }

    /// <summary>
    /// All results that are to be rechecked, in the order of the runs and their steps: those that are still the last word on
    /// something, and were meant to last. What was set roughly is set again for good later; until then what it made true does
    /// not hold (<see cref="Holds"/>), and that is all.
    /// </summary>
    public IEnumerable<RecheckMark> Marks
    {
        get
        {
            for (var run = 0; run < work.Runs.Length; run++)
            {
                for (var step = 0; step < work.Runs[run].Results.Length; step++)
                {
                    if (
                        work.Runs[run].Procedure.Steps[step].State != StepState.Rough
                        && IsLastWord(run, step)
                        && MarkOf(run, step) is { } mark
                    )
                    {
                        yield return mark;
                    }
                }
            }
        }
    }

    /// <summary>Why the result of a step is to be rechecked, or null when it holds or there is none.</summary>
    /// <param name="run">Index of the run.</param>
    /// <param name="step">Index of the step.</param>
    public RecheckMark? MarkOf(int run, int step)
    {
        if (GroundOf(run, step) is not { } ground || !IsInDoubt(ground))
        {
            return null;
        }
        if (ground.Mark is null)
        {
            ImmutableArray<RecheckReason> reasons =
            [
                .. ground.Own,
                .. ground
                    .From.Where(from =>
                        IsInDoubt(GroundOf(from.Run, from.Step)!)
                        && !ground.Own.Any(own => own.From == from)
                    )
                    .Select(from => new RecheckReason(RecheckLevel.Waits, null, from)),
            ];
            ground.Mark = new(run, step, reasons[0].Level, reasons);
        }
        return ground.Mark;
    }

    /// <summary>
    /// Why what was seen at a step then no longer tells, whether or not the step was done since: what it rests on was moved
    /// or is in doubt; or null when it does.
    /// </summary>
    /// <param name="run">Index of the run.</param>
    /// <param name="step">Index of the step.</param>
    /// <param name="at">The number of the fact that says what was seen.</param>
    public RecheckReason? WhyNotSince(int run, int step, int at)
    {
        var ground = WorkOut(run, step, at);
        if (ground.Own is [var own, ..])
        {
            return own;
        }
        foreach (var from in ground.From)
        {
            if (IsInDoubt(GroundOf(from.Run, from.Step)!))
            {
                return new(RecheckLevel.Waits, null, from);
            }
        }
        return null;
    }

    /// <summary>The marked results that one rests on, near and far; not itself.</summary>
    internal List<RecheckMark> Under(RecheckMark mark)
    {
        var found = new List<RecheckMark>();
        var seen = new HashSet<(int, int)> { (mark.Run, mark.Step) };
        var next = new Stack<RecheckMark>([mark]);
        while (next.TryPop(out var one))
        {
            foreach (var reason in one.Reasons)
            {
                if (
                    reason.From is { } from
                    && seen.Add(from)
                    && MarkOf(from.Run, from.Step) is { } other
                )
                {
                    found.Add(other);
                    next.Push(other);
                }
            }
        }
        return found;
    }

    /// <summary>The number of the last fact for which a result is in doubt, by itself or through what it rests on.</summary>
    internal int LastCauseOf(RecheckMark mark) =>
        Under(mark)
            .Append(mark)
            .SelectMany(one => one.Reasons)
            .Max(reason => reason.Cause?.At ?? 0);

    /// <summary>Whether the result of a step is still the last word on anything that it settles.</summary>
    public bool IsLastWord(int run, int step)
    {
        if (work.Runs[run].Results[step] is null)
        {
            return false;
        }
        var settles = work.Runs[run].Numbered.Steps[step].Settled;
        foreach (var subject in settles)
        {
            if (CauseAt(work.Settled, subject) is { } last && last.Run == run && last.Step == step)
            {
                return true;
            }
        }
        return settles.Length == 0;
    }

    /// <summary>
    /// Whether a condition holds: it was made and not ended, and what made it is not in doubt.
    /// </summary>
    /// <param name="condition">One of <see cref="MechanismConditions"/>.</param>
    public bool Holds(string condition)
    {
        var place = ConditionBits.PlaceOf(condition);
        return place >= 0 && work.Conditions.Has(place) && Lapsed(place) is null;
    }

    /// <summary>Why a condition that was made no longer holds, or null when it holds or was never made.</summary>
    /// <param name="condition">One of <see cref="MechanismConditions"/>.</param>
    public RecheckReason? WhyLapsed(string condition)
    {
        var place = ConditionBits.PlaceOf(condition);
        return place >= 0 && work.Conditions.Has(place) ? Lapsed(place) : null;
    }

    /// <summary>The conditions that hold.</summary>
    internal ConditionBits Holding
    {
        get
        {
            var holding = 0UL;
            for (var place = 0; place < ConditionBits.Count; place++)
            {
                if (work.Conditions.Has(place) && Lapsed(place) is null)
                {
                    holding |= 1UL << place;
                }
            }
            return new(holding);
        }
    }

    /// <summary>What a step needs and does not have.</summary>
    internal ConditionBits Missing(NumberedStep step)
    {
        var missing = step.Needs.Without(work.Conditions).Bits;
        var asked = step.Needs.Without(new(missing));
        for (var place = 0; place < ConditionBits.Count && !asked.IsEmpty; place++)
        {
            if (asked.Has(place))
            {
                asked = asked.Without(new(1UL << place));
                if (Lapsed(place) is not null)
                {
                    missing |= 1UL << place;
                }
            }
        }
        return new(missing);
    }

    private RecheckReason? Lapsed(int place)
    {
        if (work.Makers[place] is not { } maker)
        {
            return null;
        }
        if (maker.Run >= 0 && MarkOf(maker.Run, maker.Step) is { } mark)
        {
            return mark.Reasons[0];
        }
        // Said by the mechanic, or by a step that another has replaced since: it holds until something voids it.
        var subject = work.ConditionSubjects[place];
        return Later(work.Redo, subject, maker.At) is { } voided
                ? new(RecheckLevel.Redo, voided, Of(voided))
            : Later(work.Look, subject, maker.At) is { } doubted
                ? new(RecheckLevel.Look, doubted, Of(doubted))
            : null;
    }

    private static (int Run, int Step)? Of(Cause cause) =>
        cause.Run >= 0 ? (cause.Run, cause.Step) : null;

    /// <summary>
    /// Whether something has happened to a result or to one that it rests on, near or far. Results can rest on one another in
    /// a ring, each looked at again after the other was set; so this asks whether a cause can be reached, whatever the order.
    /// </summary>
    private bool IsInDoubt(Ground ground)
    {
        if (ground.IsInDoubt is { } already)
        {
            return already;
        }
        var seen = new HashSet<Ground> { ground };
        var next = new Stack<Ground>(seen);
        while (next.TryPop(out var one))
        {
            if (!one.Own.IsEmpty || one.IsInDoubt == true)
            {
                ground.IsInDoubt = true;
                return true;
            }
            foreach (var from in one.From)
            {
                if (
                    GroundOf(from.Run, from.Step) is { IsInDoubt: not false } other
                    && seen.Add(other)
                )
                {
                    next.Push(other);
                }
            }
        }
        foreach (var one in seen)
        {
            one.IsInDoubt = false;
        }
        return false;
    }

    private Ground? GroundOf(int run, int step)
    {
        if (work.Runs[run].Results[step] is not { } result)
        {
            return null;
        }
        var inRun = grounds[run] ??= new Ground?[work.Runs[run].Results.Length];
        return inRun[step] ??= WorkOut(run, step, result.MadeAt);
    }

    private Ground WorkOut(int run, int index, int madeAt)
    {
        var step = work.Runs[run].Numbered.Steps[index];
        if (step.Adjusts.Length > 0 && !IsLastWord(run, index))
        {
            // Another step has set it since; what becomes of this result no longer matters.
            return new() { Own = [], From = [] };
        }
        // What was set roughly is moved by the steps that set something after it: that is what roughly means. What happened to the
        // bike voids it, and so does a reading that it was made from and that is another one now.
        var isRough = step.Step.State == StepState.Rough;
        var (redo, look, moved) = isRough ? work.Happened : (work.Redo, work.Look, work.Moved);
        var own = ImmutableArray.CreateBuilder<RecheckReason>();
        var from = ImmutableArray.CreateBuilder<(int Run, int Step)>();
        foreach (var subject in step.About)
        {
            Add(RecheckLevel.Redo, Later(redo, subject, madeAt));
        }
        foreach (var adjuster in step.Adjusts)
        {
            // Set roughly by another step since.
            Add(RecheckLevel.Redo, Later(moved, adjuster, madeAt));
        }
        foreach (var subject in step.About)
        {
            Add(RecheckLevel.Look, Later(look, subject, madeAt));
        }
        foreach (var subject in step.Asked)
        {
            Add(RecheckLevel.Look, Later(moved, subject, madeAt));
            AddFrom(CauseAt(work.Settled, subject));
        }
        foreach (var adjuster in step.SpoiltBy)
        {
            AddFrom(CauseAt(work.Settled, adjuster));
        }
        foreach (var earlier in step.From)
        {
            if (work.Runs[run].Results[earlier] is { } other)
            {
                var cause = new Cause(other.MovedAt, other.Done, run, earlier);
                var isOwn = other.MovedAt > madeAt && !(isRough && IsSetting(cause));
                Add(RecheckLevel.Look, isOwn ? cause : null);
                AddFrom(cause);
            }
        }
        return new() { Own = own.ToImmutable(), From = from.ToImmutable() };

        void Add(RecheckLevel level, Cause? cause)
        {
            if (cause is not null && !own.Any(other => other.Cause?.At == cause.At))
            {
                own.Add(new(level, cause, Of(cause)));
            }
        }

        void AddFrom(Cause? setter)
        {
            // What was moved after this result was confirmed is a reason of its own already.
            // And what was set roughly does not rest on what is set after it.
            if (
                setter is { Run: >= 0 }
                && !(isRough && IsSetting(setter))
                && (setter.Run, setter.Step) != (run, index)
                && work.Runs[setter.Run].Results[setter.Step]!.MovedAt < madeAt
                && !from.Contains((setter.Run, setter.Step))
            )
            {
                from.Add((setter.Run, setter.Step));
            }
        }
    }

    private bool IsSetting(Cause cause) =>
        cause.Run >= 0 && work.Runs[cause.Run].Numbered.Steps[cause.Step].Adjusts.Length > 0;

    private static Cause? Later(ImmutableArray<Cause?> causes, int subject, int than) =>
        CauseAt(causes, subject) is { } cause && cause.At > than ? cause : null;

    private static Cause? CauseAt(ImmutableArray<Cause?> causes, int subject) =>
        (uint)subject < (uint)causes.Length ? causes[subject] : null;
}
