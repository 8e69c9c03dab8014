namespace Cogwright.Drivetrain;

/// <summary>
/// What is known of the bike sideways beyond the positions of rings and cogs. Everything may be left out: what then
/// cannot be computed is told as such. Lengths in mm; laterals outboard of the bike's centre plane. Immutable.
/// </summary>
public sealed record LateralData
{
    /// <summary>Where the smallest cog's position was taken from, or null when only the position is known.</summary>
    public CassettePlace? Cassette { get; init; }

    /// <summary>Where the rings' positions were taken from, or null when only the positions are known.</summary>
    public CrankPlace? Crank { get; init; }

    /// <summary>The rear wheel's drive-side spokes, or null when nothing is known of them.</summary>
    public SpokeData? Spokes { get; init; }

    /// <summary>From the middle plane of the pulleys inward to the innermost face of the cage (mm), or null.</summary>
    public double? CageInnerFaceMm { get; init; }

    /// <summary>How far the cage reaches round each pulley's axis in side view (mm); the pulley's tip radius when null.</summary>
    public double? CageReachMm { get; init; }

    /// <summary>Width over the outer plates or pins of the chain (mm), or null: then that of its number of cogs.</summary>
    public double? ChainWidthMm { get; init; }

    /// <summary>Thickness of a ring at its teeth (mm), or null: then <see cref="LateralPractice.RingThicknessMm"/>.</summary>
    public double? RingThicknessMm { get; init; }

    /// <summary>Lateral position of the frame's inner face beside the smallest cog (mm), or null.</summary>
    public double? DropoutFaceMm { get; init; }
}

/// <summary>Hub and cassette figures that place the cogs. All mm, null where not given.</summary>
public sealed record CassettePlace
{
    /// <summary>Hub spacing over the locknuts or end caps (mm).</summary>
    public double? HubSpacingMm { get; init; }

    /// <summary>How deep the hub's end sits in a recess of the frame, each side (mm).</summary>
    public double? RecessMm { get; init; }

    /// <summary>From the locknut's face to the outer face of the smallest cog (mm).</summary>
    public double? LocknutGapMm { get; init; }

    /// <summary>Thickness of a cog (mm).</summary>
    public double? CogThicknessMm { get; init; }

    /// <summary>From the outer face of the smallest to the inner face of the largest cog (mm).</summary>
    public double? StackWidthMm { get; init; }

    /// <summary>Measured rear chainline: the middle of the cassette from the centre plane (mm).</summary>
    public double? ChainlineMm { get; init; }
}

/// <summary>Crank figures that place the rings. All mm, null where not given.</summary>
/// <param name="ChainlineMm">Front chainline: the middle of the rings from the centre plane (mm).</param>
/// <param name="RingSpacingMm">From ring to ring, tooth middle to tooth middle (mm).</param>
public sealed record CrankPlace(double? ChainlineMm, double? RingSpacingMm);

/// <summary>
/// The drive-side spokes of the rear wheel, from the hub's and the rim's figures or from one measured distance.
/// All mm, null where not given.
/// </summary>
public sealed record SpokeData
{
    /// <summary>Lateral position of the middle of the drive-side flange (mm).</summary>
    public double? FlangeLateralMm { get; init; }

    /// <summary>Radius of the drive-side flange's spoke circle (mm).</summary>
    public double? FlangeRadiusMm { get; init; }

    /// <summary>Lateral position of the drive-side spoke holes in the rim (mm; 0 for a centred rim).</summary>
    public double? RimLateralMm { get; init; }

    /// <summary>Radius at which the spokes end in the rim (mm): half the effective rim diameter.</summary>
    public double? RimRadiusMm { get; init; }

    /// <summary>Thickness of a spoke (mm), or null: then <see cref="LateralPractice.SpokeThicknessMm"/>.</summary>
    public double? ThicknessMm { get; init; }

    /// <summary>Measured with the chain on the largest cog: innermost face of the cage to the nearest spoke (mm).</summary>
    public double? CageToSpokesMm { get; init; }

    /// <summary>Measured at the tips of the largest cog: its inner face to the spokes (mm).</summary>
    public double? CogToSpokesMm { get; init; }
}
