using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>Time in one gear of a ride. Immutable.</summary>
/// <param name="Teeth">The gear.</param>
/// <param name="IsAcross">Whether the chain runs across in it.</param>
/// <param name="Seconds">Time pedalled in it (s).</param>
/// <param name="Share">The same as a share of all time pedalled (0 to 1).</param>
public sealed record GearShare(GearTeeth Teeth, bool IsAcross, double Seconds, double Share);

/// <summary>Time on one ring or cog of a ride. Immutable.</summary>
/// <param name="Teeth">Its teeth.</param>
/// <param name="Share">Share of all time pedalled (0 to 1).</param>
public sealed record TeethShare(int Teeth, double Share);

/// <summary>What a ride comes to with one set of gears. Immutable.</summary>
public sealed record RideAnswer
{
    /// <summary>Rings and cogs.</summary>
    public required GearSet Set { get; init; }

    /// <summary>Time pedalled (s).</summary>
    public required double PedalledS { get; init; }

    /// <summary>Every gear with its time, by ring and cog, the smallest first.</summary>
    public required ImmutableArray<GearShare> Gears { get; init; }

    /// <summary>Every cog with its share, the smallest first.</summary>
    public required ImmutableArray<TeethShare> Cogs { get; init; }

    /// <summary>Every ring with its share, the smallest first.</summary>
    public required ImmutableArray<TeethShare> Rings { get; init; }

    /// <summary>How often the chain goes from ring to ring.</summary>
    public required int FrontShifts { get; init; }

    /// <summary>How often it goes from cog to cog.</summary>
    public required int RearShifts { get; init; }

    /// <summary>Time pedalled in gears across (s).</summary>
    public required double AcrossS { get; init; }

    /// <summary>Share of the time pedalled below the cadence range (0 to 1): the gears are too high.</summary>
    public required double BelowShare { get; init; }

    /// <summary>Share of the time pedalled above it (0 to 1): the gears are too low.</summary>
    public required double AboveShare { get; init; }

    /// <summary>Mean distance of the cadence from the wanted one (rpm).</summary>
    public required double OffAimRpm { get; init; }

    /// <summary>Slowest cadence of the ride (rpm), or null when nothing is pedalled.</summary>
    public required double? LowestRpm { get; init; }

    /// <summary>Slowest cadence on the steepest minute (rpm), or null when it is not pedalled.</summary>
    public required double? SteepestLowestRpm { get; init; }

    /// <summary>The gear in which that is, or null.</summary>
    public required GearTeeth? SteepestGear { get; init; }

    /// <summary>The lowest gear that may be used.</summary>
    public required GearTeeth LowestGear { get; init; }

    /// <summary>
    /// Cadence of the lowest gear at the slowest speed on the steepest minute (rpm), or null when it is not pedalled: below the
    /// range the gears are too high there, above it there is something in hand.
    /// </summary>
    public required double? SteepestInLowestGearRpm { get; init; }

    /// <summary>Share of the time pedalled outside the cadence range (0 to 1).</summary>
    public double OutsideShare => BelowShare + AboveShare;

    /// <summary>Share of the time pedalled in gears across (0 to 1).</summary>
    public double AcrossShare => PedalledS > 0 ? AcrossS / PedalledS : 0;
}
