using System.Collections.Immutable;

namespace Cogwright.Setup;

/// <summary>What moves the derailleurs.</summary>
public enum Actuation
{
    /// <summary>A shift cable.</summary>
    Cable,

    /// <summary>Motors fed by wire.</summary>
    MotorWired,

    /// <summary>Motors with their own batteries, paired by radio.</summary>
    MotorWireless,

    /// <summary>Nothing shifts: single-speed.</summary>
    None,
}

/// <summary>
/// What a spec says about the work, beside the mechanism: how it is shifted, which fasteners there are and which
/// targets the parts' makers give. Immutable.
/// </summary>
public sealed record WorkSpec
{
    /// <summary>What moves the derailleurs.</summary>
    public Actuation Actuation { get; init; } = Actuation.Cable;

    /// <summary>Whether there is a front derailleur.</summary>
    public bool FrontDerailleur { get; init; }

    /// <summary>Whether the bike has a motor assisting the rider (the battery comes out before work).</summary>
    public bool Assisted { get; init; }

    /// <summary>Fasteners whose torque the spec gives; the others take the trade's range.</summary>
    public ImmutableArray<TorqueSpec> Torques { get; init; } = [];

    /// <summary>The gap that the derailleur's maker asks for, or null to take common practice.</summary>
    public GapTarget? Gap { get; init; }
}

/// <summary>A torque that the spec gives for a fastener.</summary>
/// <param name="Fastener">Which fastener, by one of the names in <see cref="Fasteners"/>.</param>
/// <param name="LowerNm">Least torque (N·m).</param>
/// <param name="UpperNm">Greatest torque (N·m).</param>
/// <param name="Tool">Tool, or null.</param>
public sealed record TorqueSpec(
    string Fastener,
    double LowerNm,
    double UpperNm,
    string? Tool = null
);

/// <summary>The gap asked for, with what makes it comparable.</summary>
/// <param name="RingTeeth">Ring on which the chain lies.</param>
/// <param name="CogTeeth">Cog on which the chain lies and to which is measured.</param>
/// <param name="ValueMm">The gap (mm, tooth tip to tooth tip).</param>
/// <param name="ToleranceMm">Tolerance either way (mm).</param>
public sealed record GapTarget(int RingTeeth, int CogTeeth, double ValueMm, double ToleranceMm);
