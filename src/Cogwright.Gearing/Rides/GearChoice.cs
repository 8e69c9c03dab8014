namespace Cogwright.Gearing;

/// <summary>
/// Which gear a rider takes at a speed, and what a ride comes to in a set of gears. Buffers are kept from one set to the next: a
/// ride allocates nothing.
/// </summary>
/// <remarks>
/// The rider stays in a gear while its cadence is in the range. When it leaves the range, the gear is taken that brings the
/// cadence nearest to the wanted one: on the same ring when one of its cogs brings it into the range, else on the nearest ring
/// that has such a cog; when no gear does, that which comes nearest to the range. Who avoids gears across takes one only when no
/// other serves.
/// </remarks>
internal sealed class GearChoice
{
    private readonly double lowRpm;
    private readonly double highRpm;
    private readonly double aimRpm;
    private readonly bool avoidsAcross;

    // Of each gear, ring by ring and cog by cog: rpm at 1 m/s, the speeds between which it is kept, and its time.
    private readonly double[] rpmPerMs;
    private readonly double[] keptFrom;
    private readonly double[] keptTo;
    private readonly double[] seconds;
    private readonly bool[] used;
    private readonly bool[] across;
    private int rings;
    private int cogs;
    private int gear;

    internal GearChoice(Rider rider, int mostGears)
    {
        lowRpm = rider.LowRpm;
        highRpm = rider.HighRpm;
        aimRpm = rider.AimRpm;
        avoidsAcross = rider.AvoidsAcross;
        rpmPerMs = new double[mostGears];
        keptFrom = new double[mostGears];
        keptTo = new double[mostGears];
        seconds = new double[mostGears];
        used = new bool[mostGears];
        across = new bool[mostGears];
    }

    /// <summary>Time in each gear (s), ring by ring, the smallest first, and in it cog by cog, the smallest first.</summary>
    internal ReadOnlySpan<double> Seconds => seconds.AsSpan(0, rings * cogs);

    /// <summary>Rings passed in all shifts.</summary>
    internal int FrontShifts { get; private set; }

    /// <summary>Cogs passed in all shifts.</summary>
    internal int RearShifts { get; private set; }

    /// <summary>Time with a cadence below the range (s).</summary>
    internal double BelowS { get; private set; }

    /// <summary>Time with a cadence above it (s).</summary>
    internal double AboveS { get; private set; }

    /// <summary>∫|cadence − wanted| dt (rpm·s).</summary>
    internal double OffAim { get; private set; }

    /// <summary>Slowest cadence so far (rpm), infinite before the first piece.</summary>
    internal double LowestRpm { get; private set; }

    /// <summary>The gear that is in, or −1.</summary>
    internal int Gear => gear;

    /// <summary>Takes up a set of gears, at the start of a ride.</summary>
    internal void Load(GearSet set, double circumferenceM)
    {
        rings = set.Rings.Length;
        cogs = set.Cogs.Length;
        var slowest = double.PositiveInfinity;
        var fastest = 0.0;
        for (var ring = 0; ring < rings; ring++)
        {
            for (var cog = 0; cog < cogs; cog++)
            {
                var g = (ring * cogs) + cog;
                var development = circumferenceM * set.Rings[ring] / set.Cogs[cog];
                rpmPerMs[g] = 60 / development;
                keptFrom[g] = lowRpm / rpmPerMs[g];
                keptTo[g] = highRpm / rpmPerMs[g];
                used[g] = set.IsUsed(ring, cog);
                across[g] = set.IsAcross(ring, cog);
                if (used[g])
                {
                    slowest = Math.Min(slowest, development);
                    fastest = Math.Max(fastest, development);
                }
            }
        }
        // Nothing lower than the lowest gear and nothing higher than the highest can be asked for.
        for (var g = 0; g < rings * cogs; g++)
        {
            if (rpmPerMs[g] == 60 / slowest)
            {
                keptFrom[g] = 0;
            }
            if (rpmPerMs[g] == 60 / fastest)
            {
                keptTo[g] = double.PositiveInfinity;
            }
        }
        seconds.AsSpan(0, rings * cogs).Clear();
        (FrontShifts, RearShifts, BelowS, AboveS, OffAim) = (0, 0, 0, 0, 0);
        LowestRpm = double.PositiveInfinity;
        gear = -1;
    }

    /// <summary>Rides pieces on; gives the slowest cadence on them (rpm), infinite when there is none.</summary>
    internal double Ride(ReadOnlySpan<double> speedsMs, ReadOnlySpan<double> times)
    {
        if (speedsMs.IsEmpty)
        {
            return double.PositiveInfinity;
        }
        if (gear < 0)
        {
            gear = First(speedsMs[0]);
        }
        var from = keptFrom[gear];
        var to = keptTo[gear];
        var perMs = rpmPerMs[gear];
        var (below, above, off) = (BelowS, AboveS, OffAim);
        var lowest = double.PositiveInfinity;
        var inGear = 0.0;
        times = times[..speedsMs.Length];
        for (var i = 0; i < speedsMs.Length; i++)
        {
            var speed = speedsMs[i];
            if (speed < from || speed > to)
            {
                seconds[gear] += inGear;
                inGear = 0;
                Shift(speed);
                from = keptFrom[gear];
                to = keptTo[gear];
                perMs = rpmPerMs[gear];
            }
            var rpm = speed * perMs;
            var time = times[i];
            inGear += time;
            below += rpm < lowRpm ? time : 0;
            above += rpm > highRpm ? time : 0;
            off += Math.Abs(rpm - aimRpm) * time;
            lowest = Math.Min(lowest, rpm);
        }
        seconds[gear] += inGear;
        (BelowS, AboveS, OffAim) = (below, above, off);
        LowestRpm = Math.Min(LowestRpm, lowest);
        return lowest;
    }

    private void Shift(double speed)
    {
        var next = Choose(speed);
        if (next == gear)
        {
            return;
        }
        FrontShifts += Math.Abs((next / cogs) - (gear / cogs));
        RearShifts += Math.Abs((next % cogs) - (gear % cogs));
        gear = next;
    }

    private int Choose(double speed)
    {
        var now = gear / cogs;
        for (var pass = avoidsAcross ? 0 : 1; pass < 2; pass++)
        {
            for (var away = 0; away < rings; away++)
            {
                var found = -1;
                var off = double.PositiveInfinity;
                Best(now - away, speed, pass == 1, ref found, ref off);
                if (away > 0)
                {
                    Best(now + away, speed, pass == 1, ref found, ref off);
                }
                if (found >= 0)
                {
                    return found;
                }
            }
        }
        return NearestToRange(speed);
    }

    /// <summary>The gear to begin in: the nearest to the wanted cadence of all that serve, none across when others do.</summary>
    private int First(double speed)
    {
        for (var pass = 0; pass < 2; pass++)
        {
            var found = -1;
            var off = double.PositiveInfinity;
            for (var ring = 0; ring < rings; ring++)
            {
                Best(ring, speed, pass == 1, ref found, ref off);
            }
            if (found >= 0)
            {
                return found;
            }
        }
        gear = 0;
        return NearestToRange(speed);
    }

    private void Best(int ring, double speed, bool alsoAcross, ref int found, ref double off)
    {
        if (ring < 0 || ring >= rings)
        {
            return;
        }
        for (var g = ring * cogs; g < (ring + 1) * cogs; g++)
        {
            var rpm = speed * rpmPerMs[g];
            var distance = Math.Abs(rpm - aimRpm);
            if (
                distance < off
                && used[g]
                && rpm >= lowRpm
                && rpm <= highRpm
                && (alsoAcross || !across[g])
            )
            {
                off = distance;
                found = g;
            }
        }
    }

    /// <summary>No gear brings the cadence into the range: that which comes nearest, on the ring in use when there are several.</summary>
    private int NearestToRange(double speed)
    {
        var found = -1;
        var least = double.PositiveInfinity;
        var now = gear / cogs;
        for (var away = 0; away < rings; away++)
        {
            for (var side = -1; side <= 1; side += 2)
            {
                var ring = now + (side * away);
                if (ring < 0 || ring >= rings)
                {
                    continue;
                }
                for (var g = ring * cogs; g < (ring + 1) * cogs; g++)
                {
                    var rpm = speed * rpmPerMs[g];
                    var outside = Math.Max(lowRpm - rpm, rpm - highRpm);
                    if (used[g] && outside < least)
                    {
                        least = outside;
                        found = g;
                    }
                }
            }
        }
        return found;
    }
}
