namespace Cogwright.Gearing;

/// <summary>The same forces as plain numbers, for many steps: F(V) = a·V_a|V_a| + b₀ + b₁V + weight on the slope (N).</summary>
internal readonly struct RoadForce(RoadLoad load)
{
    // A speed is known well enough when a further step would change it by less than this (m/s).
    private const double Enough = 1e-10;
    private const double EnoughOfAStep = 1e-7;
    private const int MostSteps = 200;

    private readonly double air = 0.5 * load.AirDensity * (load.DragAreaM2 + load.WheelDragAreaM2);
    private readonly double weight = load.MassKg * load.Gravity;
    private readonly double rolling = load.RollingCoefficient;
    private readonly double mass = load.MovingMassKg;

    /// <summary>The part of the force that does not depend on speed (N).</summary>
    internal double StillN(double gradient) =>
        RoadPower.BearingN + (weight * (rolling + gradient) / Math.Sqrt(1 + (gradient * gradient)));

    /// <summary>Speed at which power and force balance (m/s).</summary>
    internal double SteadyMs(double wheelW, double gradient, double headWindMs)
    {
        // g(V) = P/V − F(V) falls with V; P ≥ 0. Its zero is wanted, or 0 when it is negative from the start.
        var still = StillN(gradient);
        var least = 0.0;
        var most = RoadPower.MostMs;
        if (wheelW == 0 && still + (air * headWindMs * Math.Abs(headWindMs)) >= 0)
        {
            return 0;
        }
        if ((wheelW / most) - Force(most, still, headWindMs) >= 0)
        {
            return most;
        }
        var v = 5.0;
        for (var i = 0; i < MostSteps; i++)
        {
            var wind = v + headWindMs;
            var g = (wheelW / v) - Force(v, still, headWindMs);
            if (g > 0)
            {
                least = v;
            }
            else
            {
                most = v;
            }
            var slope = (-wheelW / (v * v)) - (2 * air * Math.Abs(wind)) - RoadPower.BearingNPerMs;
            var next = v - (g / slope);
            if (!(next > least && next < most))
            {
                next = 0.5 * (least + most);
            }
            if (Math.Abs(next - v) < Enough)
            {
                return next;
            }
            v = next;
        }
        return v;
    }

    /// <summary>
    /// Speed after a piece of road (m/s): the energy balance ½m(V² − U²) = (P/V − F(V))·s with the forces at its end, which is
    /// stable whatever its length.
    /// </summary>
    /// <param name="fromMs">Speed before it, U (m/s).</param>
    /// <param name="wheelW">Power at the wheel, P (W, not negative).</param>
    /// <param name="metres">Length along the road, s (m, greater than 0).</param>
    /// <param name="gradient">Its gradient.</param>
    /// <param name="headWindMs">Head wind on it (m/s).</param>
    /// <param name="leastMs">Slowest speed that is returned (m/s, greater than 0): below it the rider walks.</param>
    internal double AfterMs(
        double fromMs,
        double wheelW,
        double metres,
        double gradient,
        double headWindMs,
        double leastMs
    )
    {
        var still = StillN(gradient);
        var half = 0.5 * mass;
        var before = half * fromMs * fromMs;
        var least = leastMs;
        var most = RoadPower.MostMs;
        var v = Math.Max(fromMs, leastMs);
        var triedLeast = v == leastMs;
        for (var i = 0; i < MostSteps; i++)
        {
            var wind = v + headWindMs;
            var h =
                (half * v * v) - before + (metres * (Force(v, still, headWindMs) - (wheelW / v)));
            if (h < 0)
            {
                least = v;
            }
            else
            {
                most = v;
            }
            if (most <= leastMs)
            {
                return leastMs;
            }
            var slope =
                (2 * half * v)
                + (
                    metres
                    * ((2 * air * Math.Abs(wind)) + RoadPower.BearingNPerMs + (wheelW / (v * v)))
                );
            var next = v - (h / slope);
            if (!(next > least && next < most))
            {
                // Below what may be: try the end itself once, then halve.
                next = next <= leastMs && !triedLeast ? leastMs : 0.5 * (least + most);
                triedLeast |= next == leastMs;
            }
            if (Math.Abs(next - v) < EnoughOfAStep)
            {
                return next;
            }
            v = next;
        }
        return v;
    }

    private double Force(double v, double still, double headWindMs)
    {
        var wind = v + headWindMs;
        return (air * wind * Math.Abs(wind)) + still + (RoadPower.BearingNPerMs * v);
    }
}
