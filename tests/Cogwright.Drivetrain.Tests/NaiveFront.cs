namespace Cogwright.Drivetrain.Tests;

/// <summary>
/// The naive twin of the front clearances: the chain's path from <see cref="ChainPath"/>, points along the cage a
/// hundredth of a millimetre apart, and rotations in place of the closed forms.
/// </summary>
internal static class NaiveFront
{
    private const int Samples = 9500;

    /// <summary>Least clearance to the inner and to the outer plate with the cage at a lateral position (mm).</summary>
    internal static (double InnerMm, double OuterMm) PlatesMm(
        DrivetrainSpec spec,
        Gear gear,
        double lateralMm,
        double halfWidthMm
    )
    {
        var front = spec.FrontDerailleur!;
        var inner = double.PositiveInfinity;
        var outer = double.PositiveInfinity;
        for (var i = 0; i <= Samples; i++)
        {
            var part = (double)i / Samples;
            var x = front.RearXMm + (part * (front.FrontXMm - front.RearXMm));
            var chain = ChainAt(spec, gear, x).LateralMm;
            inner = Math.Min(
                inner,
                chain - halfWidthMm - (lateralMm + Between(front.InnerPlate, part))
            );
            outer = Math.Min(
                outer,
                lateralMm + Between(front.OuterPlate, part) - (chain + halfWidthMm)
            );
        }
        return (inner, outer);
    }

    /// <summary>Distance of the bridge to the run, by points along the run, less half a link plate (mm).</summary>
    internal static double BridgeMm(DrivetrainSpec spec, Gear gear, double lateralMm)
    {
        var front = spec.FrontDerailleur!;
        var ring = spec.Rings.MaxBy(r => r.Teeth)!;
        var tip = Sprocket.TipRadiusMm(ring.Teeth, ring.TipDiameterMm);
        // The link's end, found by turning the link a little at a time until the cage stands where it should.
        var zero =
            ring.LateralMm - front.OuterPlate.FaceAtFrontMm - (front.OuterPlate.ThicknessMm / 2);
        var angle = front.LinkAngleRad;
        var pivot = zero - (front.LinkLengthMm * Math.Cos(angle));
        var step = Math.Sign(lateralMm - zero) * (Math.Sin(angle) < 0 ? 1 : -1) * 1e-6;
        var link = new Point(front.LinkLengthMm, 0).Turned(angle);
        while ((pivot + link.X - lateralMm) * Math.Sign(lateralMm - zero) < 0)
        {
            angle += step;
            link = new Point(front.LinkLengthMm, 0).Turned(angle);
        }
        var rise = link.Y - (front.LinkLengthMm * Math.Sin(front.LinkAngleRad));
        var bridge = new Point(
            front.RearXMm,
            tip + front.HeightMm - front.BridgeBelowMm!.Value + rise
        );
        var run = Run(spec, gear);
        var least = double.PositiveInfinity;
        const int points = 40_000;
        for (var i = 0; i <= points; i++)
        {
            var part = (double)i / points;
            var p = new Point(
                run.Start.X + (part * (run.End.X - run.Start.X)),
                run.Start.Y + (part * (run.End.Y - run.Start.Y))
            );
            least = Math.Min(least, (p - bridge).Length);
        }
        // A bridge above the run lies on its wrong side.
        var along = (bridge.X - run.Start.X) / (run.End.X - run.Start.X);
        var above = bridge.Y > run.Start.Y + (along * (run.End.Y - run.Start.Y));
        return (above ? -least : least) - 4.25;
    }

    private static (double LateralMm, bool OnRing) ChainAt(DrivetrainSpec spec, Gear gear, double x)
    {
        var ring = spec.Rings.First(r => r.Teeth == gear.RingTeeth).LateralMm;
        var cog = spec.Cogs.LateralMm(spec.Cogs.Teeth.IndexOf(gear.CogTeeth));
        var run = Run(spec, gear);
        if (x >= run.End.X)
        {
            return (ring, true);
        }
        var fromRing = (run.End.X - x) / (run.End.X - run.Start.X);
        return (ring + (fromRing * (cog - ring)), false);
    }

    private static ChainRun Run(DrivetrainSpec spec, Gear gear) =>
        ChainPath
            .Round(
                [new(spec.Frame.Axle, gear.CogTeeth, 1), new(new Point(0, 0), gear.RingTeeth, 1)],
                spec.Chain.PitchMm
            )
            .Runs[0];

    private static double Between(CagePlate plate, double part) =>
        plate.FaceAtRearMm + (part * (plate.FaceAtFrontMm - plate.FaceAtRearMm));
}
