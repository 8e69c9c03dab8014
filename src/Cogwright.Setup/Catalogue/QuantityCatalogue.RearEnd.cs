using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <content>What is asked about the position of the rear end.</content>
public sealed partial class QuantityCatalogue
{
    /// <summary>Where the rear end stands when the gap is set and read, in words for a convention.</summary>
    public string RearEndState => RearEndWords.State(spec, table);

    /// <summary>The travel at which the gap is set and read (mm), or null when the rear end is rigid or is set fully extended.</summary>
    public double? SetUpTravelMm =>
        spec.Frame.Suspension is not null && table is { TravelMm: > 0 } ? table.TravelMm : null;

    /// <summary>
    /// The gap that a gear shows fully extended when it has a given gap at <see cref="SetUpTravelMm"/> (mm), or null when
    /// it has none there.
    /// </summary>
    public double? ExtendedGapMm((int RingTeeth, int CogTeeth) gear, double settingMm) =>
        TableAtGap(gear, settingMm, 0)?.Find(new(gear.RingTeeth, gear.CogTeeth))
            is { HasPose: true } result
            ? result.GapMm
            : null;

    /// <summary>
    /// The other way round: the gap that a gear shows at <see cref="SetUpTravelMm"/> when it has a given gap fully extended
    /// (mm), or null when it has none.
    /// </summary>
    public double? SetUpGapMm((int RingTeeth, int CogTeeth) gear, double extendedMm)
    {
        var asked = new Gear(gear.RingTeeth, gear.CogTeeth);
        if (
            table is null
            || spec.RearDerailleur is not { } derailleur
            || GearTableSolver.Solve(spec, table.Pitches, travelMm: 0).Find(asked)
                is not { HasPose: true } now
        )
        {
            return null;
        }
        var setting = GapCorrector.Correct(
            spec,
            table.Pitches,
            asked,
            now.GapMm,
            extendedMm,
            travelMm: 0
        );
        if (setting.Status is CorrectionStatus.NoGap or CorrectionStatus.NoSolution)
        {
            return null;
        }
        var body = derailleur.BodyAngleRad + setting.ExactBodyAngleChangeRad;
        return
            GearTableSolver.Solve(spec, table.Pitches, body, table.TravelMm).Find(asked)
                is { HasPose: true } there
            ? there.GapMm
            : null;
    }
}
