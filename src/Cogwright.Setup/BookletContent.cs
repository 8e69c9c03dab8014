using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup;

/// <summary>
/// Everything that the booklet of a procedure says for one bike, in the order in which it says it; figures are worked out on that
/// bike. Whoever lays it out decides only where it stands. Immutable.
/// </summary>
public sealed partial record BookletContent
{
    /// <summary>What the procedure is called.</summary>
    public required string Title { get; init; }

    /// <summary>What it is for; empty when not said.</summary>
    public required string Purpose { get; init; }

    /// <summary>What who does it must be able to do; empty when not said.</summary>
    public required string Skill { get; init; }

    /// <summary>What the bike is called.</summary>
    public required string BikeName { get; init; }

    /// <summary>Rings and cogs in one line (<see cref="QuantityCatalogue.Gearing"/>).</summary>
    public required string Gearing { get; init; }

    /// <summary>Cautions that hold for any work on the bike; they stand before everything else.</summary>
    public required ImmutableArray<string> Cautions { get; init; }

    /// <summary>Rules of writing that the procedure breaks, in sentences; empty when it may be given out.</summary>
    public ImmutableArray<string> RulesBroken { get; init; } = [];

    /// <summary>Values that nobody measured: figures of this booklet may rest on them.</summary>
    public required ImmutableArray<AssumedValue> Assumed { get; init; }

    /// <summary>Names of the tools.</summary>
    public required ImmutableArray<string> Tools { get; init; }

    /// <summary>Names of what is used up.</summary>
    public required ImmutableArray<string> Supplies { get; init; }

    /// <summary>What must be so before the first step, in sentences.</summary>
    public required ImmutableArray<string> StartsWith { get; init; }

    /// <summary>The steps in their order.</summary>
    public required ImmutableArray<BookletStep> Steps { get; init; }

    /// <summary>The chain of this bike.</summary>
    public required ChainBox Chain { get; init; }

    /// <summary>Path straight round the largest ring and cog, or null where there is none.</summary>
    public Target? DirectPath { get; init; }

    /// <summary>Every figure that this bike does not give: the step that asks for it and why there is none.</summary>
    public ImmutableArray<(int Step, string Fault)> WithoutFigure =>
        [
            .. Steps.SelectMany(step =>
                step.Faults.Select(fault => (Step: step.Number, Fault: fault))
            ),
        ];
}

/// <summary>One step on paper. Immutable.</summary>
public sealed record BookletStep
{
    /// <summary>Its number, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>The part that it is done on.</summary>
    public required string Part { get; init; }

    /// <summary>What can go wrong badly; stands before the action, the order of the file kept.</summary>
    public required ImmutableArray<BookletHazard> Hazards { get; init; }

    /// <summary>What must hold before it may be done, each with the step that makes it so.</summary>
    public required ImmutableArray<string> MustHold { get; init; }

    /// <summary>What is done.</summary>
    public required string Action { get; init; }

    /// <summary>Names of the tools and supplies that it uses.</summary>
    public required ImmutableArray<string> Uses { get; init; }

    /// <summary>The fastener to tighten, or null.</summary>
    public BookletTorque? Torque { get; init; }

    /// <summary>How long to wait or work (minutes, above 0), or null.</summary>
    public double? TimerMinutes { get; init; }

    /// <summary>What is measured or looked at, or null.</summary>
    public BookletCheck? Check { get; init; }

    /// <summary>How it leaves what it sets, in sentences; empty when it sets nothing.</summary>
    public required ImmutableArray<string> Leaves { get; init; }

    /// <summary>What else to know; empty when nothing.</summary>
    public required string Note { get; init; }

    /// <summary>Why figures of it have no value on this bike; empty when all have.</summary>
    public ImmutableArray<string> Faults =>
        [.. (Torque?.Faults ?? []).Concat(Check?.Faults ?? []).Distinct()];
}

/// <summary>A hazard on paper. Immutable.</summary>
/// <param name="Signal">Which signal word.</param>
/// <param name="Danger">What the danger is and what it does; may be empty.</param>
/// <param name="Avoidance">How to avoid it; may be empty.</param>
public sealed record BookletHazard(SignalWord Signal, string Danger, string Avoidance);

/// <summary>A fastener to tighten, on paper. Immutable.</summary>
/// <param name="Target">Its name and its torque on this bike; without limits when there is no answer.</param>
/// <param name="Treatment">Kind of tool and treatment of the thread, in words.</param>
/// <param name="Faults">Why there is no figure; empty when there is.</param>
public sealed record BookletTorque(Target Target, string Treatment, ImmutableArray<string> Faults);

/// <summary>What is measured or looked at after a step, on paper. Immutable.</summary>
public sealed record BookletCheck
{
    /// <summary>What is measured, by the name that the file uses.</summary>
    public required string Quantity { get; init; }

    /// <summary>Title and figures on this bike, in the gear that it is read in; null when nothing is measured.</summary>
    public Target? Target { get; init; }

    /// <summary>Teeth of the ring that the chain lies on, or null.</summary>
    public int? RingTeeth { get; init; }

    /// <summary>Teeth of the cog that the chain lies on, or null.</summary>
    public int? CogTeeth { get; init; }

    /// <summary>Where the chain lies, in words, when the target does not say it; else empty.</summary>
    public required string Where { get; init; }

    /// <summary>From what to what; empty when plain.</summary>
    public required string Convention { get; init; }

    /// <summary>What is seen, heard or felt when it is right; empty when not said.</summary>
    public required string Expected { get; init; }

    /// <summary>Whether its reading goes onto the record.</summary>
    public required bool GoesOnRecord { get; init; }

    /// <summary>Why there is no figure; empty when there is.</summary>
    public required ImmutableArray<string> Faults { get; init; }
}
