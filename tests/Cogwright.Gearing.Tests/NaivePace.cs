using MathNet.Numerics.RootFinding;

namespace Cogwright.Gearing.Tests;

/// <summary>
/// The plain way to find the speed on a road: after each piece a general-purpose root finder on the energy balance, written from
/// <see cref="RoadPower.At"/>. It knows nothing of the product's own steps.
/// </summary>
internal static class NaivePace
{
    private const double WalkMs = 0.5;

    internal static (List<double> Speeds, List<double> Times, double TotalS) Of(
        Route route,
        Rider rider,
        Wind wind
    )
    {
        var speeds = new List<double>();
        var times = new List<double>();
        var total = 0.0;
        var speed = 0.0;
        for (var i = 0; i < route.Count; i++)
        {
            var gradient = route.Gradients[i];
            var head = wind.HeadMs(route.CoursesRad.IsEmpty ? 0 : route.CoursesRad[i]);
            var pedals = rider.Power.At(gradient);
            var wheel = pedals * rider.Load.DriveEfficiency;
            double Force(double v) => RoadPower.At(rider.Load, v, gradient, head).Net / v;
            if (route.StretchStarts.Contains(i))
            {
                speed = Math.Clamp(
                    RoadPower.SpeedMs(rider.Load, pedals, gradient, head),
                    WalkMs,
                    rider.TopSpeedMs
                );
            }
            var before = speed;
            double Balance(double v) =>
                (0.5 * rider.Load.MovingMassKg * ((v * v) - (before * before)))
                - (route.LengthsM[i] * ((wheel / v) - Force(v)));
            var after =
                Balance(WalkMs) >= 0 ? WalkMs
                : Balance(RoadPower.MostMs) <= 0 ? RoadPower.MostMs
                : Brent.FindRoot(Balance, WalkMs, RoadPower.MostMs, 1e-9, 500);
            var brakes = after > rider.TopSpeedMs;
            speed = Math.Min(after, rider.TopSpeedMs);
            var mean = 0.5 * (before + speed);
            var time = route.LengthsM[i] / mean;
            total += time;
            if (mean > WalkMs && !brakes && pedals > 0)
            {
                speeds.Add(mean);
                times.Add(time);
            }
        }
        return (speeds, times, total);
    }
}
