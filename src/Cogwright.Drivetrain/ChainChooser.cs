using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>Chooses the chain length over every gear that may be used.</summary>
/// <remarks>
/// The bench rule (common practice): chain straight round the largest ring and the largest cog; from where it meets,
/// one outer and one inner link more. The geometry then says within which lengths no gear is short and none hangs.
/// </remarks>
public static class ChainChooser
{
    /// <summary>Chainstay change for the sensitivity (mm): what a tape measure at the stand can be off.</summary>
    public const double ChainstayUncertaintyMm = 3;

    /// <summary>What the bench rule adds to the direct path, rounded up to even (pitches): one inner and one outer link.</summary>
    public const int BenchRuleAddsPitches = 2;

    /// <summary>The chain choice for a spec without problems.</summary>
    public static ChainChoice Choose(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var survey = Survey.Of(spec);
        var numbers = Numbers(spec, survey, 0);
        var direct = numbers.DirectLargestPitches;
        var below = direct - (2 * Math.Floor(direct / 2));
        var above = EvenAtLeast(direct) - direct;
        var lockOut = ImmutableArray.CreateBuilder<Gear>();
        var missing = 0;
        if (
            numbers is { ShortestSafe: { } shortest, LongestSafe: { } longest }
            && shortest > longest
        )
        {
            missing = shortest - longest;
            foreach (var range in survey.Served)
            {
                if (range.Longest < shortest)
                {
                    lockOut.Add(range.Gear);
                }
            }
        }
        return new()
        {
            Status =
                survey.Served.IsEmpty ? ChainChoiceStatus.NoGear
                : missing > 0 || !survey.LeftOut.IsEmpty ? ChainChoiceStatus.CannotServeAll
                : ChainChoiceStatus.ServesAll,
            Numbers = numbers,
            RoundingEdgePitches = Math.Min(below, above),
            RoundingEdgeIsBelow = below <= above,
            ChainstaySensitivity =
            [
                Moved(spec, -ChainstayUncertaintyMm),
                Moved(spec, ChainstayUncertaintyMm),
            ],
            ShortestSetBy = survey.ShortestSetBy,
            LongestSetBy = survey.LongestSetBy,
            LeftOut = survey.LeftOut,
            LockOut = lockOut.ToImmutable(),
            MissingPitches = missing,
            CapacityTeeth =
                spec.Rings.Max(ring => ring.Teeth)
                - spec.Rings.Min(ring => ring.Teeth)
                + (spec.Cogs.Teeth[^1] - spec.Cogs.Teeth[0]),
            CageTakesMm = CageTakesMm(spec),
            Table = numbers.Recommended is { } recommended
                ? GearTableSolver.Solve(spec, recommended)
                : null,
        };
    }

    /// <summary>The length to solve with when the spec names none: the recommended, else the bench rule's.</summary>
    public static int PitchesFor(DrivetrainSpec spec, ChainChoice choice)
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentNullException.ThrowIfNull(choice);
        return spec.Chain.Pitches ?? choice.Numbers.Recommended ?? choice.Numbers.BenchRule;
    }

    private static ChainNumbers Moved(DrivetrainSpec spec, double deltaMm)
    {
        var moved = spec with
        {
            Frame = spec.Frame with { ChainstayMm = spec.Frame.ChainstayMm + deltaMm },
        };
        return Numbers(moved, Survey.Of(moved), deltaMm);
    }

    private static ChainNumbers Numbers(DrivetrainSpec spec, Survey survey, double deltaMm)
    {
        var pitch = Sprocket.PitchMm * (1 + spec.Chain.Elongation);
        var largestRing = spec.Rings.Max(ring => ring.Teeth);
        var direct = DirectDrive.PathPitches(
            spec.Frame.ChainstayMm,
            largestRing,
            spec.Cogs.Teeth[^1],
            pitch
        );
        // Without derailleur nothing takes up a surplus: the rule adds nothing.
        var bench = EvenAtLeast(direct) + (spec.RearDerailleur is null ? 0 : BenchRuleAddsPitches);
        int? recommended = null;
        if (survey is { Shortest: { } shortest, Longest: { } longest })
        {
            recommended = shortest > longest ? shortest : Math.Clamp(bench, shortest, longest);
        }
        return new(deltaMm, direct, bench, survey.Shortest, survey.Longest, recommended);
    }

    private static double? CageTakesMm(DrivetrainSpec spec)
    {
        if (spec.RearDerailleur is not { } derailleur)
        {
            return null;
        }
        var smallestRing = 0;
        for (var i = 1; i < spec.Rings.Length; i++)
        {
            smallestRing = spec.Rings[i].Teeth < spec.Rings[smallestRing].Teeth ? i : smallestRing;
        }
        var gear = GearTableSolver.SolveGear(
            spec,
            smallestRing,
            0,
            SpecCheck.MostPitches,
            derailleur.BodyAngleRad
        );
        var takes =
            (gear.TakesAtRearStop - gear.NeedsAtFrontStop)
            * Sprocket.PitchMm
            * (1 + spec.Chain.Elongation);
        return double.IsNaN(takes) ? null : takes;
    }

    private static int EvenAtLeast(double pitches) => 2 * (int)Math.Ceiling(pitches / 2);

    /// <summary>Lengths that serve one gear.</summary>
    private readonly record struct Served(Gear Gear, int Shortest, int Longest);

    /// <summary>Which lengths serve which gear, and which gears none does.</summary>
    private sealed record Survey(
        ImmutableArray<Served> Served,
        ImmutableArray<LeftOutGear> LeftOut,
        int? Shortest,
        int? Longest,
        Gear? ShortestSetBy,
        Gear? LongestSetBy
    )
    {
        internal static Survey Of(DrivetrainSpec spec)
        {
            var served = ImmutableArray.CreateBuilder<Served>();
            var leftOut = ImmutableArray.CreateBuilder<LeftOutGear>();
            Served? tightest = null;
            Served? loosest = null;
            // Any length shows what a gear needs and takes; this one is slack everywhere, so the walk sees it all.
            var table = GearTableSolver.Solve(spec, SpecCheck.MostPitches);
            foreach (var gear in table.Gears)
            {
                if (spec.GearsNotUsed.Contains(gear.Gear))
                {
                    continue;
                }
                if (
                    !gear.HasReach
                    || double.IsNaN(gear.NeedsAtFrontStop)
                    || double.IsNaN(gear.TakesAtRearStop)
                )
                {
                    leftOut.Add(new(gear.Gear, gear.State, gear.Blame, gear.ShortfallMm));
                    continue;
                }
                var lengths = Lengths(spec, gear);
                if (MeetsCogAtEvery(spec, gear, lengths) is { } clash)
                {
                    leftOut.Add(new(gear.Gear, GearState.Clash, clash.Blame, clash.ShortfallMm));
                    continue;
                }
                served.Add(lengths);
                tightest = tightest is { } t && t.Shortest >= lengths.Shortest ? t : lengths;
                loosest = loosest is { } l && l.Longest <= lengths.Longest ? l : lengths;
            }
            return new(
                served.ToImmutable(),
                leftOut.ToImmutable(),
                tightest?.Shortest,
                loosest?.Longest,
                tightest?.Gear,
                loosest?.Gear
            );
        }

        private static Served Lengths(DrivetrainSpec spec, in GearResult gear)
        {
            if (spec.RearDerailleur is not null)
            {
                return new(
                    gear.Gear,
                    EvenAtLeast(gear.NeedsAtFrontStop),
                    2 * (int)Math.Floor(gear.TakesAtRearStop / 2)
                );
            }
            var takes = gear.TakesAtRearStop + DirectDrive.SagAllowancePitches;
            return spec.Chain.HalfLink
                ? new(gear.Gear, (int)Math.Ceiling(gear.NeedsAtFrontStop), (int)Math.Floor(takes))
                : new(
                    gear.Gear,
                    EvenAtLeast(gear.NeedsAtFrontStop),
                    2 * (int)Math.Floor(takes / 2)
                );
        }

        private static GearResult? MeetsCogAtEvery(
            DrivetrainSpec spec,
            in GearResult gear,
            Served lengths
        )
        {
            GearResult? least = null;
            for (var pitches = lengths.Shortest; pitches <= lengths.Longest; pitches += 2)
            {
                var at = GearTableSolver.SolveGear(
                    spec,
                    gear.RingIndex,
                    gear.CogIndex,
                    pitches,
                    spec.RearDerailleur?.BodyAngleRad ?? 0
                );
                if (at.State != GearState.Clash)
                {
                    return null;
                }
                least = least is { } l && l.ShortfallMm <= at.ShortfallMm ? least : at;
            }
            return least;
        }
    }
}
