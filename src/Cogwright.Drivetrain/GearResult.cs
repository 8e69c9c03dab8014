namespace Cogwright.Drivetrain;

/// <summary>What became of a gear when the mechanism was solved.</summary>
public enum GearState
{
    /// <summary>The chain is taut between the cage's stops and the teeth do not meet.</summary>
    Ok,

    /// <summary>The chain hangs: even the rear stop does not take it all.</summary>
    Slack,

    /// <summary>The chain is too short: even the foremost possible cage angle needs more.</summary>
    Short,

    /// <summary>The chain would be taut, but the guide pulley's teeth meet the cog's.</summary>
    Clash,

    /// <summary>The guide pulley cannot be brought beside the cog.</summary>
    Unreachable,
}

/// <summary>Which part of the mechanism is to blame for a state or a finding.</summary>
public enum Blame
{
    /// <summary>Nothing is.</summary>
    None,

    /// <summary>The inboard stop ends the swing before the cog.</summary>
    InboardStop,

    /// <summary>The outboard stop ends the swing before the cog.</summary>
    OutboardStop,

    /// <summary>The parallelogram is not long enough to reach the cog.</summary>
    Parallelogram,

    /// <summary>The chain is too short for the gear.</summary>
    ChainTooShort,

    /// <summary>The chain is too long for the gear.</summary>
    ChainTooLong,

    /// <summary>The guide pulley meets the cog.</summary>
    GuidePulleyOnCog,

    /// <summary>No cage angle between the stops gives a possible path: two sprockets overlap everywhere.</summary>
    OverlappingSprockets,

    /// <summary>The idler overlaps the cog or the ring.</summary>
    IdlerOnSprocket,

    /// <summary>The chain would run past the idler instead of over it.</summary>
    ChainOffIdler,

    /// <summary>A derailleur on the axle cannot be set to its mark with any chain.</summary>
    BodyNotSet,
}

/// <summary>
/// Everything the model says of one gear. Distances in mm, angles in rad (anticlockwise from the drive side), chain in pitches.
/// A figure that does not exist in the gear's state is null on every output; inside this value it is NaN and
/// <see cref="HasPose"/> or <see cref="HasReach"/> says so.
/// </summary>
public readonly record struct GearResult
{
    /// <summary>The gear.</summary>
    public required Gear Gear { get; init; }

    /// <summary>Index of the ring in the spec.</summary>
    public required int RingIndex { get; init; }

    /// <summary>Index of the cog, 0 for the smallest.</summary>
    public required int CogIndex { get; init; }

    /// <summary>What became of it.</summary>
    public required GearState State { get; init; }

    /// <summary>What is to blame when the state is not <see cref="GearState.Ok"/>.</summary>
    public Blame Blame { get; init; }

    /// <summary>By how much it fails: mm of lateral reach, mm of chain, or mm of overlap of the teeth; 0 when ok.</summary>
    public double ShortfallMm { get; init; }

    /// <summary>Whether the chain is taut, so that cage angle, gap, mesh and runs exist.</summary>
    public bool HasPose => !double.IsNaN(CageAngleRad);

    /// <summary>Whether the pulley reaches the cog, so that swing, end-of-travel lengths and margins exist.</summary>
    public bool HasReach => State is not GearState.Unreachable;

    /// <summary>Cage angle θ at which the chain is taut (rad), against the frame.</summary>
    public double CageAngleRad { get; init; }

    /// <summary>What remains of the chain's length at that angle (pitches; path less chain).</summary>
    public double ResidualPitches { get; init; }

    /// <summary>How many times the path was evaluated to find the cage angle.</summary>
    public int Evaluations { get; init; }

    /// <summary>
    /// Body angle β (rad, against the hanger): the table's own, or with a sprung mount the one at which body and cage
    /// balance in this gear; its rearward rest when the chain hangs, its forward limit when the chain is too short.
    /// </summary>
    public double BodyAngleRad { get; init; }

    /// <summary>What holds the body at that angle.</summary>
    public BodyRest BodyRest { get; init; }

    /// <summary>Pulley-to-cog gap, tooth tip to tooth tip, to the cog in use (mm).</summary>
    public double GapMm { get; init; }

    /// <summary>The same distance to the next larger cog (mm), NaN on the largest cog.</summary>
    public double GapToNextMm { get; init; }

    /// <summary>Standard uncertainty of the gap from tips that were not measured (mm), 0 when both were.</summary>
    public double GapTipUncertaintyMm { get; init; }

    /// <summary>Teeth of the cog in mesh.</summary>
    public double CogTeethInMesh { get; init; }

    /// <summary>Teeth of the ring in mesh.</summary>
    public double RingTeethInMesh { get; init; }

    /// <summary>Swing φ of the parallelogram (rad, inboard positive).</summary>
    public double SwingRad { get; init; }

    /// <summary>Free length of the top run (mm); with an idler, of the run from the cog to it.</summary>
    public double TopRunMm { get; init; }

    /// <summary>Free length of the run from the idler to the ring (mm), NaN without idler.</summary>
    public double IdlerRunMm { get; init; }

    /// <summary>Teeth of the idler in mesh, NaN without idler.</summary>
    public double IdlerTeethInMesh { get; init; }

    /// <summary>Free length of the lower run, ring to tension pulley (mm); of a drive without derailleur, ring to cog.</summary>
    public double LowerRunMm { get; init; }

    /// <summary>Path with the cage at its rear stop: the chain it takes there (pitches); a sprung body at its rearward rest.</summary>
    public double TakesAtRearStop { get; init; }

    /// <summary>Path with the cage at its foremost possible angle: the least chain the gear needs (pitches); a sprung body as far forward as it goes.</summary>
    public double NeedsAtFrontStop { get; init; }

    /// <summary>The foremost possible cage angle (rad): the front stop, or less where sprockets would overlap.</summary>
    public double ForemostCageAngleRad { get; init; }

    /// <summary>Chain angle of the top run in plan (rad, never negative); with an idler, of the run from the cog to it.</summary>
    public double ChainAngleRad { get; init; }

    /// <summary>Reserve before the chain is too short (mm of chain).</summary>
    public double TightMarginMm { get; init; }

    /// <summary>Reserve before the chain hangs (mm of chain).</summary>
    public double LooseMarginMm { get; init; }

    /// <summary>Tension of the lower run from the cage spring (N), NaN when the spec gives no spring.</summary>
    public double LowerRunTensionN { get; init; }

    /// <summary>Without derailleur: how far the axle stands behind the front end of its travel (mm), else NaN.</summary>
    public double AxleMovedMm { get; init; }

    /// <summary>The lower knuckle about which the cage turns.</summary>
    public Point CagePivot { get; init; }

    /// <summary>Centre of the guide pulley.</summary>
    public Point Guide { get; init; }

    /// <summary>Centre of the tension pulley.</summary>
    public Point Tension { get; init; }
}
