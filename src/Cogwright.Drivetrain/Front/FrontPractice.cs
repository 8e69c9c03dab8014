namespace Cogwright.Drivetrain;

/// <summary>
/// How a front derailleur is set when the part's own sheet says nothing. All figures are common practice of the trade
/// except the tolerance of the outer gap, which is this project's own.
/// </summary>
public static class FrontPractice
{
    /// <summary>Chain to outer plate on the largest ring and the smallest cog (mm).</summary>
    public const double OuterGapMm = 0.5;

    /// <summary>What is allowed either way of <see cref="OuterGapMm"/> (mm); no source gives one.</summary>
    public const double OuterGapToleranceMm = 0.2;

    /// <summary>Least chain to inner plate on the smallest ring and the largest cog (mm).</summary>
    public const double LeastInnerGapMm = 0.5;

    /// <summary>Greatest chain to inner plate on the smallest ring and the largest cog (mm).</summary>
    public const double MostInnerGapMm = 1;

    /// <summary>Least height above the tallest tooth of the largest ring (mm).</summary>
    public const double LeastHeightMm = 1;

    /// <summary>Greatest height above the tallest tooth of the largest ring (mm).</summary>
    public const double MostHeightMm = 2;

    /// <summary>The bounds of a setting (mm).</summary>
    public static SettingRange Range(FrontSettingKind kind) =>
        kind switch
        {
            FrontSettingKind.OuterGap => new(
                OuterGapMm - OuterGapToleranceMm,
                OuterGapMm + OuterGapToleranceMm
            ),
            FrontSettingKind.InnerGap => new(LeastInnerGapMm, MostInnerGapMm),
            _ => new(LeastHeightMm, MostHeightMm),
        };
}
