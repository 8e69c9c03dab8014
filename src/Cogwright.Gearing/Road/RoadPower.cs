namespace Cogwright.Gearing;

/// <summary>
/// Power of riding on the road, and the speed that a power gives. Source: Martin, Milliken, Cobb, McFadden, Coggan 1998,
/// J. Appl. Biomech. 14(3):276–291.
/// </summary>
/// <remarks>
/// A wind from behind that is faster than the rider pushes: the air's term is V_a|V_a| where the paper, which has no such case,
/// writes V_a².
/// </remarks>
public static class RoadPower
{
    /// <summary>Fastest speed that a solution may have (m/s).</summary>
    public const double MostMs = GearMeasures.MostMs;

    /// <summary>Steepest gradient that is reckoned with, either way (rise over run).</summary>
    public const double SteepestGradient = 0.6;

    // Bearings: 91 + 8.7 V in mN. Source: Martin et al. 1998.
    internal const double BearingN = 0.091;
    internal const double BearingNPerMs = 0.0087;

    /// <summary>Where the power goes at a speed.</summary>
    /// <param name="load">Bike, rider and air.</param>
    /// <param name="speedMs">Mean ground speed V_G (m/s, 0 to 60).</param>
    /// <param name="gradient">Gradient G, rise over run (−0.6 to 0.6).</param>
    /// <param name="headWindMs">Head wind (m/s, negative from behind, −40 to 40).</param>
    /// <param name="kineticW">What goes into speed (W); see <see cref="KineticW"/>. 0 at a steady speed.</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public static PowerParts At(
        RoadLoad load,
        double speedMs,
        double gradient,
        double headWindMs = 0,
        double kineticW = 0
    )
    {
        ArgumentNullException.ThrowIfNull(load);
        load.Checked();
        Demand.Between(speedMs, 0, MostMs, "speed", "measure.speed");
        CheckRoad(gradient, headWindMs);
        if (!double.IsFinite(kineticW))
        {
            throw new ImpossibleInputException("kinetic", Texts.Get("road.kinetic", kineticW));
        }
        var air = speedMs + headWindMs;
        var cos = 1 / Math.Sqrt(1 + (gradient * gradient));
        var weight = load.MassKg * load.Gravity;
        return new(
            air
                * Math.Abs(air)
                * speedMs
                * 0.5
                * load.AirDensity
                * (load.DragAreaM2 + load.WheelDragAreaM2),
            speedMs * cos * load.RollingCoefficient * weight,
            speedMs * (BearingN + (BearingNPerMs * speedMs)),
            speedMs * weight * gradient * cos,
            kineticW,
            load.DriveEfficiency
        );
    }

    /// <summary>What goes into speed (W): ½(m_T + I/r²)(V_f² − V_i²)/Δt.</summary>
    /// <param name="load">Bike and rider.</param>
    /// <param name="fromMs">Speed at first V_i (m/s, 0 to 60).</param>
    /// <param name="toMs">Speed at last V_f (m/s, 0 to 60).</param>
    /// <param name="seconds">Time between Δt (s, greater than 0).</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public static double KineticW(RoadLoad load, double fromMs, double toMs, double seconds)
    {
        ArgumentNullException.ThrowIfNull(load);
        load.Checked();
        Demand.Between(fromMs, 0, MostMs, "speed", "measure.speed");
        Demand.Between(toMs, 0, MostMs, "speed", "measure.speed");
        Demand.Positive(seconds, "time", "road.time");
        return 0.5 * load.MovingMassKg * ((toMs * toMs) - (fromMs * fromMs)) / seconds;
    }

    /// <summary>
    /// Steady speed (m/s) that a power gives: the only one at which more speed would take more power. 0 when the bike does not
    /// roll; at most <see cref="MostMs"/>.
    /// </summary>
    /// <param name="load">Bike, rider and air.</param>
    /// <param name="pedalsW">Power at the pedals (W, 0 to 3000).</param>
    /// <param name="gradient">Gradient G, rise over run (−0.6 to 0.6).</param>
    /// <param name="headWindMs">Head wind (m/s, negative from behind, −40 to 40).</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public static double SpeedMs(
        RoadLoad load,
        double pedalsW,
        double gradient,
        double headWindMs = 0
    )
    {
        ArgumentNullException.ThrowIfNull(load);
        load.Checked();
        Demand.Between(pedalsW, 0, 3000, "power", "road.power");
        CheckRoad(gradient, headWindMs);
        return new RoadForce(load).SteadyMs(pedalsW * load.DriveEfficiency, gradient, headWindMs);
    }

    internal static void CheckRoad(double gradient, double headWindMs)
    {
        Demand.Between(
            gradient * 100,
            -SteepestGradient * 100,
            SteepestGradient * 100,
            "gradient",
            "road.gradient"
        );
        Demand.Between(headWindMs, -40, 40, "wind", "road.headWind");
    }
}
