namespace Cogwright.Setup;

/// <summary>What a gap between guide pulley and cog can be at all.</summary>
internal static class GapBounds
{
    /// <summary>A greater gap (mm) is taken for a slip of the pen: no practice is near it.</summary>
    internal const double MostMm = 60;
}
