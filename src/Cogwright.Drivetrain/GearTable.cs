using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>What can be said of a gear beyond its state; each is worth a look, none of them refuses the gear.</summary>
public enum FindingKind
{
    /// <summary>The gap to the cog in use is below the part's least.</summary>
    GapBelowLeast,

    /// <summary>The gap to the next larger cog is below the part's least.</summary>
    GapToNextBelowLeast,

    /// <summary>Little chain is left before the gear is too short.</summary>
    LittleTightMargin,

    /// <summary>Little chain is left before the chain hangs.</summary>
    LittleLooseMargin,

    /// <summary>The gear's state is not ok.</summary>
    State,

    /// <summary>The chain rubs on the next larger ring; the value is the clearance, negative by as much as it overlaps.</summary>
    RubsNextRing,

    /// <summary>The gear is ok where it was solved, and too short elsewhere in the travel.</summary>
    ShortInTravel,

    /// <summary>The gear is ok where it was solved, and the chain hangs elsewhere in the travel.</summary>
    SlackInTravel,

    /// <summary>The chain rubs on the front cage in every position that the shifter has; the value is the most room there is.</summary>
    RubsFrontCage,

    /// <summary>A derailleur on the axle cannot be set: the chain is too long for its mark; the value is by how much.</summary>
    ChainTooLongForMark,

    /// <summary>A derailleur on the axle cannot be set: the chain is too short for its mark; the value is by how much.</summary>
    ChainTooShortForMark,

    /// <summary>A derailleur on the axle cannot be set: it has no pose on the set-up cog.</summary>
    SetUpCogNotReached,

    /// <summary>A sprung body is at its forward limit; there is no length to it.</summary>
    BodyAtForwardLimit,

    /// <summary>The damper outdoes the cage's spring: the cage does not return by itself; there is no length to it.</summary>
    CageDoesNotReturn,
}

/// <summary>One finding in one gear.</summary>
/// <param name="Gear">The gear.</param>
/// <param name="Kind">What was found.</param>
/// <param name="ValueMm">The value that is out of bounds (mm); NaN where no length says it.</param>
/// <param name="LimitMm">The bound (mm); of what happens elsewhere in the travel, that travel (mm); NaN where no length says it.</param>
/// <param name="NotUsed">Whether the spec already lists the gear as not to be used.</param>
public readonly record struct Finding(
    Gear Gear,
    FindingKind Kind,
    double ValueMm,
    double LimitMm,
    bool NotUsed
);

/// <summary>All gears with what is true of each, for one chain length and one body angle. Immutable.</summary>
/// <param name="Spec">The spec it was made from.</param>
/// <param name="Pitches">The chain it was solved with (pitches).</param>
/// <param name="BodyAngleRad">
/// The body angle it was solved with (rad); the spec's own unless changed. With a sprung mount, the spec's own plus the
/// turn of the spring's anchor; the body's angle is then in each gear.
/// </param>
/// <param name="Gears">Ring by ring in the spec's order, each from the smallest cog to the largest.</param>
public sealed record GearTable(
    DrivetrainSpec Spec,
    int Pitches,
    double BodyAngleRad,
    ImmutableArray<GearResult> Gears
)
{
    /// <summary>The travel of the rear end that it was solved at (mm); 0 for a rigid frame.</summary>
    public double TravelMm { get; init; }

    /// <summary>Where the rear axle stands at that travel, and how far the member that carries it has turned.</summary>
    public AxlePose AxlePose { get; init; } = new(Spec.Frame.Axle, 0);

    /// <summary>The idler where it stands at that travel, or null when there is none.</summary>
    public OrientedSprocket? Idler { get; init; } = Spec.Idler?.Extended;

    /// <summary>Axle and idler together, as the solver takes them.</summary>
    internal RearPlace Place => new(AxlePose, Idler);

    /// <summary>
    /// How the body came to its angle when the derailleur sits on the axle and no body angle was asked for; else null.
    /// </summary>
    public BodySetUp? SetUp { get; init; }

    /// <summary>Torque of a sprung mount at its rearward rest with the screw as it was solved (N·m); null without such a mount.</summary>
    public double? PreloadNm =>
        Spec.RearDerailleur is { Sprung: { } mount } derailleur
            ? mount.TorqueNm(mount.RearRestRad, BodyAngleRad - derailleur.BodyAngleRad)
            : null;

    /// <summary>The gear with these numbers of teeth, or null when the bike has none such.</summary>
    public GearResult? Find(Gear gear)
    {
        foreach (var result in Gears)
        {
            if (result.Gear == gear)
            {
                return result;
            }
        }
        return null;
    }
}
