using System.Text.RegularExpressions;
using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Setup.Procedures.Lint;

/// <summary>Warnings: where they stand, what they say, and whether what can hurt has one and its guards.</summary>
internal static partial class WarningLint
{
    /// <summary>Most letters of one part of a warning: two lines on a tablet read at arm's length (our rule).</summary>
    private const int LongestPart = 160;

    /// <summary>Most sentences that say how to avoid a hazard; more are steps of their own (our rule).</summary>
    private const int MostSentences = 2;

    internal static IEnumerable<LintFinding> Check(Procedure procedure) =>
        [
            .. ProcedureLint
                .Steps(procedure)
                .SelectMany(each =>
                    Placed(procedure, each.Step, each.Path, each.Index)
                        .Concat(Said(each.Step, each.Path))
                        .Concat(Acts(each.Step, each.Path))
                        .Concat(Undeclared(each.Step, each.Path))
                ),
            .. Changing(procedure),
        ];

    private static IEnumerable<LintFinding> Placed(
        Procedure procedure,
        ProcedureStep step,
        string path,
        int index
    )
    {
        if (step.HazardsBehindAction)
        {
            yield return ProcedureLint.Finding(
                LintRules.WarningAfterStep,
                $"{path}.hazards",
                step.Id
            );
        }
        foreach (var (hazard, i) in step.Hazards.Select((hazard, i) => (hazard, i)))
        {
            if (
                hazard.About is { } about
                && procedure.Steps.Take(index).Any(earlier => earlier.Id == about)
            )
            {
                yield return ProcedureLint.Finding(
                    LintRules.WarningAfterStep,
                    $"{ProcedureLint.PathOf($"{path}.hazards", i)}.about",
                    about
                );
            }
        }
        if (SignalWords().IsMatch(step.Note))
        {
            yield return ProcedureLint.Finding(LintRules.WarningAfterStep, $"{path}.note", step.Id);
        }
        if (SignalWords().IsMatch(step.Action))
        {
            yield return ProcedureLint.Finding(
                LintRules.WarningAfterStep,
                $"{path}.action",
                step.Id
            );
        }
        if (
            step
                .Hazards.Zip(step.Hazards.Skip(1))
                .Any(pair => pair.First.Signal > pair.Second.Signal)
        )
        {
            yield return ProcedureLint.Finding(
                LintRules.WarningsOutOfOrder,
                $"{path}.hazards",
                step.Id
            );
        }
    }

    private static IEnumerable<LintFinding> Said(ProcedureStep step, string path)
    {
        foreach (var (hazard, i) in step.Hazards.Select((hazard, i) => (hazard, i)))
        {
            var at = ProcedureLint.PathOf($"{path}.hazards", i);
            foreach (
                var (part, words) in new[]
                {
                    ("nature", hazard.Nature),
                    ("consequence", hazard.Consequence),
                    ("avoidance", hazard.Avoidance),
                }
            )
            {
                if (words.Length == 0)
                {
                    yield return ProcedureLint.Finding(
                        LintRules.WarningIncomplete,
                        $"{at}.{part}",
                        part
                    );
                }
                if (words.Length > LongestPart || Sentences(words) > MostSentences)
                {
                    yield return ProcedureLint.Finding(
                        LintRules.WarningLong,
                        $"{at}.{part}",
                        LongestPart,
                        MostSentences
                    );
                }
            }
            var fits = hazard.Harm switch
            {
                Harm.Serious => hazard.Signal is SignalWord.Danger or SignalWord.Warning,
                Harm.Minor => hazard.Signal is SignalWord.Caution,
                _ => hazard.Signal is SignalWord.Notice,
            };
            if (!fits)
            {
                yield return ProcedureLint.Finding(
                    LintRules.SignalWordWrong,
                    $"{at}.signal",
                    Word(hazard.Signal),
                    Texts.Get("harm." + hazard.Harm),
                    hazard.Harm switch
                    {
                        Harm.Serious => $"{Word(SignalWord.Warning)}, {Word(SignalWord.Danger)}",
                        Harm.Minor => Word(SignalWord.Caution),
                        _ => Word(SignalWord.Notice),
                    }
                );
            }
        }
    }

    private static IEnumerable<LintFinding> Acts(ProcedureStep step, string path)
    {
        foreach (var (name, i) in step.Acts.Select((name, i) => (name, i)))
        {
            if (StepActs.Find(name) is not { } act)
            {
                continue;
            }
            var at = ProcedureLint.PathOf($"{path}.acts", i);
            var missing = act.Needs.Except(step.BlockedUntil).ToList();
            if (missing.Count > 0)
            {
                yield return ProcedureLint.Finding(
                    LintRules.ActUnguarded,
                    at,
                    name,
                    string.Join(", ", missing)
                );
            }
            if (!step.Hazards.Any(hazard => hazard.Act == name && hazard.Harm <= act.Worst))
            {
                yield return ProcedureLint.Finding(
                    LintRules.ActWithoutWarning,
                    at,
                    name,
                    Texts.Get("harm." + act.Worst)
                );
            }
        }
    }

    /// <summary>What leads to the largest cog, in its words or by its check, and names no act that guards it.</summary>
    private static IEnumerable<LintFinding> Undeclared(ProcedureStep step, string path)
    {
        if (step.Acts.Intersect(StepActs.ToLargestCog).Any())
        {
            yield break;
        }
        if (LargestCogWords().Match(step.Action) is { Success: true } words)
        {
            yield return ProcedureLint.Finding(
                LintRules.ActUndeclared,
                $"{path}.action",
                words.Value
            );
        }
        else if (
            step.Acts.Contains(StepActs.TurnCranks)
            && step.Check?.Cog is NameTerm { Name: "largestCog" }
        )
        {
            yield return ProcedureLint.Finding(
                LintRules.ActUndeclared,
                $"{path}.check.cog",
                "largestCog"
            );
        }
    }

    /// <summary>The same hazard with two signal words.</summary>
    private static IEnumerable<LintFinding> Changing(Procedure procedure)
    {
        var first = new Dictionary<string, SignalWord>(StringComparer.OrdinalIgnoreCase);
        foreach (var (step, path, _) in ProcedureLint.Steps(procedure))
        {
            foreach (var (hazard, i) in step.Hazards.Select((hazard, i) => (hazard, i)))
            {
                if (
                    hazard.Nature.Length > 0
                    && !first.TryAdd(hazard.Nature, hazard.Signal)
                    && first[hazard.Nature] != hazard.Signal
                )
                {
                    yield return ProcedureLint.Finding(
                        LintRules.SignalWordChanges,
                        $"{ProcedureLint.PathOf($"{path}.hazards", i)}.signal",
                        hazard.Nature,
                        Word(first[hazard.Nature]),
                        Word(hazard.Signal)
                    );
                }
            }
        }
    }

    private static int Sentences(string words) => SentenceEnd().Count(words + " ");

    private static string Word(SignalWord signal) => signal.ToString().ToUpperInvariant();

    [GeneratedRegex(
        @"\b((largest|innermost) cog|(every|each|all|all the) (cogs?|gears?))\b",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex LargestCogWords();

    [GeneratedRegex(@"[.!?;]\s", RegexOptions.CultureInvariant)]
    private static partial Regex SentenceEnd();

    [GeneratedRegex(@"\b(DANGER|WARNING|CAUTION|NOTICE)\b", RegexOptions.CultureInvariant)]
    private static partial Regex SignalWords();
}
