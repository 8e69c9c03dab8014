namespace Cogwright.Gearing;

/// <summary>Wind at the rider's height. Immutable.</summary>
/// <remarks>A weather report's wind is that at 10 m; among houses and hedges half of it or less reaches a rider (common practice).</remarks>
public readonly record struct Wind
{
    /// <summary>Wind from a direction.</summary>
    /// <param name="speedMs">Speed (m/s, 0 to 40).</param>
    /// <param name="fromRad">Where it comes from (rad, clockwise from north).</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public Wind(double speedMs, double fromRad)
    {
        Demand.Between(speedMs, 0, 40, "wind", "road.wind");
        Demand.Between(fromRad, -10, 10, "windFrom", "road.windFrom");
        SpeedMs = speedMs;
        FromRad = fromRad;
    }

    /// <summary>Speed (m/s).</summary>
    public double SpeedMs { get; }

    /// <summary>Where it comes from (rad, clockwise from north).</summary>
    public double FromRad { get; }

    /// <summary>Head wind (m/s) on a course, negative from behind: V_W cos(from − course). Source: Martin et al. 1998.</summary>
    /// <param name="courseRad">Where the rider goes (rad, clockwise from north).</param>
    public double HeadMs(double courseRad) => SpeedMs * Math.Cos(FromRad - courseRad);

    /// <summary>Cross wind (m/s) on a course: V_W sin(from − course), positive from the right.</summary>
    /// <param name="courseRad">Where the rider goes (rad, clockwise from north).</param>
    public double CrossMs(double courseRad) => SpeedMs * Math.Sin(FromRad - courseRad);
}
