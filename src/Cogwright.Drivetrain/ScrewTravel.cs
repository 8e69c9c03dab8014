namespace Cogwright.Drivetrain;

/// <summary>How far an adjuster may still be turned, so that a correction never takes it out of its thread.</summary>
public static class ScrewTravel
{
    /// <summary>
    /// Least turns kept at the out end. <see cref="Adjuster.TurnsLeftOut"/> counts to where the screw leaves its thread, and
    /// a count of turns is no better than the least turn: the last one is not for adjusting. At the in end a screw merely
    /// stops, so all turns may be used there.
    /// </summary>
    public const int ReserveLeastTurns = 1;

    /// <summary>A room of exactly three clicks gives three, whatever the rounding (parts of a least turn).</summary>
    private const double Allowance = 1e-9;

    /// <summary>How far a screw may still be turned (turns, in whole least turns, never negative), or null when unknown.</summary>
    /// <param name="screw">The screw.</param>
    /// <param name="clockwise">Inward, to where it stops; else outward, where the last least turn is kept.</param>
    public static double? LeftTurns(Adjuster screw, bool clockwise)
    {
        ArgumentNullException.ThrowIfNull(screw);
        return Left(screw.LeastTurn, screw, clockwise, isCounted: false);
    }

    /// <summary>As much of the turns as the adjuster allows, in whole least turns, and whether that is less than asked.</summary>
    /// <param name="turns">Turns wanted, clockwise positive, in whole least turns.</param>
    /// <param name="leastTurn">The least turn.</param>
    /// <param name="adjuster">The adjuster, or null when the spec does not describe it.</param>
    /// <param name="isCounted">Whether its ends are counted steps and no thread: then nothing is kept.</param>
    internal static (double Turns, bool Ends) Within(
        double turns,
        double leastTurn,
        Adjuster? adjuster,
        bool isCounted = false
    )
    {
        if (turns == 0 || Left(leastTurn, adjuster, turns > 0, isCounted) is not { } most)
        {
            return (turns, false);
        }
        return Math.Abs(turns) > most * (1 + Allowance)
            ? (Math.Sign(turns) * most, true)
            : (turns, false);
    }

    private static double? Left(
        double leastTurn,
        Adjuster? adjuster,
        bool clockwise,
        bool isCounted
    )
    {
        var left =
            clockwise ? adjuster?.TurnsLeftIn
            : isCounted ? adjuster?.TurnsLeftOut
            : adjuster?.TurnsLeftOut - (ReserveLeastTurns * leastTurn);
        return left is { } room
            ? Math.Max(0, Math.Floor((room / leastTurn) + Allowance)) * leastTurn
            : null;
    }
}
