namespace Cogwright.Drivetrain;

/// <summary>
/// The surface that the outermost drive-side spokes sweep as the wheel turns, as lateral position over radius.
/// </summary>
/// <remarks>
/// A straight line in radius from the flange to the rim: exact for radial spokes. Crossed spokes sweep a surface that
/// lies inboard of it everywhere between, so the line errs on the safe side (docs/theory/lateral.md). At the flange
/// the outer spokes lie outside it: half its thickness and a whole spoke are added; at the rim half a spoke.
/// </remarks>
public readonly record struct SpokeCone
{
    private readonly double atAxleMm;

    private SpokeCone(double atAxleMm, double inwardPerMm)
    {
        this.atAxleMm = atAxleMm;
        InwardPerMm = inwardPerMm;
    }

    /// <summary>How much further inboard the spokes lie per mm of radius; 0 where only one distance is known.</summary>
    public double InwardPerMm { get; }

    /// <summary>Lateral position of the spokes' outer side at a radius about the axle (mm).</summary>
    public double LateralMm(double radiusMm) => atAxleMm - (InwardPerMm * radiusMm);

    /// <summary>The cone through the flange and the rim, or the flat plane at a measured distance; null when neither is known.</summary>
    /// <param name="spokes">What is known of the spokes.</param>
    /// <param name="largestCogInnerFaceMm">Lateral position of the largest cog's inner face (mm).</param>
    public static SpokeCone? Of(SpokeData spokes, double largestCogInnerFaceMm)
    {
        ArgumentNullException.ThrowIfNull(spokes);
        if (spokes.CogToSpokesMm is { } measured)
        {
            // Further out the spokes only come closer to the centre plane: a flat plane errs on the safe side.
            return new(largestCogInnerFaceMm - measured, 0);
        }
        if (
            spokes
            is not {
                FlangeLateralMm: { } flange,
                FlangeRadiusMm: { } flangeRadius,
                RimLateralMm: { } rim,
                RimRadiusMm: { } rimRadius
            }
        )
        {
            return null;
        }
        var thickness = spokes.ThicknessMm ?? LateralPractice.SpokeThicknessMm;
        var atFlange = flange + LateralPractice.FlangeHalfThicknessMm + thickness;
        var atRim = rim + (thickness / 2);
        var inward = (atFlange - atRim) / (rimRadius - flangeRadius);
        return new(atFlange + (inward * flangeRadius), inward);
    }
}
