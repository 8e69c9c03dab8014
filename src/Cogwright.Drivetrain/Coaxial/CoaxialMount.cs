namespace Cogwright.Drivetrain;

/// <summary>
/// A derailleur that is clamped on the rear axle itself: no hanger, no stop screws, no body-angle screw. With the chain on
/// the set-up cog it is pulled rearward until its cage stands at the part's mark; then the axle is tightened. The body
/// angle is what comes out of that. Immutable.
/// </summary>
/// <remarks>Model and symbols: docs/theory/mounts-coaxial.md.</remarks>
public sealed record CoaxialMount
{
    /// <summary>The cog on which the body is set, by its teeth.</summary>
    public required int SetUpCogTeeth { get; init; }

    /// <summary>The ring on which the body is set, by its teeth; the smallest ring when null.</summary>
    public int? SetUpRingTeeth { get; init; }

    /// <summary>
    /// Where the cage stands at the part's mark (rad): the cage angle less the turn of the body from the spec's own body
    /// angle, so that it says how the cage stands against the body, like the cage's stops.
    /// </summary>
    public required double CageAtSetUpRad { get; init; }

    /// <summary>How far the body can be turned on the axle, or null for <see cref="CoaxialSetUp.UsualRangeRad"/> either way of the spec's body angle.</summary>
    public BodyRange? BodyRange { get; init; }

    /// <summary>The gear in which the body is set.</summary>
    public Gear SetUpGear(DrivetrainSpec spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (SetUpRingTeeth is { } teeth)
        {
            return new(teeth, SetUpCogTeeth);
        }
        var smallest = spec.Rings[0].Teeth;
        foreach (var ring in spec.Rings)
        {
            smallest = Math.Min(smallest, ring.Teeth);
        }
        return new(smallest, SetUpCogTeeth);
    }
}

/// <summary>How far a body can be turned on the axle (rad, anticlockwise seen from the drive side).</summary>
/// <param name="LeastRad">The rearmost body angle.</param>
/// <param name="MostRad">The foremost body angle.</param>
public readonly record struct BodyRange(double LeastRad, double MostRad);
