namespace Cogwright.Gearing;

/// <summary>How the rider sits.</summary>
public enum RidingPosition
{
    /// <summary>Upright, hands on the tops or on a flat bar.</summary>
    Tops,

    /// <summary>Hands on the lever hoods.</summary>
    Hoods,

    /// <summary>Hands in the drops.</summary>
    Drops,

    /// <summary>Forearms on a time-trial bar.</summary>
    AeroBar,
}

/// <summary>What the tyres roll on.</summary>
public enum RoadSurface
{
    /// <summary>Smooth asphalt.</summary>
    SmoothAsphalt,

    /// <summary>Rough or patched asphalt.</summary>
    RoughAsphalt,

    /// <summary>Firm gravel.</summary>
    Gravel,

    /// <summary>Loose or soft ground.</summary>
    Soft,
}

/// <summary>Usual coefficients for who has measured none. They differ from rider to rider and from road to road: <see cref="RideSpread"/> tells what hangs on that.</summary>
public static class RoadPractice
{
    /// <summary>
    /// Drag area (m²). Sources: tops 1.15 × 0.55 and hoods 1.00 × 0.40 from a coach's published table; drops 0.30 and time-trial bar
    /// 0.23 as measured on the road, published.
    /// </summary>
    public static double DragAreaM2(RidingPosition position) =>
        position switch
        {
            RidingPosition.Tops => 0.632,
            RidingPosition.Hoods => 0.4,
            RidingPosition.Drops => 0.3,
            RidingPosition.AeroBar => 0.23,
            _ => throw new ArgumentOutOfRangeException(nameof(position)),
        };

    /// <summary>
    /// Coefficient of rolling resistance. Sources: smooth asphalt the middle of 0.003 to 0.006 (common practice); the others common
    /// practice, and the least sure figures here.
    /// </summary>
    public static double RollingCoefficient(RoadSurface surface) =>
        surface switch
        {
            RoadSurface.SmoothAsphalt => 0.0045,
            RoadSurface.RoughAsphalt => 0.007,
            RoadSurface.Gravel => 0.012,
            RoadSurface.Soft => 0.025,
            _ => throw new ArgumentOutOfRangeException(nameof(surface)),
        };

    /// <summary>
    /// Between what the coefficient of rolling resistance of a surface lies. Sources: smooth asphalt 0.003 to 0.006 (common
    /// practice); the others common practice, wide because so little is sure of them.
    /// </summary>
    public static (double Least, double Most) RollingSpread(RoadSurface surface) =>
        surface switch
        {
            RoadSurface.SmoothAsphalt => (0.003, 0.006),
            RoadSurface.RoughAsphalt => (0.005, 0.01),
            RoadSurface.Gravel => (0.008, 0.018),
            RoadSurface.Soft => (0.015, 0.04),
            _ => throw new ArgumentOutOfRangeException(nameof(surface)),
        };

    /// <summary>How far a rider's drag area may lie off the usual one of the position (a fraction, either way): a fifth (common practice).</summary>
    public const double DragAreaSpread = 0.2;
}
