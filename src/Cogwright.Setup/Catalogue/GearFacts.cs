using System.Collections.Immutable;

namespace Cogwright.Setup.Catalogue;

/// <summary>What is true of one gear, in words. Immutable.</summary>
/// <param name="RingTeeth">Teeth of the ring.</param>
/// <param name="CogTeeth">Teeth of the cog.</param>
/// <param name="IsOk">Whether the chain is taut there and no teeth meet.</param>
/// <param name="NotUsed">Whether the spec says that the rider does not use it.</param>
/// <param name="State">Its state in one sentence.</param>
/// <param name="Findings">What is worth a look, one sentence each.</param>
/// <param name="GapMm">The gap (mm, tooth tip to tooth tip), or null when the chain is not taut.</param>
public sealed record GearFacts(
    int RingTeeth,
    int CogTeeth,
    bool IsOk,
    bool NotUsed,
    string State,
    ImmutableArray<string> Findings,
    double? GapMm
);

/// <summary>The screw that sets the body angle.</summary>
/// <param name="Name">What a mechanic calls it.</param>
/// <param name="Tool">The tool that turns it, or null.</param>
/// <param name="EffectKnown">Whether thread pitch and lever radius are known, so that turns can be computed.</param>
/// <param name="ClockwiseWidensGap">Whether clockwise makes the gap larger (the usual way).</param>
/// <param name="LeastTurn">The least turn a hand can do (turns).</param>
/// <param name="WindsSpring">Whether it winds the spring of a sprung body, which then finds its own angle.</param>
public sealed record ScrewFacts(
    string Name,
    string? Tool,
    bool EffectKnown,
    bool ClockwiseWidensGap,
    double LeastTurn,
    bool WindsSpring = false
);
