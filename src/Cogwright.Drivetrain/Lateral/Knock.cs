namespace Cogwright.Drivetrain;

/// <summary>A knock that bends the hanger inward: the derailleur turns about a fore-and-aft line through the bolt.</summary>
/// <param name="Size">How large: mm inward at the guide pulley, or an angle (rad), as <paramref name="IsAngle"/> says.</param>
/// <param name="IsAngle">Whether <paramref name="Size"/> is an angle (rad).</param>
public readonly record struct Knock(double Size, bool IsAngle = false)
{
    /// <summary>
    /// The knock that margins are told for when nobody names one (mm inward at the guide pulley). A choice of this
    /// program, not of the trade: about what a bike that falls on its drive side does to a soft hanger.
    /// </summary>
    public const double UsualMm = 3;

    /// <summary>The usual knock.</summary>
    public static Knock Usual { get; } = new(UsualMm);

    /// <summary>The lean that it adds (rad), with the guide pulley so far below the bolt (mm, positive below).</summary>
    /// <remarks>A pulley at the bolt's height or above is not moved inward by a lean: the angle is then taken per 10 mm.</remarks>
    public double LeanRad(double guideBelowBoltMm) =>
        IsAngle ? Size : Size / LeverMm(guideBelowBoltMm);

    /// <summary>The lever that mm inward at the guide pulley are taken over (mm), by how far the pulley hangs below the bolt.</summary>
    internal static double LeverMm(double guideBelowBoltMm) =>
        Math.Max(guideBelowBoltMm, LeastLeverMm);

    /// <summary>Shortest lever that a knock is spread over (mm); derailleurs hang at least three times as far down.</summary>
    private const double LeastLeverMm = 10;
}
