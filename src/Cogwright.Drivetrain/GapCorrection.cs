namespace Cogwright.Drivetrain;

/// <summary>How a correction ended.</summary>
public enum CorrectionStatus
{
    /// <summary>A turn was found that the hand can do.</summary>
    Turn,

    /// <summary>The reading is so near the target that no turn of the hand improves it.</summary>
    LeaveAsIs,

    /// <summary>The lever radius or the pitch is unknown: try half a turn and read again.</summary>
    TryHalfTurn,

    /// <summary>The screw ends before the target is reached.</summary>
    OutOfTravel,

    /// <summary>No body angle within reason gives the target in that gear.</summary>
    NoSolution,

    /// <summary>The gear has no gap to correct: the chain is not taut there.</summary>
    NoGap,

    /// <summary>A turn changed nothing: the screw does not touch its tab, or something else holds the part.</summary>
    NoEffect,
}

/// <summary>
/// What to do with the body-angle screw after a reading of the gap. Turns are positive clockwise.
/// </summary>
public sealed record GapCorrection
{
    /// <summary>How the correction ended.</summary>
    public required CorrectionStatus Status { get; init; }

    /// <summary>The gear in which the gap was read.</summary>
    public required Gear Gear { get; init; }

    /// <summary>The gap that was read (mm, teeth to teeth).</summary>
    public required double ReadMm { get; init; }

    /// <summary>The gap that is wanted (mm, teeth to teeth).</summary>
    public required double WantedMm { get; init; }

    /// <summary>The gap that the model gives at the spec's own body angle (mm).</summary>
    public double ModelMm { get; init; }

    /// <summary>The body angle at which the model gives the reading (rad), from which the turn is counted.</summary>
    public double BodyAngleRad { get; init; }

    /// <summary>What the reading exceeds the model by at that angle (mm), carried along; 0 unless no angle gives the reading.</summary>
    public double OffsetMm { get; init; }

    /// <summary>Change of the body angle that brings the wanted gap exactly (rad).</summary>
    public double ExactBodyAngleChangeRad { get; init; }

    /// <summary>Turns that bring it exactly (positive clockwise), or null when the screw's effect is unknown.</summary>
    public double? ExactTurns { get; init; }

    /// <summary>Turns to make, rounded to what a hand can do (positive clockwise).</summary>
    public double Turns { get; init; }

    /// <summary>What is left of the wanted gap change after the rounded turn (mm).</summary>
    public double ResidualMm { get; init; }

    /// <summary>The gap to expect in that gear after the rounded turn (mm).</summary>
    public double ExpectedMm { get; init; }

    /// <summary>The gear table to expect after the rounded turn, or null when nothing is turned.</summary>
    public GearTable? After { get; init; }
}
