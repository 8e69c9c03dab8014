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
    public static double ClearanceMm(DrivetrainSpec spec, in GearResult gear) =>
        Of(spec, gear)?.ClearanceMm ?? double.NaN;

    /// <summary>Where the chain comes nearest to the next larger ring; null as <see cref="ClearanceMm"/> is NaN.</summary>
    public static RingRubPlace? Of(DrivetrainSpec spec, in GearResult gear)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var ring = spec.Rings[gear.RingIndex];
        if (
            double.IsNaN(gear.TopRunMm)
            || NextLarger(spec, ring) is not { } larger
            || ChainSides.WidthMm(spec) is not { } chainWidth
        )
        {
            return null;
        }
        var pitch = spec.Chain.PitchMm;
        var radius = Sprocket.PitchRadiusMm(ring.Teeth, pitch);
        var tip = Sprocket.TipRadiusMm(larger.Teeth, larger.TipDiameterMm);
        // Over an idler the chain comes from there to the ring, not from the cog.
        var (run, from) = spec.Idler is { } idler
            ? (gear.IdlerRunMm, idler.LateralBeside(ring))
            : (gear.TopRunMm, spec.Cogs.LateralMm(gear.CogIndex));
        var inside = Math.Min(run, Math.Sqrt(Math.Max(0, (tip * tip) - (radius * radius))));
        var slope = (from - ring.LateralMm) / run;
        var thickness = spec.Lateral?.RingThicknessMm ?? LateralPractice.RingThicknessMm;
        // The larger ring stands outboard; a bike on which it stands inboard is measured the same way round.
        var side = larger.LateralMm >= ring.LateralMm ? 1 : -1;
        var along = side * slope > 0 ? inside : 0;
        var chain = ring.LateralMm + (slope * along) + (side * chainWidth / 2);
        var face = larger.LateralMm - (side * thickness / 2);
        return new(side * (face - chain), along, chain, face, larger.Teeth);
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

/// <summary>Where the chain comes nearest to the next larger ring.</summary>
/// <param name="ClearanceMm">Room between them (mm; negative when the chain rubs).</param>
/// <param name="AlongRunMm">How far along the top run from the ring in use (mm).</param>
/// <param name="ChainLateralMm">Lateral position of the chain's side there (mm).</param>
/// <param name="RingFaceLateralMm">Lateral position of the larger ring's face (mm).</param>
/// <param name="RingTeeth">Teeth of the larger ring.</param>
public readonly record struct RingRubPlace(
    double ClearanceMm,
    double AlongRunMm,
    double ChainLateralMm,
    double RingFaceLateralMm,
    int RingTeeth
);
