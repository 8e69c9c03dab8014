namespace Cogwright.Drivetrain;

/// <summary>
/// How far a hanger stands out of the wheel's plane. The plane through the hanger bolt is
/// z = lean·(y − y_bolt) + toe·(x − x_bolt), outboard positive.
/// </summary>
/// <param name="LeanRad">∂z/∂y (rad, small): positive when what hangs below the bolt stands inboard.</param>
/// <param name="ToeRad">∂z/∂x (rad, small): positive when what stands behind the bolt stands inboard.</param>
public readonly record struct HangerTilt(double LeanRad, double ToeRad)
{
    /// <summary>How far outboard the plane carries a point of the derailleur (mm; negative inboard).</summary>
    /// <param name="fromBoltMm">From the hanger bolt to the point (mm, x forward, y up).</param>
    public double LateralMm(Point fromBoltMm) => (LeanRad * fromBoltMm.Y) + (ToeRad * fromBoltMm.X);
}
