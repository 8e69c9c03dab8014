using System.Collections.Immutable;

namespace Cogwright.Setup.Catalogue;

/// <summary>What the chain choice says, in numbers. All lengths in pitches unless named otherwise. Immutable.</summary>
public sealed record ChainFacts
{
    /// <summary>The chain that the gear table was solved with: the spec's own, else the recommended one; null when there is none.</summary>
    public int? Pitches { get; init; }

    /// <summary>Whether the spec itself states the length.</summary>
    public bool StatedBySpec { get; init; }

    /// <summary>Whether the spec accepts an odd number, with a cranked half link.</summary>
    public bool HalfLink { get; init; }

    /// <summary>The recommended length, or null.</summary>
    public int? Recommended { get; init; }

    /// <summary>Path straight round the largest ring and cog.</summary>
    public required double DirectPath { get; init; }

    /// <summary>The bench rule's number.</summary>
    public required int BenchRule { get; init; }

    /// <summary>Distance from the direct path to the nearest length at which the bench rule's number changes.</summary>
    public required double RoundingEdge { get; init; }

    /// <summary>Whether that edge lies below the direct path.</summary>
    public required bool RoundingEdgeIsBelow { get; init; }

    /// <summary>The reasons behind the choice, one sentence each, in reading order.</summary>
    public required ImmutableArray<string> Reasons { get; init; }
}
