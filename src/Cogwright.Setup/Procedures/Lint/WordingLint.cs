using System.Text.RegularExpressions;

namespace Cogwright.Setup.Procedures.Lint;

/// <summary>
/// One action in the imperative. Grammar cannot be proven by a pattern: these find the usual slips and let through what they do
/// not know.
/// </summary>
internal static partial class WordingLint
{
    internal static IEnumerable<LintFinding> Check(Procedure procedure)
    {
        foreach (var (step, path, _) in ProcedureLint.Steps(procedure))
        {
            if (SecondAction().Match(step.Action) is { Success: true } second)
            {
                yield return ProcedureLint.Finding(
                    LintRules.SeveralActions,
                    $"{path}.action",
                    second.Value.Trim()
                );
            }
            if (NoImperative().Match(step.Action) is { Success: true } words)
            {
                yield return ProcedureLint.Finding(
                    LintRules.NotImperative,
                    $"{path}.action",
                    words.Value.Trim()
                );
            }
        }
    }

    [GeneratedRegex(
        @"(,? (and|;) then |, then |; |[.!?]\s+\S+)",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex SecondAction();

    [GeneratedRegex(
        @"^(The|A|An|It|You|We|This|That|There|Please)\b|\b(should|must|shall|has to|have to|is to|are to)\b( be)?",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex NoImperative();
}
