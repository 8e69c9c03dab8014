using System.Collections.Immutable;
using System.Globalization;

namespace Cogwright.Setup.Procedures.Lint;

/// <summary>
/// Reads a procedure as a careful colleague would before it is given out: what is missing, in the wrong place, or cannot be
/// done in that order. It judges the procedure as data; whether its figures are right it cannot know.
/// </summary>
public static class ProcedureLint
{
    /// <summary>Everything found, each rule's findings in the order of the steps; empty when there is nothing.</summary>
    public static ImmutableArray<LintFinding> Check(Procedure procedure)
    {
        ArgumentNullException.ThrowIfNull(procedure);
        return
        [
            .. ReferenceLint.Check(procedure),
            .. OrderLint.Check(procedure),
            .. WarningLint.Check(procedure),
            .. WordingLint.Check(procedure),
            .. FigureLint.Check(procedure),
        ];
    }

    /// <summary>The path of a step.</summary>
    internal static string PathOf(int step) =>
        string.Create(CultureInfo.InvariantCulture, $"steps[{step}]");

    /// <summary>The path of an entry of a list.</summary>
    internal static string PathOf(string list, int index) =>
        string.Create(CultureInfo.InvariantCulture, $"{list}[{index}]");

    internal static LintFinding Finding(
        string rule,
        string path,
        params ReadOnlySpan<object?> values
    ) => new(rule, path, Texts.Get("lint." + rule, values));

    /// <summary>Every step with its path.</summary>
    internal static IEnumerable<(ProcedureStep Step, string Path, int Index)> Steps(
        Procedure procedure
    ) => procedure.Steps.Select((step, i) => (step, PathOf(i), i));
}
