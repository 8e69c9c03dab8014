using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>What holds the cage in a position.</summary>
public enum CageHold
{
    /// <summary>The outboard stop.</summary>
    OutboardStop,

    /// <summary>The inboard stop.</summary>
    InboardStop,

    /// <summary>The shifter, on a ring between the others.</summary>
    Shifter,

    /// <summary>A trim position of the shifter.</summary>
    Trim,
}

/// <summary>What of the front cage the chain touches.</summary>
[Flags]
public enum CageRub
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>The inner plate.</summary>
    InnerPlate = 1,

    /// <summary>The outer plate.</summary>
    OuterPlate = 2,

    /// <summary>The bridge at the tail.</summary>
    Bridge = 4,
}

/// <summary>What is set on a front derailleur by a gap.</summary>
public enum FrontSettingKind
{
    /// <summary>Chain to outer plate on the largest ring and the smallest cog, cage at the outboard stop.</summary>
    OuterGap,

    /// <summary>Chain to inner plate on the smallest ring and the largest cog, cage at the inboard stop.</summary>
    InnerGap,

    /// <summary>Outer plate above the tallest tooth of the largest ring, the plate straight above that ring.</summary>
    Height,
}

/// <summary>The chain in the cage, in one gear with the cage in one position. Negative clearances touch.</summary>
public readonly record struct FrontPose
{
    /// <summary>What holds the cage.</summary>
    public required CageHold Hold { get; init; }

    /// <summary>Where the cage reference stands (mm, outboard of the centre plane).</summary>
    public required double LateralMm { get; init; }

    /// <summary>
    /// Level of the outer plate's lower edge above the tallest tooth of the largest ring here (mm), or null where the
    /// link does not reach.
    /// </summary>
    public required double? HeightMm { get; init; }

    /// <summary>Least clearance of the chain to the inner plate over the cage's length (mm).</summary>
    public required double InnerPlateMm { get; init; }

    /// <summary>Least clearance of the chain to the outer plate over the cage's length (mm).</summary>
    public required double OuterPlateMm { get; init; }

    /// <summary>Clearance of the chain above the bridge at the tail (mm), or null without a known bridge.</summary>
    public required double? BridgeMm { get; init; }

    /// <summary>What the chain touches.</summary>
    public CageRub Rubs =>
        (InnerPlateMm <= 0 ? CageRub.InnerPlate : CageRub.None)
        | (OuterPlateMm <= 0 ? CageRub.OuterPlate : CageRub.None)
        | (BridgeMm <= 0 ? CageRub.Bridge : CageRub.None);

    /// <summary>The least of all its clearances (mm).</summary>
    public double LeastMm =>
        Math.Min(Math.Min(InnerPlateMm, OuterPlateMm), BridgeMm ?? double.PositiveInfinity);
}

/// <summary>One gear in the front cage.</summary>
/// <param name="Gear">The gear.</param>
/// <param name="Poses">The ring's own position first, then its trims; empty when the gear is not reached at the rear.</param>
/// <param name="NotUsed">Whether the spec lists the gear as not to be used.</param>
public sealed record FrontGear(Gear Gear, ImmutableArray<FrontPose> Poses, bool NotUsed)
{
    /// <summary>The chain with the cage in the ring's own position, or null when the gear is not reached at the rear.</summary>
    public FrontPose? Own => Poses.IsEmpty ? null : Poses[0];

    /// <summary>Whether the chain touches the cage in the ring's own position.</summary>
    public bool Rubs => Own is { Rubs: not CageRub.None };

    /// <summary>Whether a trim position frees it; null when it does not rub.</summary>
    public bool? TrimClears => Rubs ? Poses.Any(pose => pose.Rubs == CageRub.None) : null;

    /// <summary>The position with the most room, or null when the gear is not reached at the rear.</summary>
    public FrontPose? Best => Poses.IsEmpty ? null : Poses.MaxBy(pose => pose.LeastMm);
}

/// <summary>One setting of the front derailleur as the model finds it.</summary>
/// <param name="Kind">What is set.</param>
/// <param name="Gear">The gear in which it is measured.</param>
/// <param name="GapMm">What it is now (mm).</param>
/// <param name="IsGiven">Whether the spec says where it stands; otherwise it was taken as set to its aim.</param>
/// <param name="Wanted">What is acceptable.</param>
public readonly record struct FrontSetting(
    FrontSettingKind Kind,
    Gear Gear,
    double GapMm,
    bool IsGiven,
    SettingRange Wanted
)
{
    /// <summary>Whether it is as wanted.</summary>
    public bool IsWithin => Wanted.Holds(GapMm);
}

/// <summary>The front derailleur in every gear. Immutable.</summary>
public sealed record FrontReport
{
    /// <summary>Every gear, in the order of the gear table.</summary>
    public required ImmutableArray<FrontGear> Gears { get; init; }

    /// <summary>Outer gap, inner gap, height: in this order; a gap whose gear is not reached at the rear is left out.</summary>
    public required ImmutableArray<FrontSetting> Settings { get; init; }

    /// <summary>Where the cage stands on every ring, largest first.</summary>
    public required ImmutableArray<CagePosition> Positions { get; init; }

    /// <summary>The gear with these numbers of teeth, or null when the bike has none such.</summary>
    public FrontGear? Find(Gear gear) => Gears.FirstOrDefault(g => g.Gear == gear);

    /// <summary>The setting of that kind, or null when its gear is not reached at the rear.</summary>
    public FrontSetting? SettingOf(FrontSettingKind kind)
    {
        foreach (var setting in Settings)
        {
            if (setting.Kind == kind)
            {
                return setting;
            }
        }
        return null;
    }
}
