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

    /// <summary>Least length with no gear short, or null.</summary>
    public int? ShortestSafe { get; init; }

    /// <summary>The gear that sets it, or null.</summary>
    public (int RingTeeth, int CogTeeth)? ShortestSetBy { get; init; }

    /// <summary>Greatest length with no gear slack, or null.</summary>
    public int? LongestSafe { get; init; }

    /// <summary>The gear that sets it, or null.</summary>
    public (int RingTeeth, int CogTeeth)? LongestSetBy { get; init; }

    /// <summary>Distance from the direct path to the nearest length at which the bench rule's number changes.</summary>
    public required double RoundingEdge { get; init; }

    /// <summary>Whether that edge lies below the direct path.</summary>
    public required bool RoundingEdgeIsBelow { get; init; }

    /// <summary>Recommended length for a chainstay that is shorter or longer by so much (mm).</summary>
    public required ImmutableArray<(
        double ChainstayDeltaMm,
        int? Pitches
    )> ChainstaySensitivity { get; init; }

    /// <summary>By how many pitches the cage cannot serve the gears; 0 when it can.</summary>
    public int Missing { get; init; }

    /// <summary>Whether no gear can be served at any length.</summary>
    public bool NoGear { get; init; }

    /// <summary>Ring difference + cog difference (teeth).</summary>
    public required int CapacityTeeth { get; init; }

    /// <summary>What the cage takes between its stops on the smallest ring and cog (mm of chain), or null without a cage.</summary>
    public double? CageTakesMm { get; init; }
}
