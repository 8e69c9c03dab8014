namespace Cogwright.Drivetrain;

/// <summary>How wide the chain is between the plates of the front cage.</summary>
internal static class FrontChain
{
    /// <summary>
    /// Half the chain's width over its pins (mm), by number of cogs: middles of the ranges in use (common practice).
    /// Beyond thirteen cogs the narrowest made stands in.
    /// </summary>
    internal static double HalfWidthMm(DrivetrainSpec spec) =>
        spec.Cogs.Teeth.Length switch
        {
            <= 6 => 7.8,
            7 => 7.3,
            8 => 7.15,
            9 => 6.65,
            10 => 5.97,
            11 => 5.6,
            12 => 5.22,
            _ => 4.9,
        } / 2;
}
