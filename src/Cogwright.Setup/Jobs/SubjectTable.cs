using System.Collections.Immutable;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Jobs;

/// <summary>Gives every subject a number, in the order in which they are first met. Only grows; for one thread.</summary>
internal sealed class SubjectTable
{
    private readonly Dictionary<string, int> numbers = new(StringComparer.Ordinal);
    private readonly Dictionary<BikeChange, NumberedChange> changes = new(
        ReferenceEqualityComparer.Instance
    );
    private readonly Dictionary<Procedure, NumberedProcedure> procedures = new(
        ReferenceEqualityComparer.Instance
    );

    internal int Count => numbers.Count;

    internal int Of(string subject)
    {
        if (!numbers.TryGetValue(subject, out var number))
        {
            numbers[subject] = number = numbers.Count;
        }
        return number;
    }

    internal int[] Of(IEnumerable<string> subjects) => [.. subjects.Select(Of).Distinct()];

    internal NumberedChange Of(BikeChange change)
    {
        if (!changes.TryGetValue(change, out var numbered))
        {
            changes[change] = numbered = new(
                Of(change.Redo),
                Of(change.Look),
                Of(change.Parts.Select(Subjects.Part))
            );
        }
        return numbered;
    }

    internal NumberedProcedure Of(Procedure procedure)
    {
        if (!procedures.TryGetValue(procedure, out var numbered))
        {
            procedures[procedure] = numbered = new(procedure, this);
        }
        return numbered;
    }
}

/// <summary>A change with its subjects as numbers.</summary>
internal sealed record NumberedChange(int[] Redo, int[] Look, int[] Parts);

/// <summary>A procedure with its names as numbers.</summary>
internal sealed class NumberedProcedure
{
    internal NumberedProcedure(Procedure procedure, SubjectTable table)
    {
        Procedure = procedure;
        var byId = new Dictionary<string, int>(StringComparer.Ordinal);
        var byResult = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < procedure.Steps.Length; i++)
        {
            byId.TryAdd(procedure.Steps[i].Id, i);
            if (procedure.Steps[i].Check?.Result is { } result)
            {
                byResult.TryAdd(result, i);
            }
        }
        ById = byId;
        Steps =
        [
            .. procedure.Steps.Select(
                (step, i) => new NumberedStep(step, i, procedure.Steps, byId, byResult, table)
            ),
        ];
    }

    internal Procedure Procedure { get; }

    internal NumberedStep[] Steps { get; }

    internal IReadOnlyDictionary<string, int> ById { get; }
}

/// <summary>A step with its names as numbers.</summary>
internal sealed class NumberedStep
{
    internal NumberedStep(
        ProcedureStep step,
        int index,
        ImmutableArray<ProcedureStep> steps,
        Dictionary<string, int> byId,
        Dictionary<string, int> byResult,
        SubjectTable table
    )
    {
        Step = step;
        string[] about = [.. Subjects.Of(step)];
        Settled = table.Of(Subjects.Settled(step));
        About = table.Of(about);
        Asked = table.Of(
            step.DependsOn.Parts.Select(Subjects.Part)
                .Concat(step.DependsOn.Adjusters.Select(Subjects.Adjuster))
        );
        From =
        [
            .. step
                .DependsOn.Steps.Where(byId.ContainsKey)
                .Select(id => byId[id])
                .Concat(
                    step.DependsOn.Readings.Where(byResult.ContainsKey)
                        .Select(name => byResult[name])
                )
                .Distinct()
                .Where(from => from != index && !Voids(step, steps[from])),
        ];
        Spoils = [.. step.Adjusts.Select(adjuster => table.Of(BikeChanges.Turned(adjuster)))];
        SpoiltBy = table.Of(
            about
                .SelectMany(subject => BikeChanges.SpoilersOf(subject))
                .Except(step.Adjusts)
                .Select(Subjects.Adjuster)
        );
        Needs = ConditionBits.Of(
            step.BlockedUntil.Concat(step.Acts.SelectMany(act => StepActs.Find(act)?.Needs ?? []))
        );
        Makes = ConditionBits.Of(step.Makes);
        Ends = ConditionBits
            .EndedBy(step)
            .With(
                ConditionBits.OfSubjects(
                    step.Adjusts.SelectMany(adjuster => BikeChanges.Turned(adjuster).Redo)
                )
            );
        EndsWhenHeld = step.Adjusts.IsEmpty
            ? Ends
            : ConditionBits.EndedBy(step with { Adjusts = [] });
        Adjusts = table.Of(step.Adjusts.Select(Subjects.Adjuster));
    }

    /// <summary>
    /// Whether a step voids what another came to: it is done after that one, and not made from it, or the two would ask for one
    /// another for ever.
    /// </summary>
    private static bool Voids(ProcedureStep step, ProcedureStep other) =>
        !step.Adjusts.IsEmpty
        && step.Adjusts.SelectMany(adjuster => BikeChanges.Turned(adjuster).Redo)
            .Intersect(Subjects.Of(other))
            .Any();

    internal ProcedureStep Step { get; }

    /// <summary>Whether doing it again can change anything that others are made from; a mere look at something cannot.</summary>
    internal bool CanMove =>
        Step
            is { Adjusts.IsEmpty: false }
                or { Makes.IsEmpty: false }
                or { Torque: not null }
                or { Check.Result: not null };

    /// <summary>What it is the last word on.</summary>
    internal int[] Settled { get; }

    /// <summary>What spoils it when it no longer holds.</summary>
    internal int[] About { get; }

    /// <summary>Parts and adjusters that it was made from.</summary>
    internal int[] Asked { get; }

    /// <summary>Steps of the same procedure that it was made from, but those that it voids itself.</summary>
    internal int[] From { get; }

    /// <summary>Adjusters that spoil what it is about when they are turned, but its own.</summary>
    internal int[] SpoiltBy { get; }

    /// <summary>What each of its adjusters spoils when it is turned.</summary>
    internal NumberedChange[] Spoils { get; }

    /// <summary>What must hold before it: what the procedure says, and what its acts need whether or not the procedure says so.</summary>
    internal ConditionBits Needs { get; }

    /// <summary>What holds after it.</summary>
    internal ConditionBits Makes { get; }

    /// <summary>What no longer holds after it.</summary>
    internal ConditionBits Ends { get; }

    /// <summary>What no longer holds after it when nothing was turned.</summary>
    internal ConditionBits EndsWhenHeld { get; }

    /// <summary>The adjusters that it sets.</summary>
    internal int[] Adjusts { get; }
}
