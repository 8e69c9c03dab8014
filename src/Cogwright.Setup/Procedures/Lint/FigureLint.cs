using Cogwright.Setup.Procedures.Expressions;

namespace Cogwright.Setup.Procedures.Lint;

/// <summary>Torques and checks: values, units, tolerances, conventions.</summary>
internal static class FigureLint
{
    internal static IEnumerable<LintFinding> Check(Procedure procedure) =>
        ProcedureLint
            .Steps(procedure)
            .SelectMany(each =>
                (
                    each.Step.Torque is { } torque ? OfTorque(torque, $"{each.Path}.torque") : []
                ).Concat(each.Step.Check is { } check ? OfCheck(check, $"{each.Path}.check") : [])
            );

    private static IEnumerable<LintFinding> OfTorque(StepTorque torque, string path)
    {
        if (torque.Least is null || torque.Most is null)
        {
            yield return ProcedureLint.Finding(LintRules.TorqueWithoutValue, path, torque.Fastener);
        }
        foreach (
            var (name, words) in new[]
            {
                ("toolClass", torque.ToolClass),
                ("thread", torque.Thread),
            }
        )
        {
            if (words is null)
            {
                yield return ProcedureLint.Finding(
                    LintRules.TorqueIncomplete,
                    $"{path}.{name}",
                    torque.Fastener,
                    name
                );
            }
        }
        foreach (
            var finding in Units(
                path,
                UnitDimension.OfTorque,
                ("least", torque.Least),
                ("most", torque.Most)
            )
        )
        {
            yield return finding;
        }
    }

    private static IEnumerable<LintFinding> OfCheck(StepCheck check, string path)
    {
        if (!check.HasNumber && check.Expected is null && check.Result is null)
        {
            yield return ProcedureLint.Finding(LintRules.CheckEmpty, path, check.Quantity);
        }
        var dimension = DimensionOf(check);
        if (
            check.Convention is null
            && (
                IsGap(check.Quantity)
                || dimension == UnitDimension.OfLength
                || dimension == UnitDimension.OfPitches
            )
        )
        {
            yield return ProcedureLint.Finding(
                LintRules.GapWithoutConvention,
                path,
                check.Quantity
            );
        }
        if (check.Target is not null && check.Tolerance is null)
        {
            yield return ProcedureLint.Finding(
                LintRules.ToleranceMissing,
                $"{path}.target",
                check.Quantity
            );
        }
        if (dimension is { } unit)
        {
            foreach (
                var finding in Units(
                    path,
                    unit,
                    ("target", check.Target),
                    ("tolerance", check.Tolerance),
                    ("least", check.Least),
                    ("most", check.Most)
                )
            )
            {
                yield return finding;
            }
        }
        foreach (
            var finding in Units(
                path,
                UnitDimension.OfTeeth,
                ("ring", check.Ring),
                ("cog", check.Cog)
            )
        )
        {
            yield return finding;
        }
    }

    private static bool IsGap(string quantity) =>
        quantity.Contains("gap", StringComparison.OrdinalIgnoreCase);

    /// <summary>The unit that the quantity is known to have, else that of the first figure given.</summary>
    private static UnitDimension? DimensionOf(StepCheck check) =>
        check.Quantity switch
        {
            TargetNames.ChainPitches or TargetNames.DirectPath => UnitDimension.OfPitches,
            TargetNames.FrontHeight or TargetNames.ChainPlay or TargetNames.HangerStraight =>
                UnitDimension.OfLength,
            _ when IsGap(check.Quantity) => UnitDimension.OfLength,
            _ => (check.Target ?? check.Least ?? check.Most) is { } figure
                ? ExpressionMeaning.DimensionOf(figure).Dimension
                : null,
        };

    private static IEnumerable<LintFinding> Units(
        string path,
        UnitDimension wanted,
        params (string Name, Expression? Figure)[] figures
    ) =>
        figures
            .Where(each => each.Figure is not null)
            .Select(each => (each.Name, Meaning: ExpressionMeaning.DimensionOf(each.Figure!)))
            .Where(each => each.Meaning.Dimension != wanted)
            .Select(each =>
                each.Meaning.Fault is { } fault
                    ? new LintFinding(LintRules.UnitWrong, $"{path}.{each.Name}", fault.Message)
                    : ProcedureLint.Finding(
                        LintRules.UnitWrong,
                        $"{path}.{each.Name}",
                        each.Meaning.Dimension,
                        wanted
                    )
            );
}
