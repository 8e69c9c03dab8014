namespace Cogwright.Gearing.Tests;

/// <summary>
/// The plain way to ride a road in a set of gears: at every piece all gears are asked anew, in objects and lists, straight from
/// the rule's words. Slow and easy to read; it knows nothing of the product's buffers and limits.
/// </summary>
internal static class NaiveRide
{
    internal sealed record Gear(int Ring, int Cog, double Development, bool Used, bool Across);

    internal sealed record Outcome(
        Dictionary<(int Ring, int Cog), double> Seconds,
        int FrontShifts,
        int RearShifts,
        double BelowS,
        double AboveS,
        double OffAim,
        double LowestRpm
    );

    internal static Outcome Of(
        GearSet set,
        double circumferenceM,
        Rider rider,
        IReadOnlyList<double> speeds,
        IReadOnlyList<double> times
    )
    {
        var gears = (
            from ring in Enumerable.Range(0, set.Rings.Length)
            from cog in Enumerable.Range(0, set.Cogs.Length)
            select new Gear(
                ring,
                cog,
                circumferenceM * set.Rings[ring] / set.Cogs[cog],
                set.IsUsed(ring, cog),
                set.IsAcross(ring, cog)
            )
        ).ToList();
        var used = gears.Where(gear => gear.Used).ToList();
        var lowest = used.Min(gear => gear.Development);
        var highest = used.Max(gear => gear.Development);
        var seconds = gears.ToDictionary(gear => (gear.Ring, gear.Cog), _ => 0.0);
        Gear? now = null;
        var (front, rear, below, above, off, least) = (
            0,
            0,
            0.0,
            0.0,
            0.0,
            double.PositiveInfinity
        );
        for (var i = 0; i < speeds.Count; i++)
        {
            var speed = speeds[i];
            double Rpm(Gear gear) => speed * 60 / gear.Development;
            bool Serves(Gear gear) => Rpm(gear) >= rider.LowRpm && Rpm(gear) <= rider.HighRpm;
            bool Keeps(Gear gear) =>
                (Rpm(gear) >= rider.LowRpm || gear.Development == lowest)
                && (Rpm(gear) <= rider.HighRpm || gear.Development == highest);
            if (now is null || !Keeps(now))
            {
                var next = Chosen(used, now, rider, Rpm, Serves);
                if (now is not null)
                {
                    front += Math.Abs(next.Ring - now.Ring);
                    rear += Math.Abs(next.Cog - now.Cog);
                }
                now = next;
            }
            var rpm = Rpm(now);
            seconds[(now.Ring, now.Cog)] += times[i];
            below += rpm < rider.LowRpm ? times[i] : 0;
            above += rpm > rider.HighRpm ? times[i] : 0;
            off += Math.Abs(rpm - rider.AimRpm) * times[i];
            least = Math.Min(least, rpm);
        }
        return new(seconds, front, rear, below, above, off, least);
    }

    private static Gear Chosen(
        List<Gear> used,
        Gear? now,
        Rider rider,
        Func<Gear, double> rpm,
        Func<Gear, bool> serves
    )
    {
        var serving = used.Where(serves).ToList();
        double Off(Gear gear) => Math.Abs(rpm(gear) - rider.AimRpm);
        if (now is null)
        {
            var first = serving.Where(gear => !gear.Across).ToList();
            first = first.Count > 0 ? first : serving;
            return first.Count > 0 ? first.MinBy(Off)! : Nearest(used, 0, rider, rpm);
        }
        var straight = serving.Where(gear => !gear.Across).ToList();
        var among = rider.AvoidsAcross && straight.Count > 0 ? straight : serving;
        return among.Count > 0
            ? among
                .GroupBy(gear => Math.Abs(gear.Ring - now.Ring))
                .MinBy(group => group.Key)!
                .MinBy(Off)!
            : Nearest(used, now.Ring, rider, rpm);
    }

    private static Gear Nearest(List<Gear> used, int ring, Rider rider, Func<Gear, double> rpm) =>
        used.OrderBy(gear => Math.Abs(gear.Ring - ring))
            .ThenBy(gear => gear.Ring)
            .ThenBy(gear => gear.Cog)
            .MinBy(gear => Math.Max(rider.LowRpm - rpm(gear), rpm(gear) - rider.HighRpm))!;
}
