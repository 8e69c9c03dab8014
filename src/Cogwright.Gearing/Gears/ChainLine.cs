using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>
/// Where rings and cogs stand sideways, and so how far across the chain runs in each gear. Lengths in mm, outboard of the
/// bike's centre plane. Immutable.
/// </summary>
public sealed record ChainLine
{
    /// <summary>
    /// Chain angle (rad) from which a gear counts as across: 3°. Common practice puts the limit before noise at 3 to 3.5°.
    /// </summary>
    public const double AcrossRad = 3 * Math.PI / 180;

    /// <summary>Positions of rings and cogs.</summary>
    /// <param name="ringLateralsMm">One for each ring, smallest ring first (mm, −200 to 200).</param>
    /// <param name="cogLateralsMm">One for each cog, smallest cog first (mm, −200 to 200).</param>
    /// <param name="runMm">Length of the top run (mm, 200 to 3000); the chainstay's serves.</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public ChainLine(
        ImmutableArray<double> ringLateralsMm,
        ImmutableArray<double> cogLateralsMm,
        double runMm
    )
    {
        foreach (var lateral in ringLateralsMm.Concat(cogLateralsMm))
        {
            Demand.Between(lateral, -200, 200, "chainLine", "line.value");
        }
        Demand.Between(runMm, 200, 3000, "chainLine", "line.run");
        RingLateralsMm = ringLateralsMm;
        CogLateralsMm = cogLateralsMm;
        RunMm = runMm;
    }

    /// <summary>Middle of each ring's teeth from the centre plane (mm), smallest ring first.</summary>
    public ImmutableArray<double> RingLateralsMm { get; }

    /// <summary>Middle of each cog's teeth from the centre plane (mm), smallest cog first.</summary>
    public ImmutableArray<double> CogLateralsMm { get; }

    /// <summary>Length of the top run (mm).</summary>
    public double RunMm { get; }

    /// <summary>Chain angle in plan (rad, never negative): atan(|ring − cog| / run).</summary>
    /// <param name="ring">Index of the ring, 0 for the smallest.</param>
    /// <param name="cog">Index of the cog, 0 for the smallest.</param>
    public double AngleRad(int ring, int cog) =>
        Math.Atan(Math.Abs(RingLateralsMm[ring] - CogLateralsMm[cog]) / RunMm);
}
