using System.Collections.Immutable;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>The hanger as several readings of the gauge tell it. All sentences are ready to show. Immutable.</summary>
public sealed record HangerResult
{
    /// <summary>How it stands by each round of the gauge, in the order of reading: the last is now, the first was before.</summary>
    public required ImmutableArray<HangerFacts> Rounds { get; init; }

    /// <summary>The readings of the last round that tells anything.</summary>
    public required ImmutableArray<ClockReading> Readings { get; init; }

    /// <summary>How it stands now, or null when no round tells anything.</summary>
    public HangerFacts? Now { get; init; }

    /// <summary>How it stood in the first round, or null when there is only one.</summary>
    public HangerFacts? Before { get; init; }

    /// <summary>The target that its greatest difference was held against, or null.</summary>
    public Target? Target { get; init; }

    /// <summary>Greatest difference against the target, or null when not judged.</summary>
    public Judgement? Judgement { get; init; }

    /// <summary>How it stands, in words.</summary>
    public ImmutableArray<string> Sentences { get; init; } = [];

    /// <summary>What to ask first.</summary>
    public ImmutableArray<string> Questions { get; init; } = [];

    /// <summary>What to do, in the order of doing.</summary>
    public ImmutableArray<string> ToDo { get; init; } = [];
}
