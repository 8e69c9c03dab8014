using System.Globalization;
using System.Text;
using Cogwright.Fastening;
using Cogwright.Files.Fields;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Procedures.Expressions;
using Cogwright.Setup.Procedures.Lint;

namespace Cogwright.Files.Tests;

/// <summary>The tables of the guide to procedure files.</summary>
internal static class ProcedureTables
{
    internal static string Make()
    {
        var text = new StringBuilder("\n## Fields\n\n");
        GuideTests.Table(text, ProcedureFields.Procedure);
        text.Append("\n## Conditions\n\nConditions of one group exclude one another.\n\n")
            .Append("| Condition | Group | True when |\n|---|---|---|\n");
        foreach (var condition in MechanismConditions.All)
        {
            Row(text, $"`{condition.Name}`", condition.Group, condition.About);
        }
        text.Append(
            "\n## Acts\n\n| Act | Blocked until | The worst that can come of it |\n|---|---|---|\n"
        );
        foreach (var act in StepActs.All)
        {
            Row(
                text,
                $"`{act.Name}`",
                string.Join(", ", act.Needs.Select(need => $"`{need}`")),
                ProcedureFields.Written(act.Worst.ToString())
            );
        }
        text.Append(
            "\n## What must be set again\n\n| When this is set | set this again |\n|---|---|\n"
        );
        foreach (
            var adjuster in ProcedureWords.Adjusters.Where(name =>
                !AdjusterEdges.SetAgainAfter(name).IsEmpty
            )
        )
        {
            var again = AdjusterEdges.SetAgainAfter(adjuster).Select(name => $"`{name}`");
            Row(text, $"`{adjuster}`", string.Join(", ", again));
        }
        text.Append("\n## Names\n\n");
        Names(text, "Adjusters", ProcedureWords.Adjusters);
        Names(text, "Parts", ProcedureWords.Parts);
        Names(text, "Tool classes", ProcedureWords.ToolClasses);
        Names(text, "Thread treatments", ProcedureWords.ThreadTreatments);
        Names(text, "Fasteners", Fasteners.All);
        text.Append("\n## Quantities of the spec\n\n| Name | Unit |\n|---|---|\n");
        foreach (var name in SpecNames.OfBike)
        {
            Row(text, $"`{name.Name}`", name.Dimension.ToString());
        }
        Row(text, "a fastener with `.least` or `.most`", "N·m");
        text.Append("\n## Rules\n\n| Rule | What to do | Source |\n|---|---|---|\n");
        foreach (var rule in LintRules.All)
        {
            var finding = new LintFinding(rule, "", "");
            Row(text, $"`{rule}`", finding.WhatToDo, finding.Source);
        }
        return text.Append('\n').ToString();
    }

    private static void Names(StringBuilder text, string title, IEnumerable<string> names) =>
        text.Append(CultureInfo.InvariantCulture, $"- {title}: ")
            .AppendJoin(", ", names.Select(name => $"`{name}`"))
            .Append(".\n");

    private static void Row(StringBuilder text, params ReadOnlySpan<string> cells) =>
        text.Append(CultureInfo.InvariantCulture, $"| {string.Join(" | ", cells!)} |\n");
}
