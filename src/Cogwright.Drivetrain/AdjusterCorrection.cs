namespace Cogwright.Drivetrain;

/// <summary>
/// What to do with an adjuster after a reading of what it moves. Turns are positive clockwise; an offset step counts as one
/// turn, positive outboard. Immutable.
/// </summary>
public sealed record AdjusterCorrection
{
    /// <summary>What the adjuster moves.</summary>
    public required Moves Moves { get; init; }

    /// <summary>The adjuster, or null when the spec does not describe it.</summary>
    public Adjuster? Adjuster { get; init; }

    /// <summary>How the correction ended.</summary>
    public required CorrectionStatus Status { get; init; }

    /// <summary>What was read (mm, outboard positive).</summary>
    public required double ReadMm { get; init; }

    /// <summary>What is wanted (mm, outboard positive).</summary>
    public required double WantedMm { get; init; }

    /// <summary>What a clockwise turn does (mm, outboard positive), or null when unknown.</summary>
    public double? MmPerTurn { get; init; }

    /// <summary>Turns that bring what is wanted exactly, or null when the effect is unknown.</summary>
    public double? ExactTurns { get; init; }

    /// <summary>Turns to make, rounded to <see cref="LeastTurn"/>; 0 when none.</summary>
    public double Turns { get; init; }

    /// <summary>The least turn: what a hand can do, one click, or one step (turns).</summary>
    public double LeastTurn { get; init; }

    /// <summary>What to expect after the turns (mm, outboard positive), or null when unknown.</summary>
    public double? ExpectedMm { get; init; }

    /// <summary>What will still be missing after the turns (mm, outboard positive), or null when unknown.</summary>
    public double? ResidualMm => WantedMm - ExpectedMm;

    /// <summary>Whether the turns, by what was learnt, act the other way than the adjuster's data says.</summary>
    public bool ActsOtherWay { get; init; }
}

/// <summary>What a turn between two readings taught.</summary>
/// <param name="Status"><see cref="CorrectionStatus.Turn"/> when something was learnt, <see cref="CorrectionStatus.NoEffect"/> when nothing moved, <see cref="CorrectionStatus.NoSolution"/> without a turn.</param>
/// <param name="MmPerTurn">What a clockwise turn does (mm, outboard positive), 0 unless learnt.</param>
/// <param name="UncertaintyMmPerTurn">Its standard uncertainty (mm per turn).</param>
public readonly record struct LearntTurn(
    CorrectionStatus Status,
    double MmPerTurn,
    double UncertaintyMmPerTurn
);
