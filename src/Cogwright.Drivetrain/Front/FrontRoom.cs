namespace Cogwright.Drivetrain;

/// <summary>
/// The room of a gear's chain in the front cage as a function of where the cage stands: both plates move with the cage,
/// so the least clearances over its length are InnerAtZero − z and OuterAtZero + z.
/// </summary>
internal readonly struct FrontRoom
{
    private readonly TopRun run;
    private readonly DrivetrainSpec spec;
    private readonly FrontDerailleur derailleur;

    internal FrontRoom(GearTable table, FrontDerailleur derailleur, in GearResult gear)
    {
        spec = table.Spec;
        this.derailleur = derailleur;
        run = new(table, gear);
        var half = ChainSides.WidthMm(spec)!.Value / 2;
        InnerAtZeroMm = double.PositiveInfinity;
        OuterAtZeroMm = double.PositiveInfinity;
        // Chain and faces are linear on either side of where the run meets the ring: the least lies at an end of a piece.
        var bend = Math.Clamp(run.TangentX, derailleur.RearXMm, derailleur.FrontXMm);
        foreach (var x in (ReadOnlySpan<double>)[derailleur.RearXMm, bend, derailleur.FrontXMm])
        {
            var chain = run.LateralMm(x);
            InnerAtZeroMm = Math.Min(
                InnerAtZeroMm,
                chain - half - Face(derailleur, derailleur.InnerPlate, x)
            );
            OuterAtZeroMm = Math.Min(
                OuterAtZeroMm,
                Face(derailleur, derailleur.OuterPlate, x) - chain - half
            );
        }
    }

    /// <summary>Clearance to the inner plate with the cage reference on the centre plane (mm).</summary>
    internal double InnerAtZeroMm { get; }

    /// <summary>Clearance to the outer plate with the cage reference on the centre plane (mm).</summary>
    internal double OuterAtZeroMm { get; }

    /// <summary>The chain with the cage somewhere.</summary>
    internal FrontPose At(CageHold hold, double lateralMm)
    {
        var rise = new CageSwing(spec, derailleur).RiseMm(lateralMm);
        return new()
        {
            Hold = hold,
            LateralMm = lateralMm,
            HeightMm = derailleur.HeightMm + rise,
            InnerPlateMm = InnerAtZeroMm - lateralMm,
            OuterPlateMm = OuterAtZeroMm + lateralMm,
            BridgeMm = BridgeMm(rise),
        };
    }

    /// <summary>Lateral position of a plate's chain side from the cage reference (mm).</summary>
    internal static double Face(FrontDerailleur derailleur, CagePlate plate, double x)
    {
        var part = (x - derailleur.RearXMm) / (derailleur.FrontXMm - derailleur.RearXMm);
        return plate.FaceAtRearMm + (part * (plate.FaceAtFrontMm - plate.FaceAtRearMm));
    }

    // The distance from the bridge's upper edge to the run, square to the run, less half the link plate.
    private double? BridgeMm(double? riseMm)
    {
        if (FrontClearances.BridgeMm(spec, riseMm) is not { } bridge)
        {
            return null;
        }
        return ((run.HeightMm(bridge.X) - bridge.Y) * run.Cosine)
            - LateralPractice.PlateHalfHeightMm;
    }
}
