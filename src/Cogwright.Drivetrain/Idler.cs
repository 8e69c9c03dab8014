namespace Cogwright.Drivetrain;

/// <summary>What an idler is mounted on.</summary>
public enum IdlerMount
{
    /// <summary>The frame: it keeps its distance to the bottom bracket.</summary>
    Frame,

    /// <summary>The member that carries the rear axle: it moves and turns with it.</summary>
    Member,
}

/// <summary>A sprocket that leads the upper run of the chain between cog and ring, as on frames with a high pivot.</summary>
/// <param name="CentreMm">Its axis (mm, from the bottom-bracket axis), with the suspension fully extended.</param>
/// <param name="Teeth">Number of teeth.</param>
/// <param name="On">What it is mounted on.</param>
/// <param name="ChainUnder">Whether the chain runs under it, so that it turns backward; usually it runs over it.</param>
/// <param name="LateralMm">Lateral position of the middle of its teeth (mm, outboard), or null when it lies in line with the ring.</param>
public sealed record Idler(
    Point CentreMm,
    int Teeth,
    IdlerMount On = IdlerMount.Frame,
    bool ChainUnder = false,
    double? LateralMm = null
)
{
    /// <summary>The idler as a sprocket of the chain path, with the suspension fully extended.</summary>
    public OrientedSprocket Extended => new(CentreMm, Teeth, ChainUnder ? -1 : 1);

    /// <summary>The idler as a sprocket of the chain path.</summary>
    /// <param name="rearEnd">The rear end of the same frame.</param>
    /// <param name="pose">The pose of its axle.</param>
    public OrientedSprocket At(in RearEnd rearEnd, in AxlePose pose) =>
        On == IdlerMount.Member
            ? Extended with
            {
                Centre = rearEnd.Carried(CentreMm, pose),
            }
            : Extended;

    /// <summary>Lateral position of the middle of its teeth with the chain on a ring (mm, outboard).</summary>
    public double LateralBeside(Ring ring)
    {
        ArgumentNullException.ThrowIfNull(ring);
        return LateralMm ?? ring.LateralMm;
    }
}
