namespace Cogwright.Drivetrain;

/// <summary>
/// A point or an offset in the side view: seen from the drive side with the bike facing right,
/// x forward and y up, in millimetres. Points have their origin on the bottom-bracket axis.
/// </summary>
/// <param name="X">Forward (mm).</param>
/// <param name="Y">Up (mm).</param>
public readonly record struct Point(double X, double Y)
{
    /// <summary>Sum of two offsets (mm).</summary>
    public static Point operator +(Point a, Point b) => new(a.X + b.X, a.Y + b.Y);

    /// <summary>The offset from <paramref name="b"/> to <paramref name="a"/> (mm).</summary>
    public static Point operator -(Point a, Point b) => new(a.X - b.X, a.Y - b.Y);

    /// <summary>Length of the offset (mm).</summary>
    public double Length => Math.Sqrt((X * X) + (Y * Y));

    /// <summary>The offset turned by an angle (rad, anticlockwise seen from the drive side).</summary>
    public Point Turned(double angleRad)
    {
        var (sin, cos) = Math.SinCos(angleRad);
        return new((cos * X) - (sin * Y), (sin * X) + (cos * Y));
    }
}
