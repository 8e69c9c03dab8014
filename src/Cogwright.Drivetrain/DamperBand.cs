namespace Cogwright.Drivetrain;

/// <summary>
/// What friction about the cage pivot does to one gear: the chain holds anything between the tension at which the cage
/// is just drawn forward and the one at which it just returns. Immutable.
/// </summary>
/// <remarks>docs/theory/mounts-sprung.md: T = (τ ± τ_f)/lever.</remarks>
/// <param name="ForwardN">Tension of the lower run at which the cage is drawn forward (N); NaN when there is none to speak of.</param>
/// <param name="ReturningN">Tension at which the cage returns (N): 0 when it does not return by itself.</param>
/// <param name="Returns">Whether the spring outdoes the friction, so that the cage returns by itself.</param>
public readonly record struct DamperBand(double ForwardN, double ReturningN, bool Returns)
{
    /// <summary>Gap after the cage was drawn forward (mm); on a fixed mount the gap itself.</summary>
    public double GapForwardMm { get; init; }

    /// <summary>Gap after the cage returned (mm); on a fixed mount the gap itself; NaN when it has none there.</summary>
    public double GapReturningMm { get; init; }

    /// <summary>Body angle after the cage was drawn forward (rad).</summary>
    public double BodyForwardRad { get; init; }

    /// <summary>Body angle after the cage returned (rad).</summary>
    public double BodyReturningRad { get; init; }

    /// <summary>The band of a gear; null when no damper is on, no spring is known, or the chain is not taut.</summary>
    public static DamperBand? Of(GearTable table, in GearResult gear)
    {
        ArgumentNullException.ThrowIfNull(table);
        if (
            !gear.HasPose
            || table.Spec.RearDerailleur is not { Cage.Spring: { } spring } derailleur
            || derailleur.Cage.FrictionNm is not (> 0 and var friction)
        )
        {
            return null;
        }
        if (derailleur.Sprung is { } mount)
        {
            var forward = GearTableSolver.AgainstFriction(table, derailleur, mount, gear, friction);
            var back = GearTableSolver.AgainstFriction(table, derailleur, mount, gear, -friction);
            return new(
                forward.LowerRunTensionN,
                back.HasPose ? back.LowerRunTensionN : 0,
                back is { HasPose: true, LowerRunTensionN: > 0 }
            )
            {
                GapForwardMm = forward.GapMm,
                GapReturningMm = back.GapMm,
                BodyForwardRad = forward.BodyAngleRad,
                BodyReturningRad = back.BodyAngleRad,
            };
        }
        var rearStop =
            derailleur.Cage.RearStopRad
            + gear.BodyAngleRad
            - derailleur.BodyAngleRad
            + table.AxlePose.RotationRad;
        var torque = spring.TorqueNm(gear.CageAngleRad - rearStop);
        // From the lever, not from the tension: a spring may be without torque and the friction still hold.
        var lever = GearTableSolver.TensionLeverM(table, derailleur, gear);
        var perTorque = lever > 0 ? 1 / lever : double.NaN;
        return new(
            perTorque * (torque + friction),
            torque > friction ? perTorque * (torque - friction) : 0,
            torque > friction
        )
        {
            GapForwardMm = gear.GapMm,
            GapReturningMm = gear.GapMm,
            BodyForwardRad = gear.BodyAngleRad,
            BodyReturningRad = gear.BodyAngleRad,
        };
    }
}
