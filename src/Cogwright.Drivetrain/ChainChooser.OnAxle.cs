using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <content>The survey for a derailleur on the axle: every length has a body angle of its own.</content>
public static partial class ChainChooser
{
    /// <summary>The lengths that serve each gear of a derailleur on the axle, each tried with the body set for it.</summary>
    private static Survey OnAxle(DrivetrainSpec spec)
    {
        var rearEnd = RearEnd.Of(spec.Frame);
        var tries = Tries(spec);
        var served = ImmutableArray.CreateBuilder<Served>();
        var leftOut = ImmutableArray.CreateBuilder<LeftOutGear>();
        Served? tightest = null;
        Served? loosest = null;
        for (var ring = 0; ring < spec.Rings.Length; ring++)
        {
            for (var cog = 0; cog < spec.Cogs.Teeth.Length; cog++)
            {
                var gear = new Gear(spec.Rings[ring].Teeth, spec.Cogs.Teeth[cog]);
                if (spec.GearsNotUsed.Contains(gear))
                {
                    continue;
                }
                var lengths = ServedOnAxle(spec, rearEnd, tries, gear, ring, cog);
                if (lengths is not { } range)
                {
                    leftOut.Add(LeftOutOnAxle(spec, rearEnd, tries, gear, ring, cog));
                    continue;
                }
                served.Add(range);
                tightest = tightest is { } t && t.Shortest >= range.Shortest ? t : range;
                loosest = loosest is { } l && l.Longest <= range.Longest ? l : range;
            }
        }
        return new(
            served.ToImmutable(),
            leftOut.ToImmutable(),
            tightest?.Shortest,
            loosest?.Longest,
            tightest,
            loosest
        );
    }

    /// <summary>The even lengths with which the body can be set, shortest first, each with its outcome.</summary>
    private static List<(int Pitches, double BodyAngleRad)> Tries(DrivetrainSpec spec)
    {
        var tries = new List<(int, double)>();
        if (CoaxialSetUp.Lengths(spec) is not { } lengths)
        {
            return tries;
        }
        for (
            var pitches = EvenAtLeast(lengths.Least);
            pitches <= Math.Min(lengths.Most, SpecCheck.MostPitches);
            pitches += 2
        )
        {
            if (CoaxialSetUp.Of(spec, pitches) is { IsSet: true } setUp)
            {
                tries.Add((pitches, setUp.BodyAngleRad));
            }
        }
        return tries;
    }

    /// <summary>The longest run of lengths that serve a gear, or null when none does.</summary>
    private static Served? ServedOnAxle(
        DrivetrainSpec spec,
        RearEnd rearEnd,
        List<(int Pitches, double BodyAngleRad)> tries,
        Gear gear,
        int ring,
        int cog
    )
    {
        Served? best = null;
        Served? run = null;
        foreach (var (pitches, body) in tries)
        {
            var demand = GearDemand.Of(spec, rearEnd, ring, cog, body);
            // Written so that a demand that is NaN serves nothing.
            if (
                !(demand.NeedsPitches <= pitches && pitches <= demand.TakesPitches)
                || Clash(spec, rearEnd, ring, cog, pitches, body) is not null
            )
            {
                run = null;
                continue;
            }
            run =
                run is { } so && so.Longest == pitches - 2
                    ? so with
                    {
                        Longest = pitches,
                        LongestAtTravelMm = demand.TakesAtTravelMm,
                    }
                    : new(gear, pitches, pitches, demand.NeedsAtTravelMm, demand.TakesAtTravelMm);
            if (
                best is not { } b
                || run.Value.Longest - run.Value.Shortest > b.Longest - b.Shortest
                || run.Value.Shortest == b.Shortest
            )
            {
                best = run;
            }
        }
        return best;
    }

    /// <summary>The gear where teeth meet somewhere over the travel, or null.</summary>
    private static GearResult? Clash(
        DrivetrainSpec spec,
        RearEnd rearEnd,
        int ring,
        int cog,
        int pitches,
        double bodyAngleRad
    )
    {
        GearResult? worst = null;
        foreach (var at in OverTravel(spec, rearEnd, ring, cog, pitches, bodyAngleRad))
        {
            if (at.State == GearState.Clash && !(worst is { } w && w.ShortfallMm >= at.ShortfallMm))
            {
                worst = at;
            }
        }
        return worst;
    }

    /// <summary>
    /// Why no length serves a gear: what goes wrong at the length at which it fails least; or that no length can be set.
    /// </summary>
    private static LeftOutGear LeftOutOnAxle(
        DrivetrainSpec spec,
        RearEnd rearEnd,
        List<(int Pitches, double BodyAngleRad)> tries,
        Gear gear,
        int ring,
        int cog
    )
    {
        GearResult? least = null;
        foreach (var (pitches, body) in tries)
        {
            GearResult? worst = null;
            foreach (var at in OverTravel(spec, rearEnd, ring, cog, pitches, body))
            {
                if (
                    at.State != GearState.Ok
                    && !(worst is { } w && w.ShortfallMm >= at.ShortfallMm)
                )
                {
                    worst = at;
                }
            }
            if (worst is { } bad && !(least is { } l && l.ShortfallMm <= bad.ShortfallMm))
            {
                least = bad;
            }
        }
        return least is { } found
            ? new(gear, found.State, found.Blame, found.ShortfallMm)
            : new(gear, GearState.Unreachable, Blame.BodyNotSet, 0);
    }

    private static IEnumerable<GearResult> OverTravel(
        DrivetrainSpec spec,
        RearEnd rearEnd,
        int ring,
        int cog,
        int pitches,
        double bodyAngleRad
    )
    {
        var positions = rearEnd.TravelMm == 0 ? 1 : TravelExtremes.Positions;
        for (var i = 0; i < positions; i++)
        {
            var travel = positions == 1 ? 0 : TravelExtremes.TravelAt(i, rearEnd.TravelMm);
            yield return GearTableSolver.SolveGear(
                spec,
                RearPlace.At(spec, rearEnd, travel),
                ring,
                cog,
                pitches,
                bodyAngleRad
            );
        }
    }
}
