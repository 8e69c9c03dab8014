namespace Cogwright.Drivetrain;

/// <summary>What to do with a front setting after a reading, and what follows in every gear. Immutable.</summary>
public sealed record FrontCorrection
{
    /// <summary>What is set.</summary>
    public required FrontSettingKind Kind { get; init; }

    /// <summary>The gear in which it was read.</summary>
    public required Gear Gear { get; init; }

    /// <summary>What was read (mm).</summary>
    public required double ReadMm { get; init; }

    /// <summary>What is wanted (mm).</summary>
    public required double WantedMm { get; init; }

    /// <summary>
    /// The turns, in movement of the cage (mm, outboard positive; up positive for the height); null when the cage is moved
    /// by hand at its clamp.
    /// </summary>
    public AdjusterCorrection? Turning { get; init; }

    /// <summary>What to expect afterwards (mm), or null when the effect of a turn is unknown.</summary>
    public double? ExpectedMm { get; init; }

    /// <summary>All gears afterwards, or null when the effect of a turn is unknown.</summary>
    public FrontReport? After { get; init; }
}
