namespace Cogwright.Drivetrain;

/// <summary>
/// The chain beside the next larger ring: how much room is left along the stretch where the top run is still inside
/// that ring's tip circle.
/// </summary>
/// <remarks>
/// The top run leaves the ring in use, of pitch radius r, along its tangent: at the length s it stands √(r² + s²) from
/// the bottom bracket, and so inside a tip circle R as long as s ≤ √(R² − r²). Its lateral position goes linearly from
/// ring to cog, so the least clearance lies at one end of that stretch.
/// </remarks>
public static class RingRub
{
    /// <summary>
    /// Clearance of the chain's outer side to the next larger ring's face (mm; negative when it rubs), NaN when there is
    /// no larger ring, the gear is not reached or the chain's width is unknown.
    /// </summary>
    public static double ClearanceMm(DrivetrainSpec spec, in GearResult gear)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var ring = spec.Rings[gear.RingIndex];
        if (
            double.IsNaN(gear.TopRunMm)
            || NextLarger(spec, ring) is not { } larger
            || ChainSides.WidthMm(spec) is not { } chainWidth
        )
        {
            return double.NaN;
        }
        var pitch = Sprocket.PitchMm * (1 + spec.Chain.Elongation);
        var radius = Sprocket.PitchRadiusMm(ring.Teeth, pitch);
        var tip = Sprocket.TipRadiusMm(larger.Teeth, larger.TipDiameterMm);
        var inside = Math.Sqrt(Math.Max(0, (tip * tip) - (radius * radius)));
        var part = Math.Min(1, inside / gear.TopRunMm);
        var cog = spec.Cogs.LateralMm(gear.CogIndex);
        var leaves = ring.LateralMm + (part * (cog - ring.LateralMm));
        var thickness = spec.Lateral?.RingThicknessMm ?? LateralPractice.RingThicknessMm;
        // The larger ring stands outboard; a bike on which it stands inboard is measured the same way round.
        var side = larger.LateralMm >= ring.LateralMm ? 1 : -1;
        var nearest = Math.Max(side * ring.LateralMm, side * leaves);
        return (side * larger.LateralMm) - (thickness / 2) - nearest - (chainWidth / 2);
    }

    private static Ring? NextLarger(DrivetrainSpec spec, Ring ring)
    {
        Ring? next = null;
        foreach (var other in spec.Rings)
        {
            if (other.Teeth > ring.Teeth && (next is null || other.Teeth < next.Teeth))
            {
                next = other;
            }
        }
        return next;
    }
}
