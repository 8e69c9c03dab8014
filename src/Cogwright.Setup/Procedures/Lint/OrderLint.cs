using System.Collections.Immutable;

namespace Cogwright.Setup.Procedures.Lint;

/// <summary>Whether the steps can be done in their order, and whether everything they set is used and finished.</summary>
internal static class OrderLint
{
    internal static IEnumerable<LintFinding> Check(Procedure procedure)
    {
        var needs = Needs(procedure);
        var cycles = Cycles(procedure, needs);
        return
        [
            .. cycles.Select(cycle => cycle.Finding),
            .. Later(procedure, needs, [.. cycles.SelectMany(cycle => cycle.Members)]),
            .. Unused(procedure),
            .. Conditions(procedure),
            .. Lapsed(procedure),
            .. Rough(procedure),
            .. TooSoon(procedure),
        ];
    }

    /// <summary>For every step the indices of those that it depends on, by name or by their readings.</summary>
    private static ImmutableArray<ImmutableArray<int>> Needs(Procedure procedure)
    {
        var byId = new Dictionary<string, int>(StringComparer.Ordinal);
        var byResult = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var (step, _, i) in ProcedureLint.Steps(procedure))
        {
            byId.TryAdd(step.Id, i);
            if (step.Check?.Result is { } result)
            {
                byResult.TryAdd(result, i);
            }
        }
        return
        [
            .. procedure.Steps.Select(step =>
                step.DependsOn.Steps.Where(byId.ContainsKey)
                    .Select(id => byId[id])
                    .Concat(
                        step.DependsOn.Readings.Where(byResult.ContainsKey)
                            .Select(name => byResult[name])
                    )
                    .Distinct()
                    .ToImmutableArray()
            ),
        ];
    }

    /// <summary>Each cycle once, from its first step.</summary>
    private static List<(LintFinding Finding, ImmutableArray<int> Members)> Cycles(
        Procedure procedure,
        ImmutableArray<ImmutableArray<int>> needs
    )
    {
        var found = new List<(LintFinding, ImmutableArray<int>)>();
        var told = new HashSet<int>();
        for (var start = 0; start < needs.Length; start++)
        {
            if (!told.Contains(start) && WayBack(needs, start) is { } way)
            {
                told.UnionWith(way);
                var names = way.Append(start).Select(i => procedure.Steps[i].Id);
                found.Add(
                    (
                        ProcedureLint.Finding(
                            LintRules.DependencyCycle,
                            $"{ProcedureLint.PathOf(start)}.dependsOn",
                            string.Join(" → ", names)
                        ),
                        way
                    )
                );
            }
        }
        return found;
    }

    /// <summary>The shortest way from a step along what it depends on back to itself, or null.</summary>
    private static ImmutableArray<int>? WayBack(
        ImmutableArray<ImmutableArray<int>> needs,
        int start
    )
    {
        var from = new Dictionary<int, int>();
        var next = new Queue<int>([start]);
        while (next.TryDequeue(out var at))
        {
            foreach (var needed in needs[at])
            {
                if (needed == start)
                {
                    var way = new List<int>();
                    for (var step = at; step != start; step = from[step])
                    {
                        way.Add(step);
                    }
                    way.Add(start);
                    way.Reverse();
                    return [.. way];
                }
                if (from.TryAdd(needed, at))
                {
                    next.Enqueue(needed);
                }
            }
        }
        return null;
    }

    private static IEnumerable<LintFinding> Later(
        Procedure procedure,
        ImmutableArray<ImmutableArray<int>> needs,
        HashSet<int> inCycle
    ) =>
        needs
            .SelectMany((needed, i) => needed.Select(other => (Step: i, Other: other)))
            .Where(edge => edge.Other > edge.Step)
            .Where(edge => !inCycle.Contains(edge.Step) || !inCycle.Contains(edge.Other))
            .Select(edge =>
                ProcedureLint.Finding(
                    LintRules.DependsOnLater,
                    $"{ProcedureLint.PathOf(edge.Step)}.dependsOn",
                    procedure.Steps[edge.Step].Id,
                    procedure.Steps[edge.Other].Id
                )
            );

    private static IEnumerable<LintFinding> Unused(Procedure procedure)
    {
        var wanted = procedure
            .Steps.SelectMany(step => step.DependsOn.Readings)
            .Concat(procedure.HandsOver)
            .ToHashSet();
        return ProcedureLint
            .Steps(procedure)
            .Where(each => each.Step.Check?.Result is { } result && !wanted.Contains(result))
            .Select(each =>
                ProcedureLint.Finding(
                    LintRules.ResultUnused,
                    $"{each.Path}.check.result",
                    each.Step.Check!.Result
                )
            );
    }

    private static IEnumerable<LintFinding> Conditions(Procedure procedure)
    {
        var now = procedure.StartsWith.ToImmutableHashSet();
        var ever = now;
        foreach (var (step, path, _) in ProcedureLint.Steps(procedure))
        {
            foreach (var (condition, i) in step.BlockedUntil.Select((name, i) => (name, i)))
            {
                if (!now.Contains(condition))
                {
                    yield return ProcedureLint.Finding(
                        ever.Contains(condition)
                            ? LintRules.ConditionCleared
                            : LintRules.ConditionNeverTrue,
                        ProcedureLint.PathOf($"{path}.blockedUntil", i),
                        step.Id,
                        condition
                    );
                }
            }
            now = MechanismConditions.After(now, step);
            ever = ever.Union(now);
        }
    }

    /// <summary>Proofs that held once and no longer do when the work is over, each at the step that ended it.</summary>
    private static IEnumerable<LintFinding> Lapsed(Procedure procedure)
    {
        var now = procedure.StartsWith.ToImmutableHashSet();
        var endedBy = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var (step, _, index) in ProcedureLint.Steps(procedure))
        {
            var after = MechanismConditions.After(now, step);
            foreach (var proof in MechanismConditions.Proofs)
            {
                if (after.Contains(proof))
                {
                    endedBy.Remove(proof);
                }
                else if (now.Contains(proof))
                {
                    endedBy[proof] = index;
                }
            }
            now = after;
        }
        return endedBy
            .OrderBy(ended => ended.Value)
            .Select(ended =>
                ProcedureLint.Finding(
                    LintRules.ProofLapsed,
                    $"{ProcedureLint.PathOf(ended.Value)}.id",
                    procedure.Steps[ended.Value].Id,
                    ended.Key
                )
            );
    }

    /// <summary>What is called final, then spoilt by a later step, and never set again.</summary>
    private static IEnumerable<LintFinding> TooSoon(Procedure procedure)
    {
        foreach (var (step, path, index) in ProcedureLint.Steps(procedure))
        {
            if (step.State != StepState.Final)
            {
                continue;
            }
            foreach (var adjuster in step.Adjusts)
            {
                var last = procedure
                    .Steps.Select((later, i) => (later, i))
                    .LastOrDefault(each =>
                        each.i > index
                        && each.later.Adjusts.Any(other =>
                            AdjusterEdges.SetAgainAfter(other).Contains(adjuster)
                        )
                    );
                if (
                    last.later is { } spoiler
                    && !procedure
                        .Steps.Skip(last.i + 1)
                        .Any(again =>
                            again.State == StepState.Final && again.Adjusts.Contains(adjuster)
                        )
                )
                {
                    yield return ProcedureLint.Finding(
                        LintRules.FinalTooSoon,
                        $"{path}.state",
                        adjuster,
                        spoiler.Id
                    );
                }
            }
        }
    }

    private static IEnumerable<LintFinding> Rough(Procedure procedure)
    {
        foreach (var (step, path, index) in ProcedureLint.Steps(procedure))
        {
            var after = procedure.Steps.Skip(index + 1).ToList();
            foreach (var adjuster in step.Adjusts)
            {
                if (
                    step.State == StepState.Rough
                    && !after.Exists(later =>
                        later.State == StepState.Final && later.Adjusts.Contains(adjuster)
                    )
                )
                {
                    yield return ProcedureLint.Finding(
                        LintRules.RoughLeft,
                        $"{path}.state",
                        adjuster
                    );
                }
            }
            if (step.State == StepState.None && !step.Adjusts.IsEmpty)
            {
                yield return ProcedureLint.Finding(
                    LintRules.AdjustsWithoutState,
                    $"{path}.adjusts",
                    string.Join(", ", step.Adjusts)
                );
            }
            if (step is { State: StepState.Final, Check: null, Torque: null })
            {
                yield return ProcedureLint.Finding(
                    LintRules.FinalWithoutCheck,
                    $"{path}.state",
                    step.Id
                );
            }
        }
    }
}
