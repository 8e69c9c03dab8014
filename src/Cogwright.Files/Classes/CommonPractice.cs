using System.Collections.Immutable;

namespace Cogwright.Files.Classes;

/// <summary>
/// Lateral positions that the trade takes when nobody has measured (mm, outboard of the bike's centre plane). All are
/// common practice, without a standard behind them: a measured figure always wins.
/// </summary>
internal static class CommonPractice
{
    /// <summary>Hub spacings (mm over the locknuts) that positions are known for.</summary>
    internal static ImmutableArray<int> HubSpacings { get; } = [130, 135, 142, 148];

    /// <summary>The hub taken when none is named: most bikes made now, and 135 stands the same.</summary>
    internal const int UsualHubSpacing = 142;

    private const double SingleSpeedChainlineMm = 42;
    private const double SingleRingMm = 45;
    private const double SingleRingWideHubMm = 52;

    /// <summary>
    /// Distance from cog to cog (mm) by number of cogs; null when there are more than anybody makes. Middles of the
    /// ranges in use.
    /// </summary>
    internal static double? CogSpacingMm(int cogs) =>
        cogs switch
        {
            <= 1 => 0,
            <= 6 => 5.5,
            7 => 5.0,
            8 => 4.8,
            9 => 4.34,
            10 => 3.95,
            11 => 3.72,
            12 => 3.58,
            13 => 3.4,
            _ => null,
        };

    /// <summary>Where a lone cog stands: on the chainline of its kind (mm).</summary>
    internal static double LoneCogLateralMm => SingleSpeedChainlineMm;

    /// <summary>From ring to ring (mm); 0 for one, null for more than three.</summary>
    internal static double? RingSpacingMm(int rings) =>
        rings switch
        {
            1 => 0,
            2 => 7,
            3 => 6.5,
            _ => null,
        };

    /// <summary>Where the rings stand (mm), the largest first; null for more than three.</summary>
    internal static ImmutableArray<double>? RingLateralsMm(int rings, int cogs, int? hubSpacing) =>
        (rings, cogs, hubSpacing) switch
        {
            (1, 1, _) => [SingleSpeedChainlineMm],
            (1, _, 148) => [SingleRingWideHubMm],
            (1, _, _) => [SingleRingMm],
            (2, _, _) => [47, 40],
            (3, _, _) => [54, 47.5, 41],
            _ => null,
        };
}
