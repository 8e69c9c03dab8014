using System.Collections.Immutable;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Drivetrain;

/// <summary>
/// The drivetrain of one bike as the model needs it: what a spec file says, with every angle in radians and
/// every length in millimetres. It is data only; <see cref="SpecCheck"/> says whether it makes sense.
/// Immutable.
/// </summary>
public sealed record DrivetrainSpec
{
    /// <summary>What the bike is called on every output.</summary>
    public required string Name { get; init; }

    /// <summary>The frame: where the rear axle stands.</summary>
    public required Frame Frame { get; init; }

    /// <summary>The tab that carries the rear derailleur; needed when there is a rear derailleur.</summary>
    public Hanger? Hanger { get; init; }

    /// <summary>The chainrings, in the order of the file (any order).</summary>
    public required ImmutableArray<Ring> Rings { get; init; }

    /// <summary>The rear cogs, smallest first.</summary>
    public required CogSet Cogs { get; init; }

    /// <summary>The chain.</summary>
    public required Chain Chain { get; init; }

    /// <summary>The rear derailleur, or none (single-speed).</summary>
    public RearDerailleur? RearDerailleur { get; init; }

    /// <summary>Gears that the rider is told not to use; they stay in the table and out of the chain choice.</summary>
    public ImmutableArray<Gear> GearsNotUsed { get; init; } = [];

    /// <summary>Values that nobody measured or stated: taken from a class of mechanism or from common practice.</summary>
    public ImmutableArray<Assumption> Assumptions { get; init; } = [];

    /// <summary>What is known sideways beyond the positions of rings and cogs: spokes, cage face, frame face; or null.</summary>
    public LateralData? Lateral { get; init; }

    /// <summary>What moves the rear derailleur from cog to cog, or null when the spec does not describe it.</summary>
    public Shifting? Shifting { get; init; }

    /// <summary>The adjusters beside the body-angle screw.</summary>
    public ImmutableArray<Adjuster> Adjusters { get; init; } = [];

    /// <summary>The idler in the upper run, or null when there is none.</summary>
    public Idler? Idler { get; init; }

    /// <summary>The front derailleur, or null when the spec does not describe it.</summary>
    public FrontDerailleur? FrontDerailleur { get; init; }

    /// <summary>What was measured on the bench in place of the parameters, or null; <see cref="BenchGeometry"/> reads it.</summary>
    public BenchMeasurements? Measured { get; init; }

    /// <summary>Values that <see cref="BenchGeometry"/> found from what was measured.</summary>
    public ImmutableArray<FittedValue> Fitted { get; init; } = [];

    /// <summary>Where a gear's ring and cog stand in the spec, or null when the bike has no such gear.</summary>
    internal (int Ring, int Cog)? IndicesOf(Gear gear)
    {
        var cog = Cogs.Teeth.IndexOf(gear.CogTeeth);
        for (var ring = 0; ring < Rings.Length; ring++)
        {
            if (Rings[ring].Teeth == gear.RingTeeth && cog >= 0)
            {
                return (ring, cog);
            }
        }
        return null;
    }

    /// <summary>
    /// From the rear axle to the bolt about which the rear derailleur's body turns (mm): the hanger's offset, or nothing
    /// when the derailleur sits on the axle. The one place that gives it.
    /// </summary>
    public Point BoltOffsetMm =>
        RearDerailleur?.Coaxial is null && Hanger is { } hanger ? hanger.OffsetMm : default;
}

/// <summary>One ring with one cog, by their numbers of teeth.</summary>
/// <param name="RingTeeth">Teeth of the ring.</param>
/// <param name="CogTeeth">Teeth of the cog.</param>
public readonly record struct Gear(int RingTeeth, int CogTeeth);

/// <summary>A value that was filled in because the spec does not give it.</summary>
/// <param name="Path">The field, as in the spec file, such as <c>rearDerailleur.slant</c>.</param>
/// <param name="Value">The value taken, with its unit, as a person would write it.</param>
/// <param name="From">Where it was taken from: the name of a class of mechanism, or <c>common practice</c>.</param>
public sealed record Assumption(string Path, string Value, string From);

/// <summary>The frame: where the rear axle stands, and how it moves when it is suspended.</summary>
public sealed record Frame
{
    /// <summary>Distance bottom-bracket axis to rear axle, along the chainstay (mm), fully extended.</summary>
    public required double ChainstayMm { get; init; }

    /// <summary>How far the bottom bracket lies below the line of the axles (mm; negative when above).</summary>
    public required double BottomBracketDropMm { get; init; }

    /// <summary>How far the axle can be moved rearward from <see cref="ChainstayMm"/> in its slots (mm, 0 for a fixed axle).</summary>
    public double AxleTravelMm { get; init; }

    /// <summary>How the rear end is suspended, or null when it is rigid.</summary>
    public Suspension? Suspension { get; init; }

    /// <summary>The travel at which gaps are set and read (mm): at sag; 0 when no sag is given, and for a rigid frame.</summary>
    public double SetUpTravelMm => Suspension?.SetUpTravelMm ?? 0;

    /// <summary>The rear axle: (−√(chainstay² − drop²), drop); of a suspended rear end when fully extended.</summary>
    public Point Axle =>
        new(
            -Math.Sqrt((ChainstayMm * ChainstayMm) - (BottomBracketDropMm * BottomBracketDropMm)),
            BottomBracketDropMm
        );
}

/// <summary>The tab that carries the rear derailleur.</summary>
/// <param name="OffsetMm">From the rear axle to the hanger bolt (mm, x forward, y up).</param>
public sealed record Hanger(Point OffsetMm)
{
    /// <summary>What it is made of: decides whether it may be bent back.</summary>
    public HangerMaterial Material { get; init; }

    /// <summary>How often it has been bent so far, or null when nobody knows.</summary>
    public int? Bends { get; init; }

    /// <summary>Radius at which the alignment gauge meets the rim (mm), or null when not measured.</summary>
    public double? GaugeRadiusMm { get; init; }
}

/// <summary>A chainring.</summary>
/// <param name="Teeth">Number of teeth.</param>
/// <param name="LateralMm">Lateral position of the middle of its teeth (mm, outboard of the bike's centre plane).</param>
/// <param name="TipDiameterMm">Measured over the tips of the teeth (mm), or null when unmeasured.</param>
public sealed record Ring(int Teeth, double LateralMm, double? TipDiameterMm = null);

/// <summary>The rear cogs, smallest first; the smallest is the outermost.</summary>
public sealed record CogSet
{
    /// <summary>Numbers of teeth, smallest cog first.</summary>
    public required ImmutableArray<int> Teeth { get; init; }

    /// <summary>Lateral position of the smallest cog (mm, outboard of the centre plane).</summary>
    public required double SmallestLateralMm { get; init; }

    /// <summary>Distance from cog to cog (mm, centre to centre); larger cogs lie inboard by this much each.</summary>
    public required double SpacingMm { get; init; }

    /// <summary>Measured tip diameters (mm), one per cog, null where unmeasured; empty when none is measured.</summary>
    public ImmutableArray<double?> TipDiametersMm { get; init; } = [];

    /// <summary>Lateral position of the cog with that index (mm; index 0 is the smallest cog).</summary>
    public double LateralMm(int index) => SmallestLateralMm - (index * SpacingMm);

    /// <summary>Measured tip diameter of the cog with that index (mm), or null.</summary>
    public double? TipDiameterMm(int index) =>
        index < TipDiametersMm.Length ? TipDiametersMm[index] : null;
}

/// <summary>The chain.</summary>
public sealed record Chain
{
    /// <summary>Its length in pitches (one pitch is one inner or one outer link), or null when still to be chosen.</summary>
    public int? Pitches { get; init; }

    /// <summary>Wear: elongation as a fraction (0.005 is half a percent).</summary>
    public double Elongation { get; init; }

    /// <summary>Its pitch with that wear (mm).</summary>
    public double PitchMm => Sprocket.PitchMm * (1 + Elongation);

    /// <summary>Whether an odd number of pitches is meant, with a cranked half link.</summary>
    public bool HalfLink { get; init; }
}

/// <summary>A rear derailleur; a screw on a tab holds its body unless another mount is given. Angles are anticlockwise positive from the drive side.</summary>
public sealed record RearDerailleur
{
    /// <summary>Body angle β about the hanger bolt (rad).</summary>
    public required double BodyAngleRad { get; init; }

    /// <summary>From the hanger bolt to the upper pivot of the parallelogram, at body angle 0 (mm).</summary>
    public required Point UpperPivotMm { get; init; }

    /// <summary>Length L of the parallelogram's links (mm).</summary>
    public required double LinkLengthMm { get; init; }

    /// <summary>Direction κ of the links in side view, at body angle 0 and swing 0 (rad).</summary>
    public required double LinkAngleRad { get; init; }

    /// <summary>Slant σ of the parallelogram (rad).</summary>
    public required double SlantRad { get; init; }

    /// <summary>Lateral position of the guide pulley at swing 0 (mm, outboard of the centre plane).</summary>
    public required double GuideLateralAtZeroMm { get; init; }

    /// <summary>The cage with its two pulleys.</summary>
    public required PulleyCage Cage { get; init; }

    /// <summary>Swing φ at which the outboard stop holds (rad), or null when not given. Outboard is negative.</summary>
    public double? OutboardStopRad { get; init; }

    /// <summary>Swing φ at which the inboard stop holds (rad), or null when not given. Inboard is positive.</summary>
    public double? InboardStopRad { get; init; }

    /// <summary>Where the guide pulley stands beside each cog (mm, outboard positive).</summary>
    public double IndexOffsetMm { get; init; }

    /// <summary>Least pulley-to-cog gap the part allows (mm, tooth tip to tooth tip).</summary>
    public double LeastGapMm { get; init; } = 2.0;

    /// <summary>Least reserve of chain at either end before it is a warning (mm of chain).</summary>
    public double LeastMarginMm { get; init; } = 3.0;

    /// <summary>The screw that sets the body angle, or null when the spec does not describe it.</summary>
    public Adjuster? BodyAngleScrew { get; init; }

    /// <summary>How it is clamped on the axle itself, or null when it hangs on a hanger. The body angle is then an outcome.</summary>
    public CoaxialMount? Coaxial { get; init; }

    /// <summary>Whether its springs pull inboard: with the cable slack it stands at the inboard stop. Cable only; see <see cref="CableSense"/>.</summary>
    public bool RestsInboard { get; init; }

    /// <summary>
    /// The spring at the hanger bolt, or null when the screw alone holds the body. With it
    /// <see cref="BodyAngleRad"/> is the angle at which the cage's stops were measured.
    /// </summary>
    public SprungMount? Sprung { get; init; }
}

/// <summary>The pulley cage, turning about the lower knuckle by the cage angle θ.</summary>
public sealed record PulleyCage
{
    /// <summary>The guide (upper) pulley.</summary>
    public required CagePulley Guide { get; init; }

    /// <summary>The tension (lower) pulley.</summary>
    public required CagePulley Tension { get; init; }

    /// <summary>The rearmost cage angle (rad) at the spec's own body angle; it moves with the body.</summary>
    public required double RearStopRad { get; init; }

    /// <summary>The foremost cage angle (rad) at the spec's own body angle; it moves with the body.</summary>
    public required double FrontStopRad { get; init; }

    /// <summary>The cage spring, or null when not given.</summary>
    public CageSpring? Spring { get; init; }

    /// <summary>The damper about the cage pivot, or null when there is none.</summary>
    public Damper? Damper { get; init; }

    /// <summary>Friction torque that resists the cage now (N·m): 0 without damper, and with it off.</summary>
    public double FrictionNm =>
        Damper is { } damper
            ? (damper.On ? damper.FrictionTorqueNm : 0)
            : Spring?.DamperTorqueNm ?? 0;

    /// <summary>Whether there is a damper, on or off.</summary>
    public bool HasDamper => Damper is not null || Spring is { DamperTorqueNm: > 0 };
}

/// <summary>A pulley of the cage.</summary>
/// <param name="OffsetMm">From the cage pivot, in the pose θ = 0 (mm).</param>
/// <param name="Teeth">Number of teeth.</param>
/// <param name="TipDiameterMm">Measured over the tips of the teeth (mm), or null when unmeasured.</param>
public sealed record CagePulley(Point OffsetMm, int Teeth, double? TipDiameterMm = null)
{
    /// <summary>Sideways play from end to end (mm), or null when unknown; it lets a guide pulley find its cog.</summary>
    public double? FloatMm { get; init; }
}

/// <summary>The spring that turns the cage rearward, and the damper that resists it.</summary>
/// <param name="TorqueAtRearStopNm">Torque at the rear stop (N·m).</param>
/// <param name="RateNmPerRad">How much the torque grows as the cage swings forward (N·m/rad).</param>
/// <param name="DamperTorqueNm">
/// Friction torque of the damper when it is on (N·m), 0 when none or off; the older way to say what
/// <see cref="PulleyCage.Damper"/> says, kept for older files.
/// </param>
public sealed record CageSpring(
    double TorqueAtRearStopNm,
    double RateNmPerRad,
    double DamperTorqueNm = 0
)
{
    /// <summary>Torque that turns the cage rearward (N·m) when it stands so far forward of its rear stop (rad).</summary>
    public double TorqueNm(double fromRearStopRad) =>
        TorqueAtRearStopNm + (RateNmPerRad * fromRearStopRad);
}

/// <summary>What an adjuster moves.</summary>
public enum Moves
{
    /// <summary>The body angle of the rear derailleur, and with it the pulley-to-cog gap.</summary>
    BodyAngle,

    /// <summary>The rear derailleur's outboard stop.</summary>
    RearOutboardStop,

    /// <summary>The rear derailleur's inboard stop.</summary>
    RearInboardStop,

    /// <summary>The length of the shift cable.</summary>
    CableLength,

    /// <summary>The offset step of a motor-driven derailleur.</summary>
    OffsetStep,

    /// <summary>The front derailleur's outboard stop.</summary>
    FrontOutboardStop,

    /// <summary>The front derailleur's inboard stop.</summary>
    FrontInboardStop,

    /// <summary>The height of the front derailleur; what counts as outboard elsewhere counts as up here.</summary>
    FrontHeight,

    /// <summary>The length of the front shift cable.</summary>
    FrontCableLength,

    /// <summary>The screw that supports the front derailleur against the frame and turns its tail.</summary>
    FrontSupport,
}

/// <summary>A screw or a step that sets something. Data, not code: what it does comes from the part.</summary>
public sealed record Adjuster
{
    /// <summary>What a mechanic calls it, such as "body-angle screw".</summary>
    public required string Name { get; init; }

    /// <summary>What it moves.</summary>
    public required Moves Moves { get; init; }

    /// <summary>The tool that turns it, or null.</summary>
    public string? Tool { get; init; }

    /// <summary>Thread pitch (mm per turn), or null when unknown.</summary>
    public double? ThreadPitchMm { get; init; }

    /// <summary>Distance from the axis it turns the part about to its point of contact (mm), or null when unknown.</summary>
    public double? LeverRadiusMm { get; init; }

    /// <summary>Turns left before it is fully in (clockwise), or null when unknown.</summary>
    public double? TurnsLeftIn { get; init; }

    /// <summary>Turns left before it leaves its thread (anticlockwise), or null when unknown.</summary>
    public double? TurnsLeftOut { get; init; }

    /// <summary>Whether turning it clockwise makes the gap larger (the usual way), or smaller (reverse-acting).</summary>
    public bool ClockwiseWidensGap { get; init; } = true;

    /// <summary>The least turn a hand can do (turns).</summary>
    public double LeastTurn { get; init; } = 0.25;

    /// <summary>What a turn moves the part that is read (mm, never negative), or null to go by pitch and lever.</summary>
    public double? MmPerTurn { get; init; }

    /// <summary>Clicks in a turn, or null when it turns freely.</summary>
    public int? ClicksPerTurn { get; init; }

    /// <summary>Whether clockwise moves the part that is read outboard, or inboard; null for the usual way of its kind.</summary>
    public bool? ClockwiseOutboard { get; init; }
}
