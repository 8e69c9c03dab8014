using System.Collections.Immutable;

namespace Cogwright.Setup.Catalogue;

/// <summary>A reading of the hanger gauge.</summary>
/// <param name="ClockHours">Clock position seen from the drive side (hours): 12 up, 3 the front, 9 the rear.</param>
/// <param name="OutboardMm">How far outboard the tip stands of the rim (mm).</param>
/// <param name="StandardUncertaintyMm">Its standard uncertainty (mm).</param>
public readonly record struct ClockReading(
    double ClockHours,
    double OutboardMm,
    double StandardUncertaintyMm
);

/// <summary>What the model says of readings of the hanger gauge.</summary>
public enum HangerKind
{
    /// <summary>They tell how the hanger stands.</summary>
    Read,

    /// <summary>Three clock positions at least are needed.</summary>
    TooFew,

    /// <summary>The clock positions lie too near one another.</summary>
    TooClose,
}

/// <summary>Whether a hanger may be bent back. Common practice.</summary>
public enum HangerBending
{
    /// <summary>It may.</summary>
    Bend,

    /// <summary>It may, slowly, and counted.</summary>
    BendWithCare,

    /// <summary>It has been bent often enough.</summary>
    Replace,

    /// <summary>It springs back.</summary>
    SpringsBack,
}

/// <summary>What the hanger does in one gear (mm, outboard positive).</summary>
/// <param name="RingTeeth">Teeth of the ring.</param>
/// <param name="CogTeeth">Teeth of the cog.</param>
/// <param name="ShiftMm">How far the guide pulley is moved.</param>
/// <param name="LeftMm">What indexing cannot hide of it.</param>
/// <param name="GapChangeMm">Change of the gap against the smallest cog.</param>
public sealed record HangerInGear(
    int RingTeeth,
    int CogTeeth,
    double ShiftMm,
    double LeftMm,
    double GapChangeMm
);

/// <summary>How a hanger stands by one round of the gauge. Angles in degrees. Immutable.</summary>
public sealed record HangerFacts
{
    /// <summary>Whether the readings tell anything; if not, nothing else here holds.</summary>
    public required HangerKind Kind { get; init; }

    /// <summary>Lean (°): positive when the top stands outboard, so that the derailleur hangs inboard.</summary>
    public double LeanDeg { get; init; }

    /// <summary>Standard uncertainty of the lean (°).</summary>
    public double LeanUncertaintyDeg { get; init; }

    /// <summary>Toe (°): positive when the front stands outboard.</summary>
    public double ToeDeg { get; init; }

    /// <summary>Standard uncertainty of the toe (°).</summary>
    public double ToeUncertaintyDeg { get; init; }

    /// <summary>12 o'clock less 6 o'clock at the rim (mm).</summary>
    public double TopLessBottomMm { get; init; }

    /// <summary>3 o'clock (front) less 9 o'clock (rear) at the rim (mm).</summary>
    public double FrontLessRearMm { get; init; }

    /// <summary>Greatest difference between opposite clock positions (mm).</summary>
    public double GreatestDifferenceMm { get; init; }

    /// <summary>Its standard uncertainty (mm).</summary>
    public double GreatestDifferenceUncertaintyMm { get; init; }

    /// <summary>The clock position at which one pull outboard straightens both (hours).</summary>
    public double PullClockHours { get; init; }

    /// <summary>How far to pull there (mm at the rim).</summary>
    public double PullMm { get; init; }

    /// <summary>What each reading lies off the plane (mm), in the order of the readings.</summary>
    public ImmutableArray<double> ResidualsMm { get; init; } = [];

    /// <summary>Whether a residual is larger than the gauge explains.</summary>
    public bool IsDoubtful { get; init; }

    /// <summary>Radius at which the gauge met the rim (mm).</summary>
    public double GaugeRadiusMm { get; init; }

    /// <summary>Whether that radius was assumed.</summary>
    public bool GaugeRadiusAssumed { get; init; }

    /// <summary>Whether it may be bent.</summary>
    public HangerBending Bending { get; init; }

    /// <summary>How often it has been bent, or null when unknown.</summary>
    public int? Bends { get; init; }

    /// <summary>The cage's room to the spokes with the hanger as it stands and after a knock on top, in words, the nearest danger first.</summary>
    public ImmutableArray<string> RoomToSpokes { get; init; } = [];

    /// <summary>What indexing hides (mm, outboard positive).</summary>
    public double IndexedAwayMm { get; init; }

    /// <summary>What it does in each gear; empty when no gear has a taut chain.</summary>
    public ImmutableArray<HangerInGear> Gears { get; init; } = [];
}
