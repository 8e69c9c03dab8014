using System.Collections.Immutable;

namespace Cogwright.Setup.Catalogue;

/// <summary>What to do after a reading of the gap.</summary>
public enum GapAdviceKind
{
    /// <summary>Turn the screw.</summary>
    Turn,

    /// <summary>No turn that a hand can do improves it.</summary>
    LeaveAsIs,

    /// <summary>What the screw does is unknown: half a turn, then read again.</summary>
    TryHalfTurn,

    /// <summary>The screw ends before the gap is reached: another way is needed.</summary>
    OutOfTravel,

    /// <summary>No body angle gives that gap in that gear.</summary>
    NoSolution,

    /// <summary>The chain is not taut in that gear, so there is no gap.</summary>
    NoGap,

    /// <summary>On the axle: loosen it and set the cage to its mark again.</summary>
    SetAgain,

    /// <summary>On the axle: the mark does not give that gap; another chain length or set-up cog, or the target, is to be asked about.</summary>
    OtherMeans,

    /// <summary>On the axle: with this chain the cage cannot be brought to its mark.</summary>
    NotSet,
}

/// <summary>A gear as it is expected to be after the turn.</summary>
/// <param name="RingTeeth">Teeth of the ring.</param>
/// <param name="CogTeeth">Teeth of the cog.</param>
/// <param name="IsOk">Whether the chain will be taut and no teeth meet.</param>
/// <param name="GapMm">Gap to expect (mm, tooth tip to tooth tip), the difference between reading and model carried along; null without one.</param>
/// <param name="Words">Its state when not ok, and what is worth a look; empty when all is well.</param>
public sealed record GearAfter(
    int RingTeeth,
    int CogTeeth,
    bool IsOk,
    double? GapMm,
    ImmutableArray<string> Words
);

/// <summary>A correction of the gap in numbers; <see cref="GapAdviceWords"/> says it in words. Immutable.</summary>
public sealed record GapAdvice
{
    /// <summary>What to do.</summary>
    public required GapAdviceKind Kind { get; init; }

    /// <summary>The gear in which the gap was read.</summary>
    public required (int RingTeeth, int CogTeeth) Gear { get; init; }

    /// <summary>The gap that was read (mm).</summary>
    public required double ReadMm { get; init; }

    /// <summary>The gap that is wanted in that gear (mm).</summary>
    public required double WantedMm { get; init; }

    /// <summary>The gap that the model finds there now (mm), or null without one.</summary>
    public double? ModelMm { get; init; }

    /// <summary>Turns to make, clockwise positive, rounded to what a hand can do; 0 when none.</summary>
    public double Turns { get; init; }

    /// <summary>The gap to expect after the turn (mm), or null when the effect is unknown or nothing is turned.</summary>
    public double? ExpectedMm { get; init; }

    /// <summary>What the reading says of the set-up of a derailleur on the axle; null on a hanger.</summary>
    public SetUpAdvice? SetUp { get; init; }

    /// <summary>All gears as they are expected after the turn; empty when that is unknown.</summary>
    public ImmutableArray<GearAfter> After { get; init; } = [];
}
