using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>A power that a rider can hold for a time. Immutable.</summary>
/// <param name="Seconds">How long (s, 1 to 1 000 000).</param>
/// <param name="PedalsW">Power at the pedals (W, more than 0, at most 3000).</param>
public readonly record struct HeldPoint(double Seconds, double PedalsW);

/// <summary>
/// What a rider can hold for how long, as measured; and what that comes to on a road: the even power that can be held for just
/// the time that the road takes with it. Immutable.
/// </summary>
/// <remarks>
/// Between two points the power is straight over the logarithm of the time; before the first and after the last it stays, and
/// <see cref="Beyond"/> tells where that is too much.
/// </remarks>
public sealed record HeldPower
{
    // Near enough: a power meter reads to one or two per cent (common practice).
    private const double EnoughW = 0.05;

    private HeldPower(ImmutableArray<HeldPoint> points) => Points = points;

    /// <summary>The points, by time; the power falls from one to the next.</summary>
    public ImmutableArray<HeldPoint> Points { get; }

    /// <summary>A rider's curve.</summary>
    /// <param name="points">Its points, in any order.</param>
    /// <exception cref="ImpossibleInputException">There is none, a number is out of range, or a longer time has more power.</exception>
    public static HeldPower Of(IEnumerable<HeldPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        ImmutableArray<HeldPoint> sorted = [.. points.OrderBy(point => point.Seconds)];
        if (sorted.IsEmpty)
        {
            throw new ImpossibleInputException("power", Texts.Get("ride.noPower"));
        }
        for (var i = 0; i < sorted.Length; i++)
        {
            Demand.Between(sorted[i].Seconds, 1, 1_000_000, "power", "ride.heldTime");
            Demand.Between(sorted[i].PedalsW, 1, 3000, "power", "road.power");
            if (
                i > 0
                && !(
                    sorted[i].Seconds > sorted[i - 1].Seconds
                    && sorted[i].PedalsW <= sorted[i - 1].PedalsW
                )
            )
            {
                throw new ImpossibleInputException(
                    "power",
                    Texts.Get("ride.heldOrder", sorted[i - 1].Seconds, sorted[i].Seconds)
                );
            }
        }
        return new(sorted);
    }

    /// <summary>Power that can be held for a time (W).</summary>
    /// <param name="seconds">The time (s, more than 0).</param>
    public double At(double seconds)
    {
        if (seconds <= Points[0].Seconds)
        {
            return Points[0].PedalsW;
        }
        for (var i = 1; i < Points.Length; i++)
        {
            if (seconds <= Points[i].Seconds)
            {
                var part =
                    Math.Log(seconds / Points[i - 1].Seconds)
                    / Math.Log(Points[i].Seconds / Points[i - 1].Seconds);
                return Points[i - 1].PedalsW + (part * (Points[i].PedalsW - Points[i - 1].PedalsW));
            }
        }
        return Points[^1].PedalsW;
    }

    /// <summary>
    /// What to know of the power for a time that is longer than the longest of the curve, in a sentence: less can be held than is taken
    /// for it. Null where the curve knows.
    /// </summary>
    /// <param name="seconds">The time (s, more than 0).</param>
    public string? Beyond(double seconds) =>
        seconds > Points[^1].Seconds
            ? Texts.Get(
                "ride.heldBeyond",
                Points[^1].Seconds / 60,
                Points[^1].PedalsW,
                seconds / 60
            )
            : null;

    /// <summary>
    /// The even power that can be held for just the time that a road takes with it (W), to 0.05 W; of several the least that the
    /// halving finds. One road is ridden some fifteen times for it.
    /// </summary>
    /// <param name="route">The road.</param>
    /// <param name="rider">The rider; the power is not looked at.</param>
    /// <param name="wind">The wind.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="ImpossibleInputException">A number of the rider is out of range.</exception>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public double On(
        Route route,
        Rider rider,
        Wind wind = default,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(route);
        ArgumentNullException.ThrowIfNull(rider);
        rider.Checked();
        // At the least power the road takes longest, and no less than that can be held; at the greatest the other way round.
        var least = Points[^1].PedalsW;
        var most = Points[0].PedalsW;
        while (most - least > EnoughW)
        {
            cancellation.ThrowIfCancellationRequested();
            var watts = 0.5 * (least + most);
            var pace = new RidePace(route, rider with { Power = PowerPlan.Steady(watts) }, wind);
            while (pace.Advance(int.MaxValue / 2)) { }
            if (At(pace.TotalS) > watts)
            {
                least = watts;
            }
            else
            {
                most = watts;
            }
        }
        return 0.5 * (least + most);
    }

    /// <summary>Two curves are the same when their points are.</summary>
    public bool Equals(HeldPower? other) => other is not null && Points.SequenceEqual(other.Points);

    /// <inheritdoc />
    public override int GetHashCode() => HashCode.Combine(Points.Length, Points[0], Points[^1]);
}
