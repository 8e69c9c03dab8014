namespace Cogwright.Gearing;

/// <summary>How fast a rider rides a road, piece by piece. The gears have no part in it: power and road alone give the speed.</summary>
internal sealed class RidePace
{
    // Slower than that a rider gets off and pushes (m/s): common practice, 1.8 km/h.
    private const double WalkMs = 0.5;

    /// <summary>The minute that is sought (s).</summary>
    internal const double MinuteS = 60;

    private readonly Route route;
    private readonly Rider rider;
    private readonly RoadForce force;
    private readonly Wind wind;
    private readonly double[] seconds;
    private int next;
    private int stretch;
    private double speed;

    internal RidePace(Route route, Rider rider, Wind wind)
    {
        this.route = route;
        this.rider = rider;
        this.wind = wind;
        force = new(rider.Load);
        seconds = new double[route.Count];
        PedalledMs = new double[route.Count];
        PedalledS = new double[route.Count];
        PedalledBefore = new int[route.Count + 1];
    }

    /// <summary>How many pieces are pedalled; so many of <see cref="PedalledMs"/> and <see cref="PedalledS"/> count.</summary>
    internal int Pedalled { get; private set; }

    /// <summary>Mean speed of each piece that is pedalled, in their order (m/s).</summary>
    internal double[] PedalledMs { get; }

    /// <summary>Time on each piece that is pedalled (s).</summary>
    internal double[] PedalledS { get; }

    /// <summary>How many pieces before each one are pedalled.</summary>
    internal int[] PedalledBefore { get; }

    /// <summary>Time on the whole road (s).</summary>
    internal double TotalS { get; private set; }

    /// <summary>Time not pedalled (s): the plan says no power, or the rider brakes at the top speed.</summary>
    internal double CoastingS { get; private set; }

    /// <summary>Time at walking pace (s): the power does not move the bike any faster.</summary>
    internal double WalkedS { get; private set; }

    /// <summary>How many pieces are done.</summary>
    internal int Done => next;

    /// <summary>Rides so many pieces on; false when the road is over.</summary>
    internal bool Advance(int pieces)
    {
        var end = Math.Min(route.Count, next + pieces);
        for (; next < end; next++)
        {
            Ride(next);
        }
        if (next < route.Count)
        {
            return true;
        }
        PedalledBefore[route.Count] = Pedalled;
        return false;
    }

    private void Ride(int piece)
    {
        var gradient = route.Gradients[piece];
        var head = wind.HeadMs(route.CoursesRad.IsEmpty ? 0 : route.CoursesRad[piece]);
        var pedals = rider.Power.At(gradient);
        var wheel = pedals * rider.Load.DriveEfficiency;
        if (stretch < route.StretchStarts.Length && route.StretchStarts[stretch] == piece)
        {
            // A stretch begins rolling: how the rider came there is not known.
            stretch++;
            speed = Math.Clamp(force.SteadyMs(wheel, gradient, head), WalkMs, rider.TopSpeedMs);
        }
        var length = route.LengthsM[piece];
        var after = force.AfterMs(speed, wheel, length, gradient, head, WalkMs);
        var brakes = after > rider.TopSpeedMs;
        after = Math.Min(after, rider.TopSpeedMs);
        var mean = 0.5 * (speed + after);
        var time = length / mean;
        speed = after;
        seconds[piece] = time;
        TotalS += time;
        PedalledBefore[piece] = Pedalled;
        if (mean <= WalkMs)
        {
            WalkedS += time;
        }
        else if (brakes || pedals == 0)
        {
            CoastingS += time;
        }
        else
        {
            PedalledMs[Pedalled] = mean;
            PedalledS[Pedalled] = time;
            Pedalled++;
        }
    }

    /// <summary>
    /// The minute with the greatest gradient: the pieces from the first to before the last. When no stretch lasts a minute, the
    /// longest stretch.
    /// </summary>
    internal (int From, int To) SteepestMinute()
    {
        (int From, int To) best = (0, 0);
        (int From, int To) longest = (0, 0);
        var steepest = double.NegativeInfinity;
        var longestS = 0.0;
        for (var s = 0; s < route.StretchStarts.Length; s++)
        {
            var end = s + 1 < route.StretchStarts.Length ? route.StretchStarts[s + 1] : route.Count;
            var from = route.StretchStarts[s];
            var (time, rise, run) = (0.0, 0.0, 0.0);
            var all = 0.0;
            for (var to = from; to < end; to++)
            {
                var (r, h) = RiseAndRun(to);
                time += seconds[to];
                all += seconds[to];
                rise += r;
                run += h;
                // The shortest that still lasts a minute.
                while (time - seconds[from] >= MinuteS)
                {
                    var (r0, h0) = RiseAndRun(from);
                    time -= seconds[from];
                    rise -= r0;
                    run -= h0;
                    from++;
                }
                if (time >= MinuteS && rise / run > steepest + 1e-9)
                {
                    steepest = rise / run;
                    best = (from, to + 1);
                }
            }
            if (all > longestS)
            {
                longestS = all;
                longest = (route.StretchStarts[s], end);
            }
        }
        return best.To > 0 ? best : longest;
    }

    /// <summary>Gradient (rise over run), time (s) and distance to where they begin (m) of pieces.</summary>
    internal (double Gradient, double Seconds, double StartM) Of(int from, int to)
    {
        var (time, rise, run, start) = (0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < from; i++)
        {
            start += route.LengthsM[i];
        }
        for (var i = from; i < to; i++)
        {
            var (r, h) = RiseAndRun(i);
            time += seconds[i];
            rise += r;
            run += h;
        }
        return (run > 0 ? rise / run : 0, time, start);
    }

    private (double Rise, double Run) RiseAndRun(int piece)
    {
        var gradient = route.Gradients[piece];
        var run = route.LengthsM[piece] / Math.Sqrt(1 + (gradient * gradient));
        return (run * gradient, run);
    }
}
