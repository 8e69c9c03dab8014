using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>What to do when the gap of a derailleur on the axle was read.</summary>
public enum SetUpCorrectionStatus
{
    /// <summary>The gap is what is wanted: leave the axle as it is.</summary>
    Leave,

    /// <summary>Loosen the axle and set the cage to its mark again: that gives what is wanted.</summary>
    SetAgain,

    /// <summary>Set to its mark it does not give what is wanted: another chain length or set-up cog does, or the target does not belong here.</summary>
    OtherMeans,

    /// <summary>With this chain the body cannot be set at all.</summary>
    NotSet,

    /// <summary>The chain is not taut in that gear, so there is no gap.</summary>
    NoGap,
}

/// <summary>The gap that another chain or another set-up cog would give, the cage set to the same mark.</summary>
/// <param name="Pitches">Length of the chain (pitches).</param>
/// <param name="CogTeeth">The set-up cog.</param>
/// <param name="BodyAngleRad">The body angle that comes out (rad).</param>
/// <param name="GapMm">The gap in the gear that was asked about (mm).</param>
public readonly record struct SetUpWay(
    int Pitches,
    int CogTeeth,
    double BodyAngleRad,
    double GapMm
);

/// <summary>
/// A reading of the gap of a derailleur on the axle. There is nothing to turn: the gap tells whether the cage was set to its
/// mark. Immutable.
/// </summary>
public sealed record SetUpCorrection
{
    /// <summary>What to do.</summary>
    public required SetUpCorrectionStatus Status { get; init; }

    /// <summary>The gear in which the gap was read.</summary>
    public required Gear Gear { get; init; }

    /// <summary>The gap read (mm, tooth tip to tooth tip).</summary>
    public required double ReadMm { get; init; }

    /// <summary>The gap wanted (mm, same convention).</summary>
    public required double WantedMm { get; init; }

    /// <summary>The gear in which the body is set.</summary>
    public Gear SetUpGear { get; init; }

    /// <summary>The gap with the cage set to its mark (mm): what to expect after setting again; null without one.</summary>
    public double? ExpectedMm { get; init; }

    /// <summary>
    /// How far the cage stands off its mark in the set-up gear by this reading (rad, positive in front of it), or null when
    /// no body angle gives the reading.
    /// </summary>
    public double? CageOffMarkRad { get; init; }

    /// <summary>How far the body stands off its outcome by this reading (rad, positive forward), or null likewise.</summary>
    public double? BodyOffRad { get; init; }

    /// <summary>Change of the gap per degree that the body is turned forward, the chain left (mm per degree), or null.</summary>
    public double? MmPerBodyDegree { get; init; }

    /// <summary>Change of the gap per pitch of chain more, the body left as it is (mm per pitch), or null.</summary>
    public double? MmPerPitchLeft { get; init; }

    /// <summary>Change of the gap per pitch of chain more, the body set to its mark again (mm per pitch), or null.</summary>
    public double? MmPerPitchSetAgain { get; init; }

    /// <summary>What one inner and outer link more or less, and the next smaller and larger set-up cog, would give; nearest to what is wanted first.</summary>
    public ImmutableArray<SetUpWay> Ways { get; init; } = [];

    /// <summary>All gears with the cage set to its mark, or null when it cannot be set.</summary>
    public GearTable? After { get; init; }
}
