using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>
/// A front derailleur: a cage of two plates that swings on a link between two stops. Lateral figures of the plates are
/// measured from the <b>cage reference</b>, the middle between the plates' chain sides at the front end of the cage;
/// the stops and positions say where that reference stands (mm, outboard of the bike's centre plane). Immutable.
/// </summary>
public sealed record FrontDerailleur
{
    /// <summary>Rear end of the plates (mm, x forward from the bottom-bracket axis, so usually negative).</summary>
    public required double RearXMm { get; init; }

    /// <summary>Front end of the plates (mm, x forward from the bottom-bracket axis).</summary>
    public required double FrontXMm { get; init; }

    /// <summary>The plate inboard of the chain; its chain side is its outboard face.</summary>
    public required CagePlate InnerPlate { get; init; }

    /// <summary>The plate outboard of the chain; its chain side is its inboard face.</summary>
    public required CagePlate OuterPlate { get; init; }

    /// <summary>Length L of the link that the cage swings on, seen from the front (mm).</summary>
    public required double LinkLengthMm { get; init; }

    /// <summary>
    /// Direction λ of the link from its fixed pivot to the cage with the outer plate straight above the largest ring:
    /// 0 points outboard, negative hangs down (rad).
    /// </summary>
    public required double LinkAngleRad { get; init; }

    /// <summary>
    /// Height: lower edge of the outer plate above the tallest tooth of the largest ring, the plate straight above that
    /// ring (mm).
    /// </summary>
    public required double HeightMm { get; init; }

    /// <summary>
    /// How far the upper side of the bridge at the cage's tail lies below the outer plate's lower edge, that edge taken
    /// where it stands highest, above the bottom bracket (mm); null when the cage has none or nobody measured.
    /// </summary>
    public double? BridgeBelowMm { get; init; }

    /// <summary>Where the cage reference stands at the outboard stop (mm outboard), or null when not given.</summary>
    public double? OutboardStopMm { get; init; }

    /// <summary>Where the cage reference stands at the inboard stop (mm outboard), or null when not given.</summary>
    public double? InboardStopMm { get; init; }

    /// <summary>Where the shifter holds the cage on the rings between the largest and the smallest.</summary>
    public ImmutableArray<CagePosition> Positions { get; init; } = [];

    /// <summary>The trim positions that the shifter has.</summary>
    public ImmutableArray<CageTrim> Trims { get; init; } = [];

    /// <summary>Way of the cage per way of the front cable (mm per mm), or null when unknown or motor-driven.</summary>
    public double? CableRatio { get; init; }

    /// <summary>What the part's sheet wants between chain and outer plate, or null for common practice.</summary>
    public SettingRange? WantedOuterGap { get; init; }

    /// <summary>What the part's sheet wants between chain and inner plate, or null for common practice.</summary>
    public SettingRange? WantedInnerGap { get; init; }

    /// <summary>What height the part's sheet wants, or null for common practice.</summary>
    public SettingRange? WantedHeight { get; init; }

    /// <summary>The bounds of a setting: the part's own, else those of common practice.</summary>
    public SettingRange Wanted(FrontSettingKind kind) =>
        kind switch
        {
            FrontSettingKind.OuterGap => WantedOuterGap,
            FrontSettingKind.InnerGap => WantedInnerGap,
            _ => WantedHeight,
        } ?? FrontPractice.Range(kind);
}

/// <summary>From the least to the greatest acceptable value of a setting.</summary>
/// <param name="LowerMm">Least acceptable (mm).</param>
/// <param name="UpperMm">Greatest acceptable (mm).</param>
public sealed record SettingRange(double LowerMm, double UpperMm)
{
    /// <summary>What to aim at: the middle (mm).</summary>
    public double AimMm => 0.5 * (LowerMm + UpperMm);

    /// <summary>Whether a value lies within; a rounding error of the last digit does not push it out.</summary>
    public bool Holds(double valueMm) =>
        valueMm >= LowerMm - RoundingMm && valueMm <= UpperMm + RoundingMm;

    /// <summary>Far below what any gauge shows, far above what arithmetic loses (mm).</summary>
    private const double RoundingMm = 1e-9;
}

/// <summary>A plate of the front cage: both faces linear in x and parallel to one another.</summary>
/// <param name="FaceAtRearMm">Lateral position of its chain side at the rear end, from the cage reference (mm, outboard positive).</param>
/// <param name="FaceAtFrontMm">The same at the front end (mm).</param>
/// <param name="ThicknessMm">Its thickness (mm), away from the chain.</param>
/// <remarks>A toe-in shows as a difference between rear and front.</remarks>
public sealed record CagePlate(double FaceAtRearMm, double FaceAtFrontMm, double ThicknessMm);

/// <summary>Where the shifter holds the cage on a ring.</summary>
/// <param name="RingTeeth">Teeth of the ring.</param>
/// <param name="LateralMm">Lateral position of the cage reference (mm, outboard of the centre plane).</param>
public readonly record struct CagePosition(int RingTeeth, double LateralMm);

/// <summary>A trim position beside a ring's own position.</summary>
/// <param name="RingTeeth">Teeth of the ring.</param>
/// <param name="ByMm">How far it moves the cage from the ring's own position (mm, outboard positive).</param>
public readonly record struct CageTrim(int RingTeeth, double ByMm);
