using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>What a cell of the gear table says at a glance.</summary>
internal enum Mark
{
    /// <summary>Taut, and nothing to look at.</summary>
    Taut,

    /// <summary>Taut, but a gap or a reserve is below the part's least.</summary>
    LookAt,

    /// <summary>The chain hangs.</summary>
    Slack,

    /// <summary>The chain is too short.</summary>
    Short,

    /// <summary>The guide pulley meets the cog.</summary>
    Clash,

    /// <summary>The cog is not reached.</summary>
    Unreachable,
}

/// <summary>The marks of the gear table: each a picture of what happens, none told apart by colour.</summary>
internal static class Marks
{
    private const double Half = 2;

    internal static Mark For(DrivetrainSpec spec, GearResult gear) =>
        gear.State switch
        {
            GearState.Slack => Mark.Slack,
            GearState.Short => Mark.Short,
            GearState.Clash => Mark.Clash,
            GearState.Unreachable => Mark.Unreachable,
            _ => spec.RearDerailleur is { } derailleur && IsBelowLeast(derailleur, gear)
                ? Mark.LookAt
                : Mark.Taut,
        };

    internal static string Words(Mark mark) =>
        mark switch
        {
            Mark.Taut => Texts.Get("table.taut"),
            Mark.LookAt => Texts.Get("table.lookAt"),
            Mark.Slack => Texts.Get("table.hangs"),
            Mark.Short => Texts.Get("table.short"),
            Mark.Clash => GearWords.State(GearState.Clash),
            Mark.Unreachable => Texts.Get("table.notReached"),
            _ => throw new ArgumentOutOfRangeException(nameof(mark)),
        };

    /// <summary>Draws a mark about a point.</summary>
    internal static void Draw(Sheet sheet, Mark mark, Point at)
    {
        switch (mark)
        {
            case Mark.Taut:
                // Two rollers with the chain straight between them.
                sheet.Line(at + new Point(-1.2, 0), at + new Point(1.2, 0), Stroke.Part);
                sheet.Circle(at + new Point(-Half, 0), 0.8, Stroke.Part);
                sheet.Circle(at + new Point(Half, 0), 0.8, Stroke.Part);
                break;
            case Mark.LookAt:
                sheet.Closed(
                    [(at.X - Half, at.Y - 1.6), (at.X + Half, at.Y - 1.6), (at.X, at.Y + 1.9)],
                    Stroke.Part
                );
                sheet.Line(at + new Point(0, 0.6), at + new Point(0, -0.9), Stroke.Part);
                break;
            case Mark.Slack:
                // The same two rollers, and the chain hanging between them.
                sheet.Circle(at + new Point(-Half, 0.8), 0.8, Stroke.Part);
                sheet.Circle(at + new Point(Half, 0.8), 0.8, Stroke.Part);
                sheet.Add(new Arc(at.X, at.Y + 0.4, Half, Math.PI, Math.PI, Stroke.Part));
                break;
            case Mark.Short:
                // Two ends that do not meet.
                sheet.Line(at + new Point(-Half - 0.6, 0), at + new Point(-0.7, 0), Stroke.Part);
                sheet.Line(at + new Point(0.7, 0), at + new Point(Half + 0.6, 0), Stroke.Part);
                sheet.Line(at + new Point(-0.7, -1.5), at + new Point(-0.7, 1.5), Stroke.Part);
                sheet.Line(at + new Point(0.7, -1.5), at + new Point(0.7, 1.5), Stroke.Part);
                break;
            case Mark.Clash:
                // Two wheels that overlap.
                sheet.Circle(at + new Point(-0.9, 0), 1.6, Stroke.Part);
                sheet.Circle(at + new Point(0.9, 0), 1.6, Stroke.Part);
                break;
            case Mark.Unreachable:
                // An arrow stopped by a wall.
                sheet.Line(at + new Point(-Half - 0.6, 0), at + new Point(0.9, 0), Stroke.Part);
                sheet.Line(at + new Point(-0.2, 1), at + new Point(0.9, 0), Stroke.Part);
                sheet.Line(at + new Point(-0.2, -1), at + new Point(0.9, 0), Stroke.Part);
                sheet.Line(
                    at + new Point(Half - 0.3, -1.8),
                    at + new Point(Half - 0.3, 1.8),
                    Stroke.Part
                );
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(mark));
        }
    }

    // A gap to the next cog that does not exist is NaN, and no NaN is below anything.
    private static bool IsBelowLeast(RearDerailleur derailleur, GearResult gear) =>
        gear.GapMm < derailleur.LeastGapMm
        || gear.GapToNextMm < derailleur.LeastGapMm
        || gear.TightMarginMm < derailleur.LeastMarginMm
        || gear.LooseMarginMm < derailleur.LeastMarginMm;
}
