namespace Cogwright.Drivetrain;

/// <summary>How to bend a hanger straight, as movements of the gauge's tip at the rim. Immutable.</summary>
/// <param name="TopMm">How far the tip moves at 12 o'clock (mm, outboard positive); as far the other way at 6 o'clock.</param>
/// <param name="FrontMm">How far the tip moves at 3 o'clock, the front (mm, outboard positive); as far the other way at 9 o'clock.</param>
/// <param name="PullOutboardHours">The one clock position at which pulling the tip outboard takes out both (hours).</param>
/// <param name="PullMm">How far to pull it there (mm, never negative).</param>
/// <remarks>
/// Half of the difference between opposite positions: what is taken at one is given at the other. Metal springs back, so
/// the hand goes further and the gauge decides.
/// </remarks>
public sealed record HangerBend(
    double TopMm,
    double FrontMm,
    double PullOutboardHours,
    double PullMm
)
{
    /// <summary>What brings the plane parallel to the wheel.</summary>
    public static HangerBend Of(HangerPlane plane)
    {
        ArgumentNullException.ThrowIfNull(plane);
        var opposite = plane.MostOutboardHours + 6;
        return new(
            -plane.TopLessBottomMm / 2,
            -plane.FrontLessRearMm / 2,
            opposite > 12 ? opposite - 12 : opposite,
            plane.GreatestDifferenceMm / 2
        );
    }
}
