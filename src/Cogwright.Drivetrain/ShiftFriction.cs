using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>Where the guide pulley was read beside a cog, by the way it came there.</summary>
/// <param name="CogIndex">Index of the cog, 0 for the smallest.</param>
/// <param name="AfterInboardMm">Outboard of the cog after a shift to a larger cog (mm), or null when not read.</param>
/// <param name="AfterOutboardMm">Outboard of the cog after a shift to a smaller cog (mm), or null when not read.</param>
public readonly record struct PulleyReading(
    int CogIndex,
    double? AfterInboardMm,
    double? AfterOutboardMm
)
{
    /// <summary>
    /// Dead band (mm): the pulley lags either way, so having come inboard it stands further outboard than
    /// having come outboard, whichever of the two the cable pulls and the spring does alone.
    /// Null unless both ways were read.
    /// </summary>
    public double? DeadBandMm => AfterInboardMm - AfterOutboardMm;

    /// <summary>The index without friction: the middle of both ways, or the one that was read (mm, outboard).</summary>
    public double? MiddleMm =>
        AfterInboardMm is { } inboard && AfterOutboardMm is { } outboard
            ? (inboard + outboard) / 2
            : AfterInboardMm ?? AfterOutboardMm;
}

/// <summary>Friction seen in readings taken on shifts both ways. Immutable.</summary>
/// <param name="Readings">The cogs that were read, smallest first.</param>
/// <param name="LimitMm">Largest dead band that is fine (mm at the pulley).</param>
public sealed record ShiftFriction(ImmutableArray<PulleyReading> Readings, double LimitMm)
{
    /// <summary>Turn of the barrel adjuster beyond which a dead band means friction. Common practice.</summary>
    public const double LimitTurns = 0.25;

    /// <summary>Lead of a barrel adjuster (mm of cable per turn): M5 × 0.8, the usual thread. Common practice.</summary>
    public const double UsualBarrelPitchMm = 0.8;

    /// <summary>
    /// Shift ratio taken when none is given: the middle of those in use, 1.1 to 1.7, with which a quarter turn moves the
    /// pulley by 0.22 to 0.34 mm. Common practice.
    /// </summary>
    public const double UsualShiftRatio = 1.4;

    /// <summary>The cog with the largest dead band, or null when none was read both ways.</summary>
    public PulleyReading? Worst =>
        Readings.Any(reading => reading.DeadBandMm is not null)
            ? Readings
                .Where(reading => reading.DeadBandMm is not null)
                .MaxBy(reading => Math.Abs(reading.DeadBandMm!.Value))
            : null;

    /// <summary>Friction in the readings of a bike.</summary>
    public static ShiftFriction Of(DrivetrainSpec spec, ImmutableArray<PulleyReading> readings)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return new(
            [.. readings.OrderBy(reading => reading.CogIndex)],
            LimitTurns * BarrelPitchMm(spec) * (spec.Shifting?.ShiftRatio ?? UsualShiftRatio)
        );
    }

    private static double BarrelPitchMm(DrivetrainSpec spec) =>
        spec.Adjusters.FirstOrDefault(a => a.Moves is Moves.CableLength)?.ThreadPitchMm
        ?? UsualBarrelPitchMm;
}
