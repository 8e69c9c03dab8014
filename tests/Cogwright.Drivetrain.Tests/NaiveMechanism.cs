namespace Cogwright.Drivetrain.Tests;

/// <summary>One gear in side view, as plain data for the naive twin. Lengths mm, angles rad, chain in pitches.</summary>
internal sealed record NaiveMechanism
{
    public double PitchMm { get; init; } = 12.7;

    public required Point Axle { get; init; }

    public required Point CagePivot { get; init; }

    public required int CogTeeth { get; init; }

    public required int RingTeeth { get; init; }

    public required int TensionTeeth { get; init; }

    public required int GuideTeeth { get; init; }

    public required Point TensionOffset { get; init; }

    public required Point GuideOffset { get; init; }

    public required double FrontStopRad { get; init; }

    public required double RearStopRad { get; init; }

    public required double ChainPitches { get; init; }

    /// <summary>The product's solver, set up for the same gear.</summary>
    internal CageClosure Careful() =>
        new(
            PitchMm,
            Axle,
            CagePivot,
            SprocketSize.Of(CogTeeth, PitchMm),
            SprocketSize.Of(RingTeeth, PitchMm),
            SprocketSize.Of(TensionTeeth, PitchMm),
            SprocketSize.Of(GuideTeeth, PitchMm),
            TensionOffset,
            GuideOffset
        );
}
