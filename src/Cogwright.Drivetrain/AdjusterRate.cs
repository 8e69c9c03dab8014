namespace Cogwright.Drivetrain;

/// <summary>What one turn of an adjuster does to the guide pulley, or to the front cage.</summary>
public static class AdjusterRate
{
    /// <summary>Movement of the guide pulley or the front cage per clockwise turn (mm, outboard positive; height: up positive), or null when it is unknown.</summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="moves">What the adjuster moves: anything but the body angle.</param>
    /// <param name="adjuster">The adjuster, or null when the spec does not describe it.</param>
    /// <remarks>
    /// A stop screw turns the swing by pitch/lever, and the pulley stands at z₀ − L sin φ cos σ, so a turn moves it by
    /// L cos φ cos σ · pitch/lever, with φ at the end cog. A barrel adjuster moves the cable by its pitch and the pulley by
    /// pitch × shift ratio. What the part states per turn wins.
    /// </remarks>
    public static double? MmPerTurn(DrivetrainSpec spec, Moves moves, Adjuster? adjuster)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var size =
            adjuster?.MmPerTurn
            ?? moves switch
            {
                Moves.OffsetStep => spec.Shifting?.OffsetStepMm,
                Moves.CableLength => adjuster?.ThreadPitchMm * spec.Shifting?.ShiftRatio,
                Moves.RearOutboardStop => adjuster?.ThreadPitchMm
                    / adjuster?.LeverRadiusMm
                    * MmPerRad(spec, 0),
                Moves.RearInboardStop => adjuster?.ThreadPitchMm
                    / adjuster?.LeverRadiusMm
                    * MmPerRad(spec, spec.Cogs.Teeth.Length - 1),
                _ => FrontMmPerTurn(spec, moves, adjuster),
            };
        return ClockwiseIsOutboard(spec, moves, adjuster) ? size : -size;
    }

    /// <summary>
    /// The same for a bike: a cable that is slackened lets a rear derailleur go where its springs pull it, which is inboard
    /// on some (<see cref="CableSense"/>). What the part says of its adjuster wins.
    /// </summary>
    public static bool ClockwiseIsOutboard(DrivetrainSpec spec, Moves moves, Adjuster? adjuster) =>
        adjuster?.ClockwiseOutboard is null && moves is Moves.CableLength
            ? CableSense.OutboardPerPull(spec) < 0
            : ClockwiseIsOutboard(moves, adjuster);

    /// <summary>An adjuster of a bike that says itself which way clockwise moves what is read.</summary>
    public static Adjuster Resolved(DrivetrainSpec spec, Adjuster adjuster)
    {
        ArgumentNullException.ThrowIfNull(adjuster);
        return adjuster with
        {
            ClockwiseOutboard = ClockwiseIsOutboard(spec, adjuster.Moves, adjuster),
        };
    }

    /// <summary>
    /// Whether a clockwise turn moves what is read outboard, on a derailleur whose springs pull outboard. Unless the part says otherwise: a stop screw turned in narrows
    /// the range, a barrel adjuster turned in slackens the cable (which lets the rear pulley move outboard and the front
    /// cage inboard), an offset step counts outboard and a height screw lifts. Common practice.
    /// </summary>
    public static bool ClockwiseIsOutboard(Moves moves, Adjuster? adjuster) =>
        adjuster?.ClockwiseOutboard
        ?? moves
            is not (Moves.RearOutboardStop or Moves.FrontOutboardStop or Moves.FrontCableLength);

    /// <summary>
    /// Way of the front cage per turn (mm, never negative): a stop screw turns the link by pitch/lever at the place where
    /// the stop stands; a screw for the height lifts by its pitch; a barrel adjuster moves the cable by its pitch.
    /// </summary>
    private static double? FrontMmPerTurn(DrivetrainSpec spec, Moves moves, Adjuster? adjuster)
    {
        if (spec.FrontDerailleur is not { } derailleur || spec.Rings.Length < 2)
        {
            return null;
        }
        var swing = new CageSwing(spec, derailleur);
        var angle = adjuster?.ThreadPitchMm / adjuster?.LeverRadiusMm;
        return moves switch
        {
            Moves.FrontOutboardStop => angle
                * swing.MmPerRad(derailleur.OutboardStopMm ?? swing.AboveRingMm),
            Moves.FrontInboardStop => angle
                * swing.MmPerRad(derailleur.InboardStopMm ?? swing.AboveRingMm),
            Moves.FrontHeight => adjuster?.ThreadPitchMm,
            Moves.FrontCableLength => adjuster?.ThreadPitchMm * derailleur.CableRatio,
            _ => null,
        };
    }

    /// <summary>Lateral movement of the pulley per radian of swing at a cog (mm/rad), or null when the cog is out of reach.</summary>
    private static double? MmPerRad(DrivetrainSpec spec, int cog)
    {
        if (spec.RearDerailleur is not { } derailleur)
        {
            return null;
        }
        var swing = StopReach.SwingRadAt(
            derailleur.GuideLateralAtZeroMm,
            derailleur.LinkLengthMm,
            derailleur.SlantRad,
            spec.Cogs.LateralMm(cog) + derailleur.IndexOffsetMm
        );
        // Swung out to its very end a turn moves the pulley by nothing, which is no rate to reckon with.
        return swing is { } at && Math.Abs(at) < Math.PI / 2
            ? derailleur.LinkLengthMm * Math.Cos(derailleur.SlantRad) * Math.Cos(at)
            : null;
    }
}
