using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <content>The survey: which lengths serve which gear.</content>
public static partial class ChainChooser
{
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
    }

    /// <summary>A survey in the making.</summary>
    private sealed class SurveyInProgress
    {
        private readonly ImmutableArray<Served>.Builder served =
            ImmutableArray.CreateBuilder<Served>();
        private readonly ImmutableArray<LeftOutGear>.Builder leftOut =
            ImmutableArray.CreateBuilder<LeftOutGear>();
        private Served? tightest;
        private Served? loosest;

        internal void Serve(Served lengths)
        {
            served.Add(lengths);
            tightest = tightest is { } t && t.Shortest >= lengths.Shortest ? t : lengths;
            loosest = loosest is { } l && l.Longest <= lengths.Longest ? l : lengths;
        }

        internal void LeaveOut(Gear gear, in GearResult why) =>
            leftOut.Add(new(gear, why.State, why.Blame, why.ShortfallMm));

        internal void LeaveOut(LeftOutGear gear) => leftOut.Add(gear);

        internal Survey Done() =>
            new(
                served.ToImmutable(),
                leftOut.ToImmutable(),
                tightest?.Shortest,
                loosest?.Longest,
                tightest,
                loosest
            );
    }

    private static Survey OnHanger(DrivetrainSpec spec)
    {
        var survey = new SurveyInProgress();
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
            // Without travel the table says all that a search over it would.
            var demand =
                spec.RearDerailleur is null || rearEnd.TravelMm == 0
                    ? new(gear.NeedsAtFrontStop, 0, gear.TakesAtRearStop, 0)
                    : GearDemand.Of(
                        spec,
                        rearEnd,
                        gear.RingIndex,
                        gear.CogIndex,
                        table.BodyAngleRad
                    );
            if (double.IsNaN(demand.NeedsPitches) || double.IsNaN(demand.TakesPitches))
            {
                survey.LeaveOut(gear.Gear, WithoutPose(spec, rearEnd, gear, demand));
                continue;
            }
            var lengths = Lengths(spec, gear.Gear, demand);
            if (MeetsCogAtEvery(spec, places, gear, lengths) is { } clash)
            {
                survey.LeaveOut(gear.Gear, clash);
                continue;
            }
            survey.Serve(lengths);
        }
        return survey.Done();
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
                        RearPlace.At(spec, rearEnd, TravelExtremes.TravelAt(i, rearEnd.TravelMm))
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
            anyNumber ? (int)Math.Ceiling(demand.NeedsPitches) : EvenAtLeast(demand.NeedsPitches),
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
            var worst = Worst(
                spec,
                places,
                gear.RingIndex,
                gear.CogIndex,
                pitches,
                spec.RearDerailleur?.BodyAngleRad ?? 0,
                IsClash
            );
            if (worst is not { } clash)
            {
                return null;
            }
            least = least is { } l && l.ShortfallMm <= clash.ShortfallMm ? least : clash;
        }
        return least;
    }

    private static bool IsClash(GearState state) => state == GearState.Clash;

    private static bool IsNotOk(GearState state) => state != GearState.Ok;

    /// <summary>A gear at the place where it fails by most, or null when it fails at none.</summary>
    private static GearResult? Worst(
        DrivetrainSpec spec,
        RearPlace[] places,
        int ring,
        int cog,
        int pitches,
        double bodyAngleRad,
        Func<GearState, bool> fails
    )
    {
        GearResult? worst = null;
        foreach (var place in places)
        {
            var at = GearTableSolver.SolveGear(spec, place, ring, cog, pitches, bodyAngleRad);
            if (fails(at.State) && !(worst is { } w && w.ShortfallMm >= at.ShortfallMm))
            {
                worst = at;
            }
        }
        return worst;
    }
}
