namespace Cogwright.Drivetrain;

/// <summary>How the set-up of a body on the axle ended.</summary>
public enum BodySetUpStatus
{
    /// <summary>The cage stands at the mark.</summary>
    Set,

    /// <summary>With the body fully rearward the chain is still too long: the cage stands behind its mark.</summary>
    ChainTooLong,

    /// <summary>With the body fully forward the chain is already too short: the cage stands in front of its mark.</summary>
    ChainTooShort,

    /// <summary>The derailleur does not reach the set-up cog, or no body angle gives the chain a path there.</summary>
    NoPose,
}

/// <summary>What comes out of setting a body on the axle with one chain.</summary>
/// <param name="Status">How it ended.</param>
/// <param name="Gear">The gear in which it is set.</param>
/// <param name="BodyAngleRad">
/// The body angle (rad); where the mark is not reached, the end of the range that comes nearest. Always a number.
/// </param>
/// <param name="ChainOffMm">
/// How much too long the chain is for the mark (mm of chain, negative when too short), 0 when it is set or has no pose.
/// </param>
public readonly record struct BodySetUp(
    BodySetUpStatus Status,
    Gear Gear,
    double BodyAngleRad,
    double ChainOffMm
)
{
    /// <summary>Whether the cage stands at its mark.</summary>
    public bool IsSet => Status == BodySetUpStatus.Set;
}
