using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <content>What is asked about the position of the rear end.</content>
public sealed partial class QuantityCatalogue
{
    /// <summary>Where the rear end stands when the gap is set and read, in words for a convention.</summary>
    public string RearEndState => RearEndWords.State(spec, table);

    /// <summary>The same in the fewest words.</summary>
    public string RearEndInShort => RearEndWords.InShort(spec, table);

    /// <summary>How the rear end stands where the chain is tightest, in words.</summary>
    public string RearEndAtTightEnd =>
        RearEndWords.At(spec, choice.ShortestSetAtTravelMm ?? choice.LongestPosition?.TravelMm);

    /// <summary>How the rear end stands where the chain is loosest, in words.</summary>
    public string RearEndAtLooseEnd => RearEndWords.At(spec, choice.LongestSetAtTravelMm);

    /// <summary>What the direct path is laid over beside ring and cog, in words.</summary>
    public string DirectPathOver => QuantityMaker.DirectPathOver(spec);

    /// <summary>Whether an idler leads the upper run.</summary>
    public bool HasIdler => spec.Idler is not null;

    /// <summary>Where the direct path is longest, when that is not where it is counted: the travel (mm) and the path (pitches).</summary>
    public (double TravelMm, double Pitches)? LongestDirectPath =>
        spec.Frame.Suspension is not null
        && ChainChooser.LongestDirectPath(spec) is { TravelMm: > 0 } longest
            ? longest
            : null;

    /// <summary>What a travel is measured as, in words; empty for a rigid rear end.</summary>
    public string TravelMeans =>
        spec.Frame.Suspension is { } suspension ? RearEndWords.Means(suspension) : "";

    /// <summary>Sag as a part of the travel (0 to 1), or null when the rear end is rigid or nobody stated it.</summary>
    public double? SagFraction => spec.Frame.Suspension?.SagFraction;

    /// <summary>The travel at sag (mm), or null when the rear end is rigid or nobody stated its sag.</summary>
    public double? SagTravelMm =>
        spec.Frame.Suspension is { SagFraction: not null } suspension
            ? suspension.SetUpTravelMm
            : null;

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
            || spec.RearDerailleur is null
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
        var body = setting.BodyAngleRad + setting.ExactBodyAngleChangeRad;
        return
            GearTableSolver.Solve(spec, table.Pitches, body, table.TravelMm).Find(asked)
                is { HasPose: true } there
            ? there.GapMm
            : null;
    }
}
