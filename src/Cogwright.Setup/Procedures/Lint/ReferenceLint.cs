using System.Text.RegularExpressions;

namespace Cogwright.Setup.Procedures.Lint;

/// <summary>Names that mean something, once; tools and supplies; references that lead somewhere.</summary>
internal static partial class ReferenceLint
{
    internal static IEnumerable<LintFinding> Check(Procedure procedure) =>
        [
            .. Twice(procedure),
            .. Unknown(procedure),
            .. Items(procedure),
            .. procedure.Skill.Length == 0
                ? [ProcedureLint.Finding(LintRules.SkillMissing, "skill")]
                : Array.Empty<LintFinding>(),
            .. Vague(procedure),
        ];

    private static IEnumerable<LintFinding> Twice(Procedure procedure)
    {
        var named = new List<(string Kind, string Id, string Path)>();
        foreach (var (step, path, _) in ProcedureLint.Steps(procedure))
        {
            named.Add(("step", step.Id, $"{path}.id"));
            named.Add(("result", step.Check?.Result ?? "", $"{path}.check.result"));
        }
        foreach (
            var (list, items) in new[]
            {
                ("tools", procedure.Tools),
                ("supplies", procedure.Supplies),
            }
        )
        {
            named.AddRange(
                items.Select((item, i) => ("item", item.Id, $"{ProcedureLint.PathOf(list, i)}.id"))
            );
        }
        return named
            .Where(name => name.Id.Length > 0)
            .GroupBy(name => (name.Kind, name.Id))
            .SelectMany(same => same.Skip(1))
            .Select(name => ProcedureLint.Finding(LintRules.IdTwice, name.Path, name.Id));
    }

    private static IEnumerable<LintFinding> Unknown(Procedure procedure)
    {
        var ids = procedure.Steps.Select(step => step.Id).ToHashSet();
        var results = procedure
            .Steps.Select(step => step.Check?.Result)
            .OfType<string>()
            .ToHashSet();
        foreach (var (step, path, _) in ProcedureLint.Steps(procedure))
        {
            foreach (var (id, i) in step.DependsOn.Steps.Select((id, i) => (id, i)))
            {
                if (!ids.Contains(id))
                {
                    yield return Lost($"{path}.dependsOn.steps", i, id);
                }
            }
            foreach (var (name, i) in step.DependsOn.Readings.Select((name, i) => (name, i)))
            {
                if (!results.Contains(name))
                {
                    yield return Lost($"{path}.dependsOn.readings", i, name);
                }
            }
            foreach (var (hazard, i) in step.Hazards.Select((hazard, i) => (hazard, i)))
            {
                if (hazard.About is { } about && !ids.Contains(about))
                {
                    yield return ProcedureLint.Finding(
                        LintRules.ReferenceUnknown,
                        $"{ProcedureLint.PathOf($"{path}.hazards", i)}.about",
                        about
                    );
                }
                if (hazard.Act is { } act && !step.Acts.Contains(act))
                {
                    yield return ProcedureLint.Finding(
                        LintRules.ReferenceUnknown,
                        $"{ProcedureLint.PathOf($"{path}.hazards", i)}.act",
                        act
                    );
                }
            }
        }
        foreach (var (name, i) in procedure.HandsOver.Select((name, i) => (name, i)))
        {
            if (!results.Contains(name))
            {
                yield return Lost("handsOver", i, name);
            }
        }
    }

    private static LintFinding Lost(string list, int index, string name) =>
        ProcedureLint.Finding(LintRules.ReferenceUnknown, ProcedureLint.PathOf(list, index), name);

    private static IEnumerable<LintFinding> Items(Procedure procedure)
    {
        var listed = procedure.Tools.Concat(procedure.Supplies).Select(item => item.Id).ToHashSet();
        foreach (var (step, path, _) in ProcedureLint.Steps(procedure))
        {
            foreach (var (id, i) in step.Uses.Select((id, i) => (id, i)))
            {
                if (!listed.Contains(id))
                {
                    yield return ProcedureLint.Finding(
                        LintRules.ToolNotListed,
                        ProcedureLint.PathOf($"{path}.uses", i),
                        id
                    );
                }
            }
        }
        var used = procedure.Steps.SelectMany(step => step.Uses).ToHashSet();
        foreach (
            var (list, items) in new[]
            {
                ("tools", procedure.Tools),
                ("supplies", procedure.Supplies),
            }
        )
        {
            foreach (var (item, i) in items.Select((item, i) => (item, i)))
            {
                if (!used.Contains(item.Id))
                {
                    yield return ProcedureLint.Finding(
                        LintRules.ToolNotUsed,
                        ProcedureLint.PathOf(list, i),
                        item.Name
                    );
                }
            }
        }
    }

    private static IEnumerable<LintFinding> Vague(Procedure procedure) =>
        ProcedureLint
            .Steps(procedure)
            .SelectMany(each =>
                new[] { ("action", each.Step.Action), ("note", each.Step.Note) }.Select(text =>
                    (Path: $"{each.Path}.{text.Item1}", Match: VagueWords().Match(text.Item2))
                )
            )
            .Where(found => found.Match.Success)
            .Select(found =>
                ProcedureLint.Finding(LintRules.ReferenceVague, found.Path, found.Match.Value)
            );

    [GeneratedRegex(
        @"\b(see|as) (above|below|before|earlier|described)\b|\bprevious(ly)? step\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex VagueWords();
}
