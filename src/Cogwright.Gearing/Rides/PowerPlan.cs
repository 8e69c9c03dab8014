using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>Power at a gradient. Immutable.</summary>
/// <param name="Gradient">Gradient, rise over run (−0.6 to 0.6).</param>
/// <param name="PedalsW">Power at the pedals (W, 0 to 3000).</param>
public readonly record struct PowerPoint(double Gradient, double PedalsW);

/// <summary>
/// How hard the rider pedals: one figure, or a curve over the gradient, straight between its points and level beyond its ends.
/// Immutable.
/// </summary>
public sealed record PowerPlan
{
    private readonly double[] gradients;
    private readonly double[] watts;

    private PowerPlan(ImmutableArray<PowerPoint> points)
    {
        Points = points;
        gradients = [.. points.Select(point => point.Gradient)];
        watts = [.. points.Select(point => point.PedalsW)];
    }

    /// <summary>The points of the curve, by gradient; one for a single figure.</summary>
    public ImmutableArray<PowerPoint> Points { get; }

    /// <summary>The same power everywhere.</summary>
    /// <param name="pedalsW">Power at the pedals (W, more than 0, at most 3000).</param>
    /// <exception cref="ImpossibleInputException">It is out of range.</exception>
    public static PowerPlan Steady(double pedalsW) => Curve([new(0, pedalsW)]);

    /// <summary>A curve over the gradient.</summary>
    /// <param name="points">Its points, in any order; no gradient twice, and power greater than 0 in one of them.</param>
    /// <exception cref="ImpossibleInputException">There is none, a number is out of range, or a gradient stands twice.</exception>
    public static PowerPlan Curve(IEnumerable<PowerPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        ImmutableArray<PowerPoint> sorted = [.. points.OrderBy(point => point.Gradient)];
        for (var i = 0; i < sorted.Length; i++)
        {
            RoadPower.CheckRoad(sorted[i].Gradient, 0);
            Demand.Between(sorted[i].PedalsW, 0, 3000, "power", "road.power");
            if (i > 0 && sorted[i].Gradient == sorted[i - 1].Gradient)
            {
                throw new ImpossibleInputException(
                    "power",
                    Texts.Get("ride.powerTwice", sorted[i].Gradient * 100)
                );
            }
        }
        return sorted.Any(point => point.PedalsW > 0)
            ? new(sorted)
            : throw new ImpossibleInputException("power", Texts.Get("ride.noPower"));
    }

    /// <summary>Power at the pedals (W) at a gradient (rise over run).</summary>
    public double At(double gradient)
    {
        if (gradient <= gradients[0])
        {
            return watts[0];
        }
        for (var i = 1; i < gradients.Length; i++)
        {
            if (gradient <= gradients[i])
            {
                var part = (gradient - gradients[i - 1]) / (gradients[i] - gradients[i - 1]);
                return watts[i - 1] + (part * (watts[i] - watts[i - 1]));
            }
        }
        return watts[^1];
    }

    /// <summary>Two plans are the same when their points are.</summary>
    public bool Equals(PowerPlan? other) => other is not null && Points.SequenceEqual(other.Points);

    /// <inheritdoc />
    public override int GetHashCode() => HashCode.Combine(Points.Length, watts[0], watts[^1]);
}
