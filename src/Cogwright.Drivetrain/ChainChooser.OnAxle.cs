namespace Cogwright.Drivetrain;

/// <content>The survey for a derailleur on the axle: every length has a body angle of its own.</content>
public static partial class ChainChooser
{
    /// <summary>The lengths that serve each gear of a derailleur on the axle, each tried with the body set for it.</summary>
    private static Survey OnAxle(DrivetrainSpec spec)
    {
        var rearEnd = RearEnd.Of(spec.Frame);
        var places = Places(spec, rearEnd);
        var tries = CoaxialSetUp.EachLength(spec);
        var survey = new SurveyInProgress();
        for (var ring = 0; ring < spec.Rings.Length; ring++)
        {
            for (var cog = 0; cog < spec.Cogs.Teeth.Length; cog++)
            {
                var gear = new Gear(spec.Rings[ring].Teeth, spec.Cogs.Teeth[cog]);
                if (spec.GearsNotUsed.Contains(gear))
                {
                    continue;
                }
                if (ServedOnAxle(spec, rearEnd, places, tries, gear, ring, cog) is { } range)
                {
                    survey.Serve(range);
                }
                else
                {
                    survey.LeaveOut(LeftOutOnAxle(spec, places, tries, gear, ring, cog));
                }
            }
        }
        return survey.Done();
    }

    /// <summary>The longest run of lengths that serve a gear, or null when none does.</summary>
    private static Served? ServedOnAxle(
        DrivetrainSpec spec,
        in RearEnd rearEnd,
        RearPlace[] places,
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
                || Worst(spec, places, ring, cog, pitches, body, IsClash) is not null
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

    /// <summary>
    /// Why no length serves a gear: what goes wrong at the length at which it fails least; or that no length can be set.
    /// </summary>
    private static LeftOutGear LeftOutOnAxle(
        DrivetrainSpec spec,
        RearPlace[] places,
        List<(int Pitches, double BodyAngleRad)> tries,
        Gear gear,
        int ring,
        int cog
    )
    {
        GearResult? least = null;
        foreach (var (pitches, body) in tries)
        {
            if (
                Worst(spec, places, ring, cog, pitches, body, IsNotOk) is { } bad
                && !(least is { } l && l.ShortfallMm <= bad.ShortfallMm)
            )
            {
                least = bad;
            }
        }
        return least is { } found
            ? new(gear, found.State, found.Blame, found.ShortfallMm)
            : new(gear, GearState.Unreachable, Blame.BodyNotSet, 0);
    }
}
