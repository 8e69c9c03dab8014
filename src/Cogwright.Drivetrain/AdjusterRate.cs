namespace Cogwright.Drivetrain;

/// <summary>What one turn of a rear adjuster does to the guide pulley.</summary>
public static class AdjusterRate
{
    /// <summary>Movement of the guide pulley per clockwise turn (mm, outboard positive), or null when it is unknown.</summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="moves">What the adjuster moves: a rear stop, the cable's length or the offset step.</param>
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
                _ => null,
            };
        return ClockwiseIsOutboard(moves, adjuster) ? size : -size;
    }

    /// <summary>
    /// Whether a clockwise turn moves what is read outboard. Unless the part says otherwise: a stop screw turned in narrows
    /// the range, a barrel adjuster turned in slackens the cable, and an offset step counts outboard. Common practice.
    /// </summary>
    public static bool ClockwiseIsOutboard(Moves moves, Adjuster? adjuster) =>
        adjuster?.ClockwiseOutboard ?? moves is not Moves.RearOutboardStop;

    /// <summary>Lateral movement of the pulley per radian of swing at a cog (mm/rad), or null when the cog is out of reach.</summary>
    private static double? MmPerRad(DrivetrainSpec spec, int cog)
    {
        if (spec.RearDerailleur is not { } derailleur)
        {
            return null;
        }
        var reach = derailleur.LinkLengthMm * Math.Cos(derailleur.SlantRad);
        var sine =
            (derailleur.GuideLateralAtZeroMm - spec.Cogs.LateralMm(cog) - derailleur.IndexOffsetMm)
            / reach;
        return Math.Abs(sine) < 1 ? reach * Math.Sqrt(1 - (sine * sine)) : null;
    }
}
