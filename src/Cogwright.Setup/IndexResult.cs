using System.Collections.Immutable;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>The index, as the model finds it and as it was read. All sentences are ready to show. Immutable.</summary>
public sealed record IndexResult
{
    /// <summary>What the model finds, or null when the spec does not say what shifts the derailleur.</summary>
    public IndexFacts? Model { get; init; }

    /// <summary>What was read, or null when nothing was.</summary>
    public IndexRead? Read { get; init; }

    /// <summary>The largest dead band against its limit, or null when no cog was read both ways.</summary>
    public Judgement? Friction { get; init; }

    /// <summary>What holds, in words.</summary>
    public ImmutableArray<string> Sentences { get; init; } = [];

    /// <summary>What to ask before trusting it.</summary>
    public ImmutableArray<string> Questions { get; init; } = [];

    /// <summary>What to do, in the order of doing.</summary>
    public ImmutableArray<string> ToDo { get; init; } = [];

    /// <summary>Whether every cog is fine and no friction was proven: by readings where there are any, else by the model.</summary>
    public bool IsFine { get; init; }
}
