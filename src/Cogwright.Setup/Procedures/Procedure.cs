using System.Collections.Immutable;

namespace Cogwright.Setup.Procedures;

/// <summary>
/// A piece of work as data: what is needed first, then the steps. The order of the steps is the order in which they are shown;
/// hard is only what <see cref="ProcedureStep.BlockedUntil"/> and <see cref="ProcedureStep.DependsOn"/> say. It may be
/// incomplete: <see cref="Lint.ProcedureLint"/> tells what is missing. Immutable.
/// </summary>
public sealed record Procedure
{
    /// <summary>What it is called.</summary>
    public required string Title { get; init; }

    /// <summary>What it is for, in one sentence; empty when not said.</summary>
    public string Purpose { get; init; } = "";

    /// <summary>What who does it must be able to do; empty when not said.</summary>
    public string Skill { get; init; } = "";

    /// <summary>Tools, listed before the first step.</summary>
    public ImmutableArray<ProcedureItem> Tools { get; init; } = [];

    /// <summary>What is used up, listed before the first step.</summary>
    public ImmutableArray<ProcedureItem> Supplies { get; init; } = [];

    /// <summary>Names of <see cref="MechanismConditions"/> that are true before the first step.</summary>
    public ImmutableArray<string> StartsWith { get; init; } = [];

    /// <summary>Names of readings that go onto the record, whether or not a step needs them.</summary>
    public ImmutableArray<string> HandsOver { get; init; } = [];

    /// <summary>The steps.</summary>
    public required ImmutableArray<ProcedureStep> Steps { get; init; }
}

/// <summary>A tool or a supply. Immutable.</summary>
/// <param name="Id">Its name in this file.</param>
/// <param name="Name">What it is, for people.</param>
public sealed record ProcedureItem(string Id, string Name);

/// <summary>Whether what a step sets is set again later.</summary>
public enum StepState
{
    /// <summary>The step sets nothing.</summary>
    None,

    /// <summary>Set by eye or for the moment; a later step must set it for good.</summary>
    Rough,

    /// <summary>Set for good.</summary>
    Final,
}

/// <summary>One action. Immutable.</summary>
public sealed record ProcedureStep
{
    /// <summary>Its name in this file.</summary>
    public required string Id { get; init; }

    /// <summary>What is done: one action in the imperative.</summary>
    public required string Action { get; init; }

    /// <summary>The part it is done on: one of <see cref="ProcedureWords.Parts"/>.</summary>
    public required string Part { get; init; }

    /// <summary>What can go wrong badly, shown before the action.</summary>
    public ImmutableArray<StepHazard> Hazards { get; init; } = [];

    /// <summary>Whether the hazards were written behind the action.</summary>
    public bool HazardsBehindAction { get; init; }

    /// <summary>Names of <see cref="StepActs"/>: what in the action can hurt or destroy, and so needs its guards.</summary>
    public ImmutableArray<string> Acts { get; init; } = [];

    /// <summary>Names of conditions that must be true before the step may be done.</summary>
    public ImmutableArray<string> BlockedUntil { get; init; } = [];

    /// <summary>Names of conditions that are true once it is done.</summary>
    public ImmutableArray<string> Makes { get; init; } = [];

    /// <summary>Names of conditions that are no longer true once it is done.</summary>
    public ImmutableArray<string> Clears { get; init; } = [];

    /// <summary>Names of <see cref="ProcedureWords.Adjusters"/> that it sets.</summary>
    public ImmutableArray<string> Adjusts { get; init; } = [];

    /// <summary>Whether what it sets is rough or final.</summary>
    public StepState State { get; init; }

    /// <summary>What it was made from: when one of these changes, its result is to be rechecked.</summary>
    public StepDependence DependsOn { get; init; } = new();

    /// <summary>Ids of the tools and supplies that it uses.</summary>
    public ImmutableArray<string> Uses { get; init; } = [];

    /// <summary>A fastener to tighten, or null.</summary>
    public StepTorque? Torque { get; init; }

    /// <summary>How long to wait or work (minutes, above 0), or null.</summary>
    public double? TimerMinutes { get; init; }

    /// <summary>What is measured or looked at afterwards, or null.</summary>
    public StepCheck? Check { get; init; }

    /// <summary>What else to know, shown behind the action; empty when nothing.</summary>
    public string Note { get; init; } = "";
}

/// <summary>What a step was made from. Immutable.</summary>
public sealed record StepDependence
{
    /// <summary>Ids of other steps, which come before it.</summary>
    public ImmutableArray<string> Steps { get; init; } = [];

    /// <summary>Parts: one of <see cref="ProcedureWords.Parts"/> each.</summary>
    public ImmutableArray<string> Parts { get; init; } = [];

    /// <summary>Adjusters: one of <see cref="ProcedureWords.Adjusters"/> each.</summary>
    public ImmutableArray<string> Adjusters { get; init; } = [];

    /// <summary>Readings: the <see cref="StepCheck.Result"/> of other steps.</summary>
    public ImmutableArray<string> Readings { get; init; } = [];
}
