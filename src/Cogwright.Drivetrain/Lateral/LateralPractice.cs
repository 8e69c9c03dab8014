namespace Cogwright.Drivetrain;

/// <summary>
/// Lateral positions from hub, cassette and crank figures, and what the trade takes when a figure is missing.
/// Source of the formula: rear chainline = hub spacing / 2 − gap(locknut → smallest cog) − stack / 2, a published
/// workshop method (common practice). The figures are common practice too: a part's own figure always wins.
/// </summary>
public static class LateralPractice
{
    /// <summary>From the locknut's face to the outer face of the smallest cog (mm).</summary>
    public const double LocknutGapMm = 2.8;

    /// <summary>How deep a 142 or 148 mm hub sits in the frame's recesses, each side (mm).</summary>
    public const double ThroughAxleRecessMm = 3.5;

    /// <summary>Thickness of a ring at its teeth (mm).</summary>
    public const double RingThicknessMm = 2;

    /// <summary>Thickness of a spoke (mm).</summary>
    public const double SpokeThicknessMm = 2;

    /// <summary>Half the thickness of a hub's flange (mm); the outer spokes lie outside it.</summary>
    public const double FlangeHalfThicknessMm = 1.5;

    /// <summary>Half the height of a chain's link plates (mm): as far as the chain reaches to either side of its pitch line.</summary>
    public const double PlateHalfHeightMm = 4.25;

    /// <summary>Thickness of a cog by number of cogs (mm).</summary>
    public static double CogThicknessMm(int cogs) =>
        cogs switch
        {
            <= 7 => 1.9,
            8 => 1.8,
            9 => 1.78,
            _ => 1.6,
        };

    /// <summary>Width of the chain by number of cogs (mm), middles of the ranges in use; null beyond 13 cogs.</summary>
    public static double? ChainWidthMm(int cogs) =>
        cogs switch
        {
            <= 6 => 7.8,
            7 => 7.3,
            8 => 7.15,
            9 => 6.65,
            10 => 5.97,
            11 => 5.6,
            12 => 5.22,
            13 => 4.9,
            _ => null,
        };

    /// <summary>How deep a hub of that spacing sits in the frame, each side, when nobody says (mm).</summary>
    public static double RecessMm(double hubSpacingMm) =>
        hubSpacingMm is 142 or 148 ? ThroughAxleRecessMm : 0;

    /// <summary>From the centre plane to the face that the hub's locknut stands for: half the spacing less the recess (mm).</summary>
    public static double HalfWidthMm(double hubSpacingMm, double recessMm) =>
        (hubSpacingMm / 2) - recessMm;

    /// <summary>Lateral position of the smallest cog's middle (mm).</summary>
    public static double SmallestCogLateralMm(
        double halfWidthMm,
        double locknutGapMm,
        double cogThicknessMm
    ) => halfWidthMm - (locknutGapMm + (cogThicknessMm / 2));

    /// <summary>Lateral position of the smallest cog's middle from a measured rear chainline (mm).</summary>
    public static double SmallestCogFromChainlineMm(
        double chainlineMm,
        int cogs,
        double spacingMm
    ) => chainlineMm + ((cogs - 1) * spacingMm / 2);

    /// <summary>Distance from cog to cog from the width of the whole stack (mm).</summary>
    public static double SpacingFromStackMm(double stackWidthMm, int cogs, double cogThicknessMm) =>
        (stackWidthMm - cogThicknessMm) / (cogs - 1);

    /// <summary>Lateral position of a ring (mm), the largest being place 0 and outermost.</summary>
    public static double RingLateralMm(
        double chainlineMm,
        double spacingMm,
        int rings,
        int place
    ) => chainlineMm + ((rings - 1) * spacingMm / 2) - (place * spacingMm);
}
