using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <content>What is asked about the gap: corrections, and what one gear says of another.</content>
public sealed partial class QuantityCatalogue
{
    /// <summary>What to do with the body-angle screw after a reading.</summary>
    /// <param name="gear">The gear in which the gap was read.</param>
    /// <param name="readMm">The gap read (mm, tooth tip to tooth tip).</param>
    /// <param name="wantedMm">The gap wanted in that gear (mm, same convention).</param>
    /// <param name="radPerTurn">What a clockwise turn was found to do (<see cref="LearnTurn"/>), or null to go by the screw's data.</param>
    /// <param name="toleranceMm">On the axle, how far from what is wanted is still fine (mm).</param>
    public GapAdvice CorrectGap(
        (int RingTeeth, int CogTeeth) gear,
        double readMm,
        double wantedMm,
        double? radPerTurn = null,
        double toleranceMm = 0
    )
    {
        if (SetUpCorrectionOf(gear, readMm, wantedMm, toleranceMm) is { } onAxle)
        {
            return OnAxleAdvice(onAxle, gear);
        }
        if (table is null)
        {
            return new()
            {
                Kind = GapAdviceKind.NoGap,
                Gear = gear,
                ReadMm = readMm,
                WantedMm = wantedMm,
            };
        }
        var correction = GapCorrector.Correct(
            spec,
            table.Pitches,
            new(gear.RingTeeth, gear.CogTeeth),
            readMm,
            wantedMm,
            radPerTurn,
            table.TravelMm
        );
        return Advice(correction, gear);
    }

    /// <summary>
    /// What a turn did on this bike, from two readings of the same gap: body angle per clockwise turn (rad, signed), or
    /// null when the readings allow no answer.
    /// </summary>
    public double? LearnTurn(
        (int RingTeeth, int CogTeeth) gear,
        double beforeMm,
        double afterMm,
        double turnsMade
    ) =>
        table is null
            ? null
            : GapCorrector.Learn(
                spec,
                table.Pitches,
                new(gear.RingTeeth, gear.CogTeeth),
                beforeMm,
                afterMm,
                turnsMade,
                table.TravelMm
            );

    /// <summary>The gap that the model expects in one gear when another has a given gap (mm), or null when it has none.</summary>
    /// <param name="gear">The gear that is asked about.</param>
    /// <param name="settingGear">The gear whose gap is known.</param>
    /// <param name="settingMm">Its gap (mm, tooth tip to tooth tip).</param>
    public double? ExpectedGapMm(
        (int RingTeeth, int CogTeeth) gear,
        (int RingTeeth, int CogTeeth) settingGear,
        double settingMm
    )
    {
        return
            TableAtGap(settingGear, settingMm)?.Find(new(gear.RingTeeth, gear.CogTeeth))
                is { HasPose: true } result
            ? result.GapMm
            : null;
    }

    /// <summary>All gears as the model expects them when one has a given gap; empty when it cannot have it.</summary>
    /// <param name="settingGear">The gear whose gap is known.</param>
    /// <param name="settingMm">Its gap (mm, tooth tip to tooth tip).</param>
    public ImmutableArray<GearAfter> GearsAtGap(
        (int RingTeeth, int CogTeeth) settingGear,
        double settingMm
    ) => TableAtGap(settingGear, settingMm) is { } there ? After(there, 0) : [];

    private GearTable? TableAtGap(
        (int RingTeeth, int CogTeeth) settingGear,
        double settingMm,
        double? travelMm = null
    )
    {
        if (
            table is null
            || spec.RearDerailleur is null
            || Find(QuantityNames.Gap, settingGear) is not { } now
        )
        {
            return null;
        }
        var setting = GapCorrector.Correct(
            spec,
            table.Pitches,
            new(settingGear.RingTeeth, settingGear.CogTeeth),
            now.Value,
            settingMm,
            travelMm: table.TravelMm
        );
        return setting.Status is CorrectionStatus.NoGap or CorrectionStatus.NoSolution
            ? null
            : GearTableSolver.Solve(
                spec,
                table.Pitches,
                setting.BodyAngleRad + setting.ExactBodyAngleChangeRad,
                travelMm ?? table.TravelMm
            );
    }

    private GapAdvice Advice(GapCorrection correction, (int RingTeeth, int CogTeeth) gear)
    {
        var kind = correction.Status switch
        {
            CorrectionStatus.Turn => GapAdviceKind.Turn,
            CorrectionStatus.LeaveAsIs => GapAdviceKind.LeaveAsIs,
            CorrectionStatus.TryHalfTurn => GapAdviceKind.TryHalfTurn,
            CorrectionStatus.OutOfTravel => GapAdviceKind.OutOfTravel,
            CorrectionStatus.NoSolution => GapAdviceKind.NoSolution,
            _ => GapAdviceKind.NoGap,
        };
        var known =
            kind is GapAdviceKind.Turn or GapAdviceKind.LeaveAsIs or GapAdviceKind.OutOfTravel;
        return new()
        {
            Kind = kind,
            Gear = gear,
            ReadMm = correction.ReadMm,
            WantedMm = correction.WantedMm,
            ModelMm = kind is GapAdviceKind.NoGap ? null : correction.ModelMm,
            Turns = correction.Turns,
            ExpectedMm = known ? correction.ExpectedMm : null,
            After = known && correction.After is { } after ? After(after, correction.OffsetMm) : [],
        };
    }

    // Where no body angle gives the reading, what gauge and model differ by now they will differ by afterwards.
    private ImmutableArray<GearAfter> After(GearTable after, double offsetMm)
    {
        var shifted = after with
        {
            Gears =
            [
                .. after.Gears.Select(gear =>
                    gear with
                    {
                        GapMm = gear.GapMm + offsetMm,
                        GapToNextMm = gear.GapToNextMm + offsetMm,
                    }
                ),
            ],
        };
        var findings = GearWords.Findings(shifted);
        return
        [
            .. shifted.Gears.Select(gear => new GearAfter(
                gear.Gear.RingTeeth,
                gear.Gear.CogTeeth,
                gear.State is GearState.Ok,
                gear.HasPose ? gear.GapMm : null,
                GearWords.Reason(gear, spec) is { } reason ? [reason] : [.. findings[gear.Gear]]
            )),
        ];
    }
}
