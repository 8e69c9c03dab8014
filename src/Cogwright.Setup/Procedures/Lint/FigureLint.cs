using System.Collections.Immutable;
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
        foreach (var finding in Reversed(torque.Least, torque.Most, path))
        {
            yield return finding;
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
        foreach (
            var finding in Reversed(check.Least, check.Most, path)
                .Concat(Contradictions(check, path))
        )
        {
            yield return finding;
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

    /// <summary>Most letters that a slip of the pen puts wrong in a long name (our rule).</summary>
    private const int MostSlips = 2;

    /// <summary>Names that a program asks for; a name almost like one of these is not found by it.</summary>
    private static readonly ImmutableArray<string> KnownQuantities =
    [
        TargetNames.Gap,
        TargetNames.ChainPitches,
        TargetNames.DirectPath,
        TargetNames.HangerStraight,
        TargetNames.InboardStopProven,
        TargetNames.FrontHeight,
        TargetNames.FrontOuterGap,
        TargetNames.FrontInnerGap,
        TargetNames.ChainPlay,
        TargetNames.DamperOff,
        TargetNames.DamperOn,
    ];

    /// <summary>Figures that contradict one another on every bike; what comes from the spec is judged with the bike.</summary>
    private static IEnumerable<LintFinding> Contradictions(StepCheck check, string path)
    {
        if (check.Tolerance is { } tolerance)
        {
            if (check.Target is null)
            {
                yield return ProcedureLint.Finding(
                    LintRules.ToleranceWithoutTarget,
                    $"{path}.tolerance",
                    check.Quantity
                );
            }
            if (Fixed(tolerance) < 0)
            {
                yield return ProcedureLint.Finding(
                    LintRules.ToleranceNegative,
                    $"{path}.tolerance",
                    tolerance.Print()
                );
            }
        }
        if (
            !KnownQuantities.Contains(check.Quantity)
            && KnownReadings.Nearest(check.Quantity, KnownQuantities, MostSlips) is { } meant
        )
        {
            yield return ProcedureLint.Finding(
                LintRules.QuantityMisnamed,
                $"{path}.quantity",
                check.Quantity,
                meant
            );
        }
    }

    private static IEnumerable<LintFinding> Reversed(
        Expression? least,
        Expression? most,
        string path
    )
    {
        if (
            least is not null
            && most is not null
            && (
                Fixed(least) > Fixed(most)
                || (
                    least is NameTerm low
                    && most is NameTerm high
                    && IsReversed(low.Name, high.Name)
                )
            )
        )
        {
            yield return ProcedureLint.Finding(
                LintRules.RangeReversed,
                $"{path}.least",
                least.Print(),
                most.Print()
            );
        }
    }

    /// <summary>Whether the names are those of one range the wrong way round, such as <c>gapMost</c> and <c>gapLeast</c>.</summary>
    private static bool IsReversed(string least, string most) =>
        Ends(least, "most") is { } of && of == Ends(most, "least");

    private static string? Ends(string name, string with) =>
        name.EndsWith(with, StringComparison.OrdinalIgnoreCase) ? name[..^with.Length] : null;

    /// <summary>The value of a figure that no bike changes, or null.</summary>
    private static double? Fixed(Expression figure) =>
        ExpressionMeaning.Evaluate(figure, NoBike.Instance).Value?.Number;

    private sealed class NoBike : ISpecQuantities
    {
        internal static readonly NoBike Instance = new();

        public double? Find(string name) => null;
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
