using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>Chooses the chain length over every gear that may be used.</summary>
/// <remarks>
/// The bench rule (common practice): chain straight round the largest ring and the largest cog; from where it meets,
/// one outer and one inner link more. The geometry then says within which lengths no gear is short and none hangs.
/// </remarks>
public static partial class ChainChooser
{
    /// <summary>Chainstay change for the sensitivity (mm): what a tape measure at the stand can be off.</summary>
    public const double ChainstayUncertaintyMm = 3;

    /// <summary>What the bench rule adds to the direct path, rounded up to even (pitches): one inner and one outer link.</summary>
    public const int BenchRuleAddsPitches = 2;

    /// <summary>The chain choice for a spec without problems.</summary>
    public static ChainChoice Choose(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var isSuspended = spec.Frame.Suspension is not null;
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
            ShortestSetBy = survey.Tightest?.Gear,
            LongestSetBy = survey.Loosest?.Gear,
            LongestPosition = isSuspended ? LongestPosition.Of(spec.Frame) : null,
            ShortestSetAtTravelMm = isSuspended ? survey.Tightest?.ShortestAtTravelMm : null,
            LongestSetAtTravelMm = isSuspended ? survey.Loosest?.LongestAtTravelMm : null,
            LeftOut = survey.LeftOut,
            LockOut = lockOut.ToImmutable(),
            MissingPitches = missing,
            CapacityTeeth =
                spec.Rings.Max(ring => ring.Teeth)
                - spec.Rings.Min(ring => ring.Teeth)
                + (spec.Cogs.Teeth[^1] - spec.Cogs.Teeth[0]),
            CageTakesMm = CageTakesMm(spec, numbers.Recommended ?? numbers.BenchRule),
            Table = numbers.Recommended is { } recommended
                ? GearTableSolver.Solve(spec, recommended)
                : null,
        };
    }

    /// <summary>
    /// The direct path round the largest ring, the largest cog and the idler at a travel of the rear end (pitches); NaN
    /// when two of them overlap there.
    /// </summary>
    public static double DirectPathPitches(DrivetrainSpec spec, double travelMm)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var pitch = Sprocket.PitchMm * (1 + spec.Chain.Elongation);
        return DirectDrive.PathPitches(
            spec,
            RearPlace.At(spec, RearEnd.Of(spec.Frame), travelMm),
            pitch
        );
    }

    /// <summary>The travel at which that path is longest (mm), and how long it is there (pitches).</summary>
    public static (double TravelMm, double Pitches) LongestDirectPath(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var pitch = Sprocket.PitchMm * (1 + spec.Chain.Elongation);
        return DirectDrive.LongestPath(spec, RearEnd.Of(spec.Frame), pitch);
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
        // On suspension the longest axle position counts, not sag.
        var direct = DirectDrive.LongestPath(spec, RearEnd.Of(spec.Frame), pitch).Value;
        // Without derailleur nothing takes up a surplus: the rule adds nothing.
        var bench = EvenAtLeast(direct) + (spec.RearDerailleur is null ? 0 : BenchRuleAddsPitches);
        int? recommended = null;
        if (survey is { Shortest: { } shortest, Longest: { } longest })
        {
            recommended = shortest > longest ? shortest : Math.Clamp(bench, shortest, longest);
        }
        return new(deltaMm, direct, bench, survey.Shortest, survey.Longest, recommended);
    }

    private static double? CageTakesMm(DrivetrainSpec spec, int pitches)
    {
        if (spec.RearDerailleur is null)
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
            RearPlace.At(spec, RearEnd.Of(spec.Frame), 0),
            smallestRing,
            0,
            SpecCheck.MostPitches,
            CoaxialSetUp.BodyAngleRad(spec, pitches)
        );
        var takes =
            (gear.TakesAtRearStop - gear.NeedsAtFrontStop)
            * Sprocket.PitchMm
            * (1 + spec.Chain.Elongation);
        return double.IsNaN(takes) ? null : takes;
    }

    internal static int EvenAtLeast(double pitches) => 2 * (int)Math.Ceiling(pitches / 2);

    /// <summary>Lengths that serve one gear.</summary>
    internal readonly record struct Served(
        Gear Gear,
        int Shortest,
        int Longest,
        double ShortestAtTravelMm,
        double LongestAtTravelMm
    );

    /// <summary>Which lengths serve which gear, and which gears none does.</summary>
    internal sealed record Survey(
        ImmutableArray<Served> Served,
        ImmutableArray<LeftOutGear> LeftOut,
        int? Shortest,
        int? Longest,
        Served? Tightest,
        Served? Loosest
    )
    {
        internal static Survey Of(DrivetrainSpec spec) =>
            spec.RearDerailleur is { Coaxial: not null } ? OnAxle(spec) : OnHanger(spec);

        private static Survey OnHanger(DrivetrainSpec spec)
        {
            var served = ImmutableArray.CreateBuilder<Served>();
            var leftOut = ImmutableArray.CreateBuilder<LeftOutGear>();
            Served? tightest = null;
            Served? loosest = null;
            var rearEnd = RearEnd.Of(spec.Frame);
            var places = Places(spec, rearEnd);
            // Any length shows whether a gear has a pose; this one is slack everywhere, so the walk sees it all.
            var table = GearTableSolver.Solve(spec, SpecCheck.MostPitches, null, 0);
            foreach (var gear in table.Gears)
            {
                if (spec.GearsNotUsed.Contains(gear.Gear))
                {
                    continue;
                }
                var demand = spec.RearDerailleur is null
                    ? new(gear.NeedsAtFrontStop, 0, gear.TakesAtRearStop, 0)
                    : GearDemand.Of(spec, rearEnd, gear.RingIndex, gear.CogIndex);
                if (double.IsNaN(demand.NeedsPitches) || double.IsNaN(demand.TakesPitches))
                {
                    var without = WithoutPose(spec, rearEnd, gear, demand);
                    leftOut.Add(
                        new(without.Gear, without.State, without.Blame, without.ShortfallMm)
                    );
                    continue;
                }
                var lengths = Lengths(spec, gear.Gear, demand);
                if (MeetsCogAtEvery(spec, places, gear, lengths) is { } clash)
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
                tightest,
                loosest
            );
        }

        /// <summary>The places at which the teeth are looked at: all the travel, or the one place of a rigid frame.</summary>
        private static RearPlace[] Places(DrivetrainSpec spec, RearEnd rearEnd) =>
            rearEnd.TravelMm == 0
                ? [RearPlace.At(spec, rearEnd, 0)]
                :
                [
                    .. Enumerable
                        .Range(0, TravelExtremes.Positions)
                        .Select(i =>
                            RearPlace.At(
                                spec,
                                rearEnd,
                                TravelExtremes.TravelAt(i, rearEnd.TravelMm)
                            )
                        ),
                ];

        /// <summary>The gear at the travel at which it has no pose.</summary>
        private static GearResult WithoutPose(
            DrivetrainSpec spec,
            RearEnd rearEnd,
            in GearResult gear,
            GearDemand demand
        ) =>
            spec.RearDerailleur is { } derailleur
                ? GearTableSolver.SolveGear(
                    spec,
                    RearPlace.At(
                        spec,
                        rearEnd,
                        double.IsNaN(demand.NeedsPitches)
                            ? demand.NeedsAtTravelMm
                            : demand.TakesAtTravelMm
                    ),
                    gear.RingIndex,
                    gear.CogIndex,
                    SpecCheck.MostPitches,
                    derailleur.BodyAngleRad
                )
                : gear;

        private static Served Lengths(DrivetrainSpec spec, Gear gear, GearDemand demand)
        {
            var takes =
                demand.TakesPitches
                + (spec.RearDerailleur is null ? DirectDrive.SagAllowancePitches : 0);
            var anyNumber = spec.RearDerailleur is null && spec.Chain.HalfLink;
            return new(
                gear,
                anyNumber
                    ? (int)Math.Ceiling(demand.NeedsPitches)
                    : EvenAtLeast(demand.NeedsPitches),
                anyNumber ? (int)Math.Floor(takes) : 2 * (int)Math.Floor(takes / 2),
                demand.NeedsAtTravelMm,
                demand.TakesAtTravelMm
            );
        }

        /// <summary>The mildest clash when the teeth meet at every length that serves the gear, somewhere over the travel; else null.</summary>
        private static GearResult? MeetsCogAtEvery(
            DrivetrainSpec spec,
            RearPlace[] places,
            in GearResult gear,
            Served lengths
        )
        {
            GearResult? least = null;
            for (var pitches = lengths.Shortest; pitches <= lengths.Longest; pitches += 2)
            {
                GearResult? worst = null;
                foreach (var place in places)
                {
                    var at = GearTableSolver.SolveGear(
                        spec,
                        place,
                        gear.RingIndex,
                        gear.CogIndex,
                        pitches,
                        spec.RearDerailleur?.BodyAngleRad ?? 0
                    );
                    if (
                        at.State == GearState.Clash
                        && !(worst is { } w && w.ShortfallMm >= at.ShortfallMm)
                    )
                    {
                        worst = at;
                    }
                }
                if (worst is not { } clash)
                {
                    return null;
                }
                least = least is { } l && l.ShortfallMm <= clash.ShortfallMm ? least : clash;
            }
            return least;
        }
    }
}
