namespace Cogwright.Drivetrain;

/// <summary>
/// The arc of the front cage: with the link's direction λ₀ where the outer plate stands straight above the largest ring,
/// cos λ = cos λ₀ + Δz/L and the cage rises by L(sin λ − sin λ₀), on the same side of the pivot.
/// </summary>
internal readonly struct CageSwing
{
    private readonly double lengthMm;
    private readonly double cosine;
    private readonly double sine;

    internal CageSwing(DrivetrainSpec spec, FrontDerailleur derailleur)
    {
        lengthMm = derailleur.LinkLengthMm;
        (sine, cosine) = Math.SinCos(derailleur.LinkAngleRad);
        AboveRingMm =
            spec.Rings.MaxBy(ring => ring.Teeth)!.LateralMm
            - derailleur.OuterPlate.FaceAtFrontMm
            - (derailleur.OuterPlate.ThicknessMm / 2);
    }

    /// <summary>Where the cage reference stands with the outer plate straight above the largest ring (mm).</summary>
    internal double AboveRingMm { get; }

    /// <summary>How much higher the cage stands there than straight above the largest ring (mm), or null beyond the link.</summary>
    internal double? RiseMm(double lateralMm) =>
        SineAt(lateralMm) is { } there ? lengthMm * (there - sine) : null;

    /// <summary>Way of the cage per radian of the link there (mm/rad, never negative), or null beyond the link.</summary>
    internal double? MmPerRad(double lateralMm) =>
        SineAt(lateralMm) is { } there ? lengthMm * Math.Abs(there) : null;

    private double? SineAt(double lateralMm)
    {
        var along = cosine + ((lateralMm - AboveRingMm) / lengthMm);
        return Math.Abs(along) <= 1 ? Math.CopySign(Math.Sqrt(1 - (along * along)), sine) : null;
    }
}
