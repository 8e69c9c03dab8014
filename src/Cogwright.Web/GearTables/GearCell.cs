using Cogwright.Drawing;
using Cogwright.Drivetrain;

namespace Cogwright.Web.GearTables;

/// <summary>One gear as the table shows it. Immutable.</summary>
/// <param name="Gear">The gear.</param>
/// <param name="Mark">The shape.</param>
/// <param name="Words">What is the matter, in two or three words with its figure.</param>
/// <param name="Left">What is left of what is right: reserve of chain and chain angle; empty when nothing is.</param>
/// <param name="NotUsed">Whether the rider is told not to use it.</param>
public sealed record GearCell(Gear Gear, Mark Mark, string Words, string Left, bool NotUsed)
{
    /// <summary>Whether it refuses to work.</summary>
    public bool IsBad => Mark is Mark.Slack or Mark.Short or Mark.Clash or Mark.Unreachable;
}
