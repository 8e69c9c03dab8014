namespace Cogwright.Drivetrain;

/// <summary>
/// Where the chain of a gear lies above the bottom bracket: on the ring as far back as it touches it, and from there
/// straight to the cog, in side view and sideways.
/// </summary>
/// <remarks>
/// With D from cog (or idler) to ring and both turning clockwise, ψ = angle of D − asin((r_cog − r_ring)/|D|),
/// û = (cos ψ, sin ψ), and the run meets the ring at r_ring·(−sin ψ, cos ψ). Source: the external tangent of two circles.
/// </remarks>
internal readonly struct TopRun
{
    private readonly double ringLateralMm;
    private readonly double lateralPerX;
    private readonly double tangentY;
    private readonly double risePerX;
    private readonly double ringRadiusMm;

    internal TopRun(GearTable table, in GearResult gear)
    {
        var spec = table.Spec;
        var ring = spec.Rings[gear.RingIndex];
        var pitch = spec.Chain.PitchMm;
        ringRadiusMm = Sprocket.PitchRadiusMm(ring.Teeth, pitch);
        var run = UpperRun.Of(
            table.AxlePose.Axle,
            SprocketSize.Of(gear.Gear.CogTeeth, pitch),
            SprocketSize.Of(ring.Teeth, pitch),
            table.Idler,
            pitch
        );
        // Over an idler the chain comes to the ring from there, not from the cog.
        var (length, fromLateral) = spec.Idler is { } idler
            ? (run.RingRunMm, idler.LateralBeside(ring))
            : (run.CogRunMm, spec.Cogs.LateralMm(gear.CogIndex));
        var (sin, cos) = Math.SinCos(run.RingDirectionRad);
        Cosine = cos;
        TangentX = -ringRadiusMm * sin;
        tangentY = ringRadiusMm * cos;
        risePerX = sin / cos;
        ringLateralMm = ring.LateralMm;
        // Going back by one millimetre of x uses up 1/cos ψ of the run.
        lateralPerX = (ring.LateralMm - fromLateral) / (length * cos);
    }

    /// <summary>x at which the run meets the ring (mm).</summary>
    internal double TangentX { get; }

    /// <summary>cos ψ of the run's direction.</summary>
    internal double Cosine { get; }

    /// <summary>Lateral position of the chain's middle (mm, outboard); before the tangent point it lies on the ring.</summary>
    internal double LateralMm(double x) =>
        ringLateralMm + (Math.Min(0, x - TangentX) * lateralPerX);

    /// <summary>Height of the pitch line (mm above the bottom bracket); before the tangent point that of the ring.</summary>
    internal double HeightMm(double x) =>
        x < TangentX
            ? tangentY + ((x - TangentX) * risePerX)
            : Math.Sqrt(Math.Max(0, (ringRadiusMm * ringRadiusMm) - (x * x)));
}
