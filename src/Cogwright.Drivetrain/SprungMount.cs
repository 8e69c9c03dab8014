namespace Cogwright.Drivetrain;

/// <summary>
/// A spring at the hanger bolt: the body turns about the bolt, pulled forward (anticlockwise from the drive side) by the
/// chain and rearward by the spring, so that its angle is another in every gear. Immutable.
/// </summary>
/// <remarks>
/// docs/theory/mounts-sprung.md. The screw turns the spring's anchor. A turn of the anchor is counted like the turn of the
/// body that the same screw makes on a fixed mount: <c>bodyAngleRad</c> wherever a solver takes one means the spec's own
/// angle plus that turn, and rearward (negative) winds the spring up.
/// </remarks>
/// <param name="RearRestRad">Body angle at the rearward rest, where the body lies against its tab (rad).</param>
/// <param name="ForwardLimitRad">Foremost body angle (rad).</param>
/// <param name="PreloadNm">Torque of the spring at the rearward rest, with the screw as the spec has it (N·m, turning the body rearward).</param>
/// <param name="RateNmPerRad">How much the torque grows as the body turns forward (N·m/rad, above 0).</param>
public sealed record SprungMount(
    double RearRestRad,
    double ForwardLimitRad,
    double PreloadNm,
    double RateNmPerRad
)
{
    /// <summary>What a turn of the screw adds to or takes from the torque (N·m per turn, above 0), or null when unknown.</summary>
    public double? ScrewNmPerTurn { get; init; }

    /// <summary>What a turn of the screw turns the spring's anchor by (rad per turn, above 0), or null when unknown.</summary>
    public double? ScrewRadPerTurn { get; init; }

    /// <summary>Torque that turns the body rearward (N·m).</summary>
    /// <param name="bodyAngleRad">Body angle (rad, against the hanger).</param>
    /// <param name="anchorTurnRad">How far the anchor has been turned forward from where the spec has it (rad).</param>
    public double TorqueNm(double bodyAngleRad, double anchorTurnRad = 0) =>
        PreloadNm + (RateNmPerRad * (bodyAngleRad - RearRestRad - anchorTurnRad));

    /// <summary>Turn of the anchor that a turn of the screw makes (rad, without sign), from what was stated here; else null.</summary>
    internal double? StatedRadPerTurn =>
        ScrewRadPerTurn ?? (ScrewNmPerTurn is { } torque ? torque / RateNmPerRad : null);
}

/// <summary>What holds the body of the rear derailleur at its angle.</summary>
public enum BodyRest
{
    /// <summary>A screw on a tab: no sprung mount.</summary>
    Fixed,

    /// <summary>Its spring and the chain balance.</summary>
    Balanced,

    /// <summary>It lies on its tab: the chain is not strong enough to lift it off.</summary>
    OnTab,

    /// <summary>It is at its forward limit: the chain is stronger than the spring.</summary>
    AtForwardLimit,
}
