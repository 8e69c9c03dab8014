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
    /// <param name="spec">The spec.</param>
    /// <param name="withSensitivity">
    /// Whether <see cref="ChainChoice.ChainstaySensitivity"/> is asked for: it costs as much as the choice itself, twice.
    /// </param>
    public static ChainChoice Choose(DrivetrainSpec spec, bool withSensitivity = true)
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
            ChainstaySensitivity = withSensitivity
                ? [Moved(spec, -ChainstayUncertaintyMm), Moved(spec, ChainstayUncertaintyMm)]
                : [],
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
        var pitch = spec.Chain.PitchMm;
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
        var pitch = spec.Chain.PitchMm;
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
        var pitch = spec.Chain.PitchMm;
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
            RearPlace.Extended(spec),
            smallestRing,
            0,
            SpecCheck.MostPitches,
            CoaxialSetUp.BodyAngleRad(spec, pitches)
        );
        var takes = (gear.TakesAtRearStop - gear.NeedsAtFrontStop) * spec.Chain.PitchMm;
        return double.IsNaN(takes) ? null : takes;
    }

    internal static int EvenAtLeast(double pitches) => 2 * (int)Math.Ceiling(pitches / 2);
}
