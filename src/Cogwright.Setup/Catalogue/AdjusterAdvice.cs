using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Measurement;

namespace Cogwright.Setup.Catalogue;

/// <summary>The adjusters beside the body-angle screw.</summary>
public enum AdjusterPlace
{
    /// <summary>The outboard stop screw.</summary>
    OutboardStop,

    /// <summary>The inboard stop screw.</summary>
    InboardStop,

    /// <summary>The barrel adjuster of the cable.</summary>
    Cable,

    /// <summary>The offset step of a motor-driven derailleur.</summary>
    OffsetStep,

    /// <summary>The outboard stop screw of the front derailleur.</summary>
    FrontOutboardStop,

    /// <summary>The inboard stop screw of the front derailleur.</summary>
    FrontInboardStop,

    /// <summary>The screw that sets the height of the front cage.</summary>
    FrontHeight,
}

/// <summary>What to do with an adjuster.</summary>
public enum AdjusterKind
{
    /// <summary>Turn it.</summary>
    Turn,

    /// <summary>No turn that a hand can do improves it.</summary>
    LeaveAsIs,

    /// <summary>What it does is unknown: half a turn, then read again.</summary>
    TryHalfTurn,

    /// <summary>It ends before what is wanted is reached.</summary>
    OutOfTravel,

    /// <summary>The last turn changed nothing.</summary>
    NoEffect,
}

/// <summary>
/// A correction of an adjuster in numbers, in movement of what it moves: guide pulley or front cage, outboard positive (the
/// front height: up positive). <see cref="AdjusterWords"/> says it in words. Immutable.
/// </summary>
public sealed record AdjusterAdvice
{
    /// <summary>What to do.</summary>
    public required AdjusterKind Kind { get; init; }

    /// <summary>Which adjuster.</summary>
    public required AdjusterPlace Place { get; init; }

    /// <summary>What a mechanic calls it.</summary>
    public required string Name { get; init; }

    /// <summary>The tool that turns it, or null.</summary>
    public string? Tool { get; init; }

    /// <summary>What was read (mm, outboard positive).</summary>
    public required double ReadMm { get; init; }

    /// <summary>What is wanted (mm, outboard positive).</summary>
    public required double WantedMm { get; init; }

    /// <summary>Turns to make, clockwise positive; of an offset step, steps, outboard positive.</summary>
    public double Turns { get; init; }

    /// <summary>Clicks of the same amount, or null when it turns freely.</summary>
    public int? Clicks { get; init; }

    /// <summary>What a clockwise turn or an outboard step does (mm, outboard positive), or null when unknown.</summary>
    public double? MmPerTurn { get; init; }

    /// <summary>What to expect after it (mm, outboard positive), or null when unknown.</summary>
    public double? ExpectedMm { get; init; }

    /// <summary>Whether the adjuster is not in the spec and the usual one was taken.</summary>
    public bool IsUsual { get; init; }

    /// <summary>Whether it was learnt that it acts the other way than its data says.</summary>
    public bool ActsOtherWay { get; init; }

    /// <summary>Whether the pulley is to move outboard, or inboard.</summary>
    public bool IsOutboard => WantedMm > ReadMm;
}

/// <summary>A turn of an adjuster between two readings of what it moves (mm, outboard positive).</summary>
/// <param name="BeforeMm">Read before.</param>
/// <param name="AfterMm">Read after.</param>
/// <param name="Turns">Turns made, clockwise positive.</param>
/// <param name="StandardUncertaintyMm">Standard uncertainty of the difference (mm).</param>
public sealed record AdjusterTrial(
    double BeforeMm,
    double AfterMm,
    double Turns,
    double StandardUncertaintyMm
)
{
    internal LearntTurn Learnt =>
        AdjusterCorrector.Learn(BeforeMm, AfterMm, Turns, StandardUncertaintyMm);

    /// <summary>
    /// What the reading teaches when a turn was made since the last reading of the same quantity; null without one.
    /// <paramref name="sign"/> is −1 where a greater reading means further inboard.
    /// </summary>
    internal static AdjusterTrial? Of(
        ImmutableArray<TakenReading> before,
        TakenReading taken,
        int sign
    ) =>
        taken.Turned is { } turns and not 0
        && before.LastOrDefault(r => r.Quantity == taken.Quantity) is { } last
            ? new(
                sign * last.Reading.Value,
                sign * taken.Reading.Value,
                turns,
                Quadrature.Combine(
                    last.Reading.StandardUncertainty,
                    taken.Reading.StandardUncertainty
                )
            )
            : null;
}
