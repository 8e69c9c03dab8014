using System.Collections.Immutable;
using Cogwright.Measurement;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup;

/// <summary>What became of a reading.</summary>
public enum ReadingStatus
{
    /// <summary>It was judged against a target.</summary>
    Judged,

    /// <summary>There is no target for it; it was set beside what the model finds.</summary>
    Compared,

    /// <summary>It is asked about and not judged.</summary>
    Asked,

    /// <summary>It counts towards a result made of several readings: the hanger, or the index.</summary>
    OneOfSeveral,
}

/// <summary>A reading with its verdict and what to do. All sentences are ready to show. Immutable.</summary>
public sealed record ReadingResult
{
    /// <summary>The reading as it was taken.</summary>
    public required TakenReading Taken { get; init; }

    /// <summary>What became of it.</summary>
    public required ReadingStatus Status { get; init; }

    /// <summary>The target it belongs to, or null.</summary>
    public Target? Target { get; init; }

    /// <summary>The target's unit, else the quantity's; empty when unknown.</summary>
    public string Unit { get; init; } = "";

    /// <summary>The gear that was judged, or null.</summary>
    public (int RingTeeth, int CogTeeth)? Gear { get; init; }

    /// <summary>What it was judged against: the target's aim, or what the model expects in this gear; null when neither is.</summary>
    public double? Expected { get; init; }

    /// <summary>Whether it was judged against what the model expects in this gear, because the target holds in another.</summary>
    public bool AgainstPrediction { get; init; }

    /// <summary>Verdict, probability and deciding uncertainty, or null when not judged.</summary>
    public Judgement? Judgement { get; init; }

    /// <summary>The verdict in words, with value, band, probability and the gauge that would decide; empty when not judged.</summary>
    public ImmutableArray<string> Sentences { get; init; } = [];

    /// <summary>What to ask before trusting it.</summary>
    public ImmutableArray<string> Questions { get; init; } = [];

    /// <summary>The correction in numbers, for a gap; else null.</summary>
    public GapAdvice? Correction { get; init; }

    /// <summary>The correction of another adjuster in numbers, or null.</summary>
    public AdjusterAdvice? Adjustment { get; init; }

    /// <summary>The correction in words, in the order of doing; empty when there is none.</summary>
    public ImmutableArray<string> ToDo { get; init; } = [];

    /// <summary>What will then hold in every gear, one line each.</summary>
    public ImmutableArray<string> After { get; init; } = [];
}
