using System.Collections.Immutable;

namespace Cogwright.Setup.Procedures.Lint;

/// <summary>The names of the rules. They are stable: scripts use them.</summary>
public static class LintRules
{
    internal const string IdTwice = "id-twice";
    internal const string ReferenceUnknown = "reference-unknown";
    internal const string ReferenceVague = "reference-vague";
    internal const string ToolNotListed = "tool-not-listed";
    internal const string ToolNotUsed = "tool-not-used";
    internal const string SkillMissing = "skill-missing";
    internal const string DependencyCycle = "dependency-cycle";
    internal const string DependsOnLater = "depends-on-later";
    internal const string ResultUnused = "result-unused";
    internal const string ConditionNeverTrue = "condition-never-true";
    internal const string ConditionCleared = "condition-cleared";
    internal const string ProofLapsed = "proof-lapsed";
    internal const string RoughLeft = "rough-left";
    internal const string AdjustsWithoutState = "adjusts-without-state";
    internal const string FinalTooSoon = "final-too-soon";
    internal const string FinalWithoutCheck = "final-without-check";
    internal const string WarningAfterStep = "warning-after-step";
    internal const string WarningIncomplete = "warning-incomplete";
    internal const string WarningLong = "warning-long";
    internal const string SignalWordWrong = "signal-word-wrong";
    internal const string SignalWordChanges = "signal-word-changes";
    internal const string WarningsOutOfOrder = "warnings-out-of-order";
    internal const string ActUnguarded = "act-unguarded";
    internal const string ActWithoutWarning = "act-without-warning";
    internal const string ActUndeclared = "act-undeclared";
    internal const string SeveralActions = "several-actions";
    internal const string NotImperative = "not-imperative";
    internal const string TorqueWithoutValue = "torque-without-value";
    internal const string TorqueIncomplete = "torque-incomplete";
    internal const string GapWithoutConvention = "gap-without-convention";
    internal const string ToleranceMissing = "tolerance-missing";
    internal const string RangeReversed = "range-reversed";
    internal const string ToleranceNegative = "tolerance-negative";
    internal const string ToleranceWithoutTarget = "tolerance-without-target";
    internal const string QuantityMisnamed = "quantity-misnamed";
    internal const string CheckEmpty = "check-empty";
    internal const string UnitWrong = "unit-wrong";

    /// <summary>All rules.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        IdTwice,
        ReferenceUnknown,
        ReferenceVague,
        ToolNotListed,
        ToolNotUsed,
        SkillMissing,
        DependencyCycle,
        DependsOnLater,
        ResultUnused,
        ConditionNeverTrue,
        ConditionCleared,
        ProofLapsed,
        RoughLeft,
        AdjustsWithoutState,
        FinalTooSoon,
        FinalWithoutCheck,
        WarningAfterStep,
        WarningIncomplete,
        WarningLong,
        SignalWordWrong,
        SignalWordChanges,
        WarningsOutOfOrder,
        ActUnguarded,
        ActWithoutWarning,
        ActUndeclared,
        SeveralActions,
        NotImperative,
        TorqueWithoutValue,
        TorqueIncomplete,
        GapWithoutConvention,
        ToleranceMissing,
        RangeReversed,
        ToleranceNegative,
        ToleranceWithoutTarget,
        QuantityMisnamed,
        CheckEmpty,
        UnitWrong,
    ];
}
