using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>Turns a reading of the gap of a derailleur on the axle into what to do.</summary>
/// <remarks>
/// In the set-up gear the guide pulley's distance from the axle depends on the cage's mark alone, whatever chain and body
/// angle: a gap there that is off means that the cage does not stand at its mark.
/// </remarks>
public static class SetUpCorrector
{
    /// <summary>One inner and one outer link.</summary>
    private const int LinkPitches = 2;

    /// <summary>Half the step of a central difference (rad).</summary>
    private const double StepRad = 1e-4;

    /// <summary>What to do after a reading; null when the derailleur is not on the axle.</summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="pitches">Length of the chain on the bike (pitches).</param>
    /// <param name="gear">The gear in which the gap was read.</param>
    /// <param name="readMm">The gap read (mm, tooth tip to tooth tip).</param>
    /// <param name="wantedMm">The gap wanted (mm, same convention).</param>
    /// <param name="toleranceMm">How far from it is still fine (mm).</param>
    public static SetUpCorrection? Correct(
        DrivetrainSpec spec,
        int pitches,
        Gear gear,
        double readMm,
        double wantedMm,
        double toleranceMm
    )
    {
        if (CoaxialSetUp.Of(spec, pitches) is not { } setUp)
        {
            return null;
        }
        var none = new SetUpCorrection
        {
            Status = SetUpCorrectionStatus.NoGap,
            Gear = gear,
            ReadMm = readMm,
            WantedMm = wantedMm,
            SetUpGear = setUp.Gear,
        };
        var shorter = SetGap(spec, pitches - LinkPitches, gear);
        var longer = SetGap(spec, pitches + LinkPitches, gear);
        var ways = Ways(spec, pitches, gear, wantedMm, shorter, longer);
        if (!setUp.IsSet)
        {
            return none with { Status = SetUpCorrectionStatus.NotSet, Ways = ways };
        }
        if (Gap(spec, pitches, gear, setUp.BodyAngleRad) is not { } expected)
        {
            return none;
        }
        var now = GapCorrector.Correct(spec, pitches, gear, readMm, wantedMm);
        var reads =
            now.Status is not CorrectionStatus.NoGap && now.OffsetMm == 0
                ? now.BodyAngleRad - setUp.BodyAngleRad
                : (double?)null;
        return none with
        {
            Status =
                Math.Abs(readMm - wantedMm) <= toleranceMm ? SetUpCorrectionStatus.Leave
                : Math.Abs(expected - wantedMm) <= toleranceMm ? SetUpCorrectionStatus.SetAgain
                : SetUpCorrectionStatus.OtherMeans,
            ExpectedMm = expected,
            BodyOffRad = reads,
            CageOffMarkRad = reads is { } off ? CageOff(spec, pitches, setUp, off) : null,
            MmPerBodyDegree = Difference(
                Gap(spec, pitches, gear, setUp.BodyAngleRad + StepRad),
                Gap(spec, pitches, gear, setUp.BodyAngleRad - StepRad),
                2 * StepRad * 180 / Math.PI
            ),
            MmPerPitchLeft = Difference(
                Gap(spec, pitches + LinkPitches, gear, setUp.BodyAngleRad),
                Gap(spec, pitches - LinkPitches, gear, setUp.BodyAngleRad),
                2 * LinkPitches
            ),
            MmPerPitchSetAgain = Difference(longer?.GapMm, shorter?.GapMm, 2 * LinkPitches),
            Ways = ways,
            After = GearTableSolver.Solve(spec, pitches),
        };
    }

    private static double? Difference(double? more, double? less, double over) =>
        (more - less) / over;

    /// <summary>The cage in the set-up gear against its mark, with the body so far off its outcome.</summary>
    private static double? CageOff(
        DrivetrainSpec spec,
        int pitches,
        in BodySetUp setUp,
        double bodyOffRad
    )
    {
        var there = Solved(spec, pitches, setUp.Gear, setUp.BodyAngleRad + bodyOffRad);
        var atMark = Solved(spec, pitches, setUp.Gear, setUp.BodyAngleRad);
        return there is { HasPose: true } now && atMark is { HasPose: true } set
            ? now.CageAngleRad - set.CageAngleRad - bodyOffRad
            : null;
    }

    private static ImmutableArray<SetUpWay> Ways(
        DrivetrainSpec spec,
        int pitches,
        Gear gear,
        double wantedMm,
        SetUpWay? shorter,
        SetUpWay? longer
    )
    {
        var derailleur = spec.RearDerailleur!;
        var mount = derailleur.Coaxial!;
        var cog = spec.Cogs.Teeth.IndexOf(mount.SetUpCogTeeth);
        var ways = new List<SetUpWay>();
        foreach (var length in (ReadOnlySpan<SetUpWay?>)[shorter, longer])
        {
            if (length is { } way)
            {
                ways.Add(way);
            }
        }
        foreach (var other in (ReadOnlySpan<int>)[cog - 1, cog + 1])
        {
            if (other < 0 || other >= spec.Cogs.Teeth.Length)
            {
                continue;
            }
            var set = spec with
            {
                RearDerailleur = derailleur with
                {
                    Coaxial = mount with { SetUpCogTeeth = spec.Cogs.Teeth[other] },
                },
            };
            if (SetGap(set, pitches, gear) is { } way)
            {
                ways.Add(way);
            }
        }
        return [.. ways.OrderBy(way => Math.Abs(way.GapMm - wantedMm))];
    }

    private static SetUpWay? SetGap(DrivetrainSpec spec, int pitches, Gear gear) =>
        CoaxialSetUp.Of(spec, pitches) is { IsSet: true } setUp
        && Gap(spec, pitches, gear, setUp.BodyAngleRad) is { } gap
            ? new(pitches, setUp.Gear.CogTeeth, setUp.BodyAngleRad, gap)
            : null;

    private static double? Gap(DrivetrainSpec spec, int pitches, Gear gear, double bodyAngleRad) =>
        Solved(spec, pitches, gear, bodyAngleRad) is { HasPose: true } result ? result.GapMm : null;

    private static GearResult? Solved(
        DrivetrainSpec spec,
        int pitches,
        Gear gear,
        double bodyAngleRad
    ) =>
        spec.IndicesOf(gear) is var (ring, cog)
            ? GearTableSolver.SolveGear(
                spec,
                RearPlace.At(spec, RearEnd.Of(spec.Frame), spec.Frame.SetUpTravelMm),
                ring,
                cog,
                pitches,
                bodyAngleRad
            )
            : null;
}
