namespace Cogwright.Drivetrain;

/// <summary>Angles brought into one turn.</summary>
internal static class TurnFraction
{
    /// <summary>The angle (rad) brought into [0, 2π).</summary>
    internal static double Wrapped(double angleRad) =>
        angleRad - (Math.Tau * Math.Floor(angleRad / Math.Tau));
}
