namespace Cogwright.Drivetrain;

/// <summary>What ends the way of a linkage from full extension to full travel.</summary>
internal enum LinkageEnd
{
    /// <summary>Full travel is reached.</summary>
    Reached,

    /// <summary>The loop of the four-bar comes apart: its upper link and coupler are too short, or too unequal.</summary>
    Opens,

    /// <summary>The axle stops rising, or the shock stops shortening.</summary>
    TurnsBack,

    /// <summary>The shock gets longer as the wheel rises.</summary>
    ShockLengthens,
}

/// <summary>How far a linkage can go.</summary>
/// <param name="End">What ended the way.</param>
/// <param name="FullTurnRad">Turn of the driving link at the end, signed (rad).</param>
/// <param name="TravelMm">Travel at the end (mm).</param>
internal readonly record struct LinkageRange(LinkageEnd End, double FullTurnRad, double TravelMm)
{
    /// <summary>Step of the way (rad): between two steps the links of a bicycle turn the wheel's path by far less than it bends.</summary>
    private const double StepRad = 0.25 * Math.PI / 180;

    /// <summary>No driving link of a bicycle turns farther (rad).</summary>
    private const double MostTurnRad = Math.PI;

    /// <summary>Goes from full extension in small steps until the travel is reached, and sees that it rises all the way.</summary>
    internal static LinkageRange Of(in LinkageMotion motion, double travelMm)
    {
        var rise = motion.RisePerRadMm();
        if (double.IsNaN(rise))
        {
            return new(LinkageEnd.Opens, 0, 0);
        }
        if (rise == 0)
        {
            return new(LinkageEnd.TurnsBack, 0, 0);
        }
        var sense = Math.Sign(rise);
        if (!(sense * motion.At(0).TravelPerRadMm > 0))
        {
            return new(LinkageEnd.ShockLengthens, 0, 0);
        }
        var reached = 0.0;
        var turn = 0.0;
        for (var step = 1; step * StepRad <= MostTurnRad; step++)
        {
            var next = sense * step * StepRad;
            var state = motion.At(next);
            if (state.Opens)
            {
                return new(LinkageEnd.Opens, turn, reached);
            }
            if (state.TravelMm >= travelMm)
            {
                return new(LinkageEnd.Reached, next, travelMm);
            }
            if (!(sense * state.TravelPerRadMm > 0) || state.TravelMm <= reached)
            {
                return new(LinkageEnd.TurnsBack, turn, reached);
            }
            reached = state.TravelMm;
            turn = next;
        }
        return new(LinkageEnd.TurnsBack, turn, reached);
    }
}
