using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>How a chain choice ended.</summary>
public enum ChainChoiceStatus
{
    /// <summary>The recommended length serves every gear that may be used.</summary>
    ServesAll,

    /// <summary>No length serves every gear: some must be locked out, or another part chosen.</summary>
    CannotServeAll,

    /// <summary>No gear can be reached or served at any length.</summary>
    NoGear,
}

/// <summary>Why a gear was left out of the choice.</summary>
/// <param name="Gear">The gear.</param>
/// <param name="State">Its state at every length.</param>
/// <param name="Blame">What is to blame.</param>
/// <param name="ShortfallMm">By how much (mm).</param>
public readonly record struct LeftOutGear(
    Gear Gear,
    GearState State,
    Blame Blame,
    double ShortfallMm
);

/// <summary>The numbers of a chain choice for one chainstay length.</summary>
/// <param name="ChainstayDeltaMm">How much longer the chainstay is than the spec's (mm).</param>
/// <param name="DirectLargestPitches">Path straight round the largest ring and cog, and the idler (pitches), at the longest position of the axle.</param>
/// <param name="BenchRule">The bench rule's number (pitches).</param>
/// <param name="ShortestSafe">Least length with no gear short (pitches), or null.</param>
/// <param name="LongestSafe">Greatest length with no gear slack (pitches), or null.</param>
/// <param name="Recommended">The recommended number (pitches), or null.</param>
public sealed record ChainNumbers(
    double ChainstayDeltaMm,
    double DirectLargestPitches,
    int BenchRule,
    int? ShortestSafe,
    int? LongestSafe,
    int? Recommended
);

/// <summary>The chain length to cut, with its reasons. All lengths in pitches. Immutable.</summary>
public sealed record ChainChoice
{
    /// <summary>How the choice ended.</summary>
    public required ChainChoiceStatus Status { get; init; }

    /// <summary>The numbers at the spec's own chainstay.</summary>
    public required ChainNumbers Numbers { get; init; }

    /// <summary>Distance from the direct path to the nearest length at which the bench rule's number changes (pitches).</summary>
    public required double RoundingEdgePitches { get; init; }

    /// <summary>Whether that edge lies below the direct path (a shorter stay gives a shorter chain) or above it.</summary>
    public required bool RoundingEdgeIsBelow { get; init; }

    /// <summary>The same numbers with the chainstay a little shorter and a little longer; empty when not asked for.</summary>
    public required ImmutableArray<ChainNumbers> ChainstaySensitivity { get; init; }

    /// <summary>The gear that sets the shortest length, or null.</summary>
    public Gear? ShortestSetBy { get; init; }

    /// <summary>The gear that sets the longest length, or null.</summary>
    public Gear? LongestSetBy { get; init; }

    /// <summary>Gears named and left out: unreachable, or meeting the cog at every length.</summary>
    public ImmutableArray<LeftOutGear> LeftOut { get; init; } = [];

    /// <summary>Gears to lock out at the recommended length, because no length serves all.</summary>
    public ImmutableArray<Gear> LockOut { get; init; } = [];

    /// <summary>By how many pitches the cage cannot serve the gears; 0 when it can.</summary>
    public int MissingPitches { get; init; }

    /// <summary>Plain capacity the gears ask for: ring difference + cog difference (teeth).</summary>
    public required int CapacityTeeth { get; init; }

    /// <summary>What the cage takes between front and rear stop, in the gear on the smallest ring and cog (mm of chain), or null without a cage.</summary>
    public double? CageTakesMm { get; init; }

    /// <summary>
    /// <see cref="CageTakesMm"/> as capacity (teeth, with fractions), or null without a cage: half a pitch of chain is taken up
    /// per tooth by which ring and cog differ, on either side.
    /// </summary>
    public double? CageTakesTeeth => CageTakesMm / (Sprocket.PitchMm / 2);

    /// <summary>The gear table at the recommended length, or null when there is none.</summary>
    public GearTable? Table { get; init; }

    /// <summary>On a suspended rear end, where axle and bottom bracket stand farthest apart; null when rigid.</summary>
    public LongestPosition? LongestPosition { get; init; }

    /// <summary>On a suspended rear end, the travel at which the shortest length is set (mm), or null.</summary>
    public double? ShortestSetAtTravelMm { get; init; }

    /// <summary>On a suspended rear end, the travel at which the longest length is set (mm), or null.</summary>
    public double? LongestSetAtTravelMm { get; init; }
}
