using System.Collections.Immutable;
using System.Numerics;
using System.Runtime.InteropServices;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>
/// What the facts of a bike come to, one after the other. A fold keeps a table of names: states of one fold are not handed to
/// another. Pure but for that table, which only grows; for one thread.
/// </summary>
public sealed class JobFold
{
    private readonly SubjectTable table = new();

    /// <summary>A fold of its own.</summary>
    public JobFold() =>
        Start = new()
        {
            Fold = this,
            ConditionSubjects =
            [
                .. MechanismConditions.Names.Select(name => table.Of(Subjects.Condition(name))),
            ],
        };

    /// <summary>Before the first fact.</summary>
    public BikeWork Start { get; }

    /// <summary>The state after all of these facts.</summary>
    /// <param name="facts">The facts, in the order of the log.</param>
    public BikeWork All(IEnumerable<JobFact> facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        return facts.Aggregate(Start, Apply);
    }

    /// <summary>The state after one more fact; a fact that names what is not there is kept as <see cref="BikeWork.Unplaced"/>.</summary>
    /// <param name="work">The state before it.</param>
    /// <param name="fact">The fact.</param>
    public BikeWork Apply(BikeWork work, JobFact fact)
    {
        ArgumentNullException.ThrowIfNull(work);
        ArgumentNullException.ThrowIfNull(fact);
        var at = work.Facts + 1;
        var next = fact switch
        {
            JobBegun begun => work with
            {
                // The bike was out of sight: how it stands now is looked at anew.
                Conditions = default,
                Jobs = work.Jobs.Add(
                    new()
                    {
                        Id = begun.Id,
                        Title = begun.Title,
                        UtcTicks = begun.From.UtcTicks,
                    }
                ),
            },
            IntakeNoted noted => OfJob(
                work,
                noted.Job,
                job => job with { Intake = WithAnswers(job.Intake, noted.Fields) }
            ),
            StageReached reached => OfJob(
                work,
                reached.Job,
                job => job with { Stage = reached.Stage }
            ),
            JobTaken taken => OfJob(
                work,
                taken.Job,
                job => job with { InHandsOf = taken.By, Hands = job.Hands.Add(taken) }
            ),
            WordsTaken words => OfJob(
                work,
                words.Job,
                job =>
                    job with
                    {
                        Words =
                            words.Digest.Length > 0
                                ? job.Words.SetItem(words.What, words.Digest)
                                : job.Words.Remove(words.What),
                    }
            ),
            CameBack back => OfJob(
                work,
                back.Job,
                job => job with { Comeback = back.Cause.Length > 0 ? back : null }
            ),
            JobClosed closed => OfJob(
                work,
                closed.Job,
                job =>
                    job with
                    {
                        Stage = JobStage.Aftercare,
                        ClosedUtcTicks = closed.From.UtcTicks,
                        FirstCheck = closed.FirstCheck,
                    }
            ),
            JobChecked look => OfJob(
                work,
                look.Job,
                job => job with { Checks = job.Checks.Add(look) }
            ),
            JobAmended amended => OfJob(
                work,
                amended.Job,
                job => job with { Amendments = job.Amendments.Add(amended) }
            ),
            ProcedureBegun begun => Begin(work, begun, at),
            StepDone done => Do(work, done, at),
            GearsTried tried => Try(work, tried, at),
            ConditionSaid set => Set(work, set, at),
            ChangeMade made => BikeChanges.Find(made.Change) is { } change
                ? Change(
                    work with
                    {
                        Changes = work.Changes.Add(made),
                    },
                    table.Of(change),
                    new(at, fact)
                )
                : null,
            FiguresChanged changed => Change(
                work,
                new([], [], table.Of(changed.Parts.Select(Subjects.Part))),
                new(at, fact)
            ),
            ResultExcepted excepted => Except(work, excepted, at),
            _ => null,
        };
        return next is null ? work with { Unplaced = work.Unplaced.Add(fact), Facts = at }
            : next.Facts == at ? next
            : next with { Facts = at };
    }

    private static BikeWork? OfJob(BikeWork work, string id, Func<Job, Job> change)
    {
        for (var i = 0; i < work.Jobs.Length; i++)
        {
            if (work.Jobs[i].Id == id)
            {
                return work with { Jobs = work.Jobs.SetItem(i, change(work.Jobs[i])) };
            }
        }
        return null;
    }

    private static ImmutableSortedDictionary<string, string> WithAnswers(
        ImmutableSortedDictionary<string, string> before,
        ImmutableSortedDictionary<string, string> answers
    ) =>
        before
            .SetItems(answers.Where(answer => answer.Value.Length > 0))
            .RemoveRange(answers.Where(answer => answer.Value.Length == 0).Select(a => a.Key));

    private BikeWork? Begin(BikeWork work, ProcedureBegun begun, int at)
    {
        if (work.Job(begun.Job) is null)
        {
            return null;
        }
        var starts = new ProcedureStep
        {
            Id = "",
            Action = "",
            Part = "",
            Makes = begun.Procedure.StartsWith,
        };
        var made = ConditionBits.Of(starts.Makes);
        return Make(work, made, ConditionBits.EndedBy(starts), new(at, begun)) with
        {
            Runs = work.Runs.Add(new(begun.Id, begun.Job, table.Of(begun.Procedure))),
        };
    }

    private BikeWork? Do(BikeWork work, StepDone done, int at)
    {
        var run = work.IndexOfRun(done.Run);
        if (run < 0 || !work.Runs[run].Numbered.ById.TryGetValue(done.Step, out var index))
        {
            return null;
        }
        var step = work.Runs[run].Numbered.Steps[index];
        var before = work.Runs[run].Results[index];
        var cause = new Cause(at, done, run, index);
        // The first time there is nothing that it could have left as it was.
        var held = before is not null && (done.Held || !step.CanMove);
        var result = new StepResult
        {
            Done = done,
            MadeAt = at,
            // What was not as it should be and now is, or the other way round, is another one, whoever turned what.
            MovedAt = held && before!.IsGood && done.IsGood ? before.MovedAt : at,
            Before = before,
            By = work.Job(work.Runs[run].Job)?.InHandsOf ?? "",
            Asked = step.Needs.IsEmpty ? null : new(work, step),
        };
        Cause?[]? redo = null;
        Cause?[]? look = null;
        Cause?[]? moved = null;
        if (!held)
        {
            Note(ref moved, work.Moved, step.Adjusts, cause);
            foreach (var spoilt in step.Spoils)
            {
                Note(ref redo, work.Redo, spoilt.Redo, cause);
                Note(ref look, work.Look, spoilt.Look, cause);
                Note(ref moved, work.Moved, spoilt.Parts, cause);
            }
        }
        // What did not come out as it should makes nothing true, and what it should have made true is not so any more: a proof
        // that fails now outweighs one that held before.
        var ended = held ? step.EndsWhenHeld : step.Ends;
        var made = result.IsGood ? step.Makes : default;
        // Most facts are steps: their state is made at once.
        return work with
        {
            Facts = at,
            Runs = work.Runs.SetItem(
                run,
                work.Runs[run] with
                {
                    Results = work.Runs[run].Results.SetItem(index, result),
                }
            ),
            Settled = Note(work.Settled, SettledBy(work, step), cause),
            Redo = Made(redo, work.Redo),
            Look = Made(look, work.Look),
            Moved = Made(moved, work.Moved),
            Conditions = work
                .Conditions.Without(result.IsGood ? ended : ended.With(step.Makes))
                .With(made),
            Makers = WithMaker(work.Makers, made, cause),
        };
    }

    private static BikeWork? Try(BikeWork work, GearsTried tried, int at)
    {
        var run = work.IndexOfRun(tried.Run);
        if (
            run < 0
            || !work.Runs[run].Numbered.ById.TryGetValue(tried.Step, out var index)
            || TestPasses.Find(work.Runs[run].Procedure.Steps[index].Check?.Quantity) is null
        )
        {
            return null;
        }
        var tries = work.Runs[run].Tries;
        var ofStep = tries.GetValueOrDefault(index, ImmutableDictionary<TestGear, GearTry>.Empty);
        return work with
        {
            Runs = work.Runs.SetItem(
                run,
                work.Runs[run] with
                {
                    Tries = tries.SetItem(
                        index,
                        ofStep.SetItems(
                            tried.Gears.Select(gear =>
                                KeyValuePair.Create(gear, new GearTry(at, tried))
                            )
                        )
                    ),
                }
            ),
        };
    }

    /// <summary>What a step is the last word on from now on: what is set roughly is no last word where it was set for good.</summary>
    private static int[] SettledBy(BikeWork work, NumberedStep step) =>
        step.Step.State != StepState.Rough
            ? step.Settled
            :
            [
                .. step.Settled.Where(subject =>
                    (uint)subject >= (uint)work.Settled.Length
                    || work.Settled[subject] is not { } last
                    || work.Runs[last.Run].Numbered.Steps[last.Step].Step.State == StepState.Rough
                ),
            ];

    private static BikeWork? Set(BikeWork work, ConditionSaid set, int at)
    {
        if (ConditionBits.PlaceOf(set.Condition) < 0)
        {
            return null;
        }
        var one = ConditionBits.Of([set.Condition]);
        var step = new ProcedureStep
        {
            Id = "",
            Action = "",
            Part = "",
            Makes = [set.Condition],
        };
        return set.Holds
            ? Make(work, one, ConditionBits.EndedBy(step), new(at, set))
            : Make(work, default, one, new(at, set));
    }

    private static BikeWork? Except(BikeWork work, ResultExcepted excepted, int at)
    {
        var run = work.IndexOfRun(excepted.Run);
        if (
            run < 0
            || !work.Runs[run].Numbered.ById.TryGetValue(excepted.Step, out var index)
            || string.IsNullOrWhiteSpace(excepted.Reason)
        )
        {
            return null;
        }
        return work with
        {
            Runs = work.Runs.SetItem(
                run,
                work.Runs[run] with
                {
                    Exceptions = work.Runs[run].Exceptions.SetItem(index, new(at, excepted)),
                }
            ),
        };
    }

    private BikeWork Change(BikeWork work, NumberedChange change, Cause cause)
    {
        var next = work with
        {
            Redo = Note(work.Redo, change.Redo, cause),
            Look = Note(work.Look, change.Look, cause),
            Moved = Note(work.Moved, change.Parts, cause),
        };
        return cause.Run >= 0
            ? next
            : next with
            {
                Happened = (
                    Note(work.Happened.Redo, change.Redo, cause),
                    Note(work.Happened.Look, change.Look, cause),
                    Note(work.Happened.Moved, change.Parts, cause)
                ),
            };
    }

    private static BikeWork Make(
        BikeWork work,
        ConditionBits made,
        ConditionBits ended,
        Cause cause
    ) =>
        work with
        {
            Conditions = work.Conditions.Without(ended).With(made),
            Makers = WithMaker(work.Makers, made, cause),
        };

    private static ImmutableArray<Cause?> WithMaker(
        ImmutableArray<Cause?> makers,
        ConditionBits made,
        Cause cause
    )
    {
        if (made.IsEmpty)
        {
            return makers;
        }
        var copy = new Cause?[makers.Length];
        makers.CopyTo(copy);
        for (var bits = made.Bits; bits != 0; bits &= bits - 1)
        {
            copy[BitOperations.TrailingZeroCount(bits)] = cause;
        }
        return ImmutableCollectionsMarshal.AsImmutableArray(copy);
    }

    private ImmutableArray<Cause?> Note(
        ImmutableArray<Cause?> causes,
        ReadOnlySpan<int> subjects,
        Cause cause
    )
    {
        Cause?[]? copy = null;
        Note(ref copy, causes, subjects, cause);
        return Made(copy, causes);
    }

    /// <summary>Notes a cause in a copy of a table, which is made when there is first something to note.</summary>
    private void Note(
        ref Cause?[]? copy,
        ImmutableArray<Cause?> causes,
        ReadOnlySpan<int> subjects,
        Cause cause
    )
    {
        if (subjects.IsEmpty)
        {
            return;
        }
        if (copy is null)
        {
            copy = new Cause?[Math.Max(causes.Length, table.Count)];
            causes.CopyTo(copy);
        }
        foreach (var subject in subjects)
        {
            copy[subject] = cause;
        }
    }

    private static ImmutableArray<Cause?> Made(Cause?[]? copy, ImmutableArray<Cause?> causes) =>
        copy is null ? causes : ImmutableCollectionsMarshal.AsImmutableArray(copy);
}
