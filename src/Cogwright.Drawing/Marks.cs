using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>What a cell of the gear table says at a glance.</summary>
public enum Mark
{
    /// <summary>Taut, and nothing to look at.</summary>
    Taut,

    /// <summary>Taut, but a gap or a reserve is below the part's least.</summary>
    LookAt,

    /// <summary>Taut, but the chain rubs on the next larger ring or the front cage.</summary>
    Rubs,

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
public static class Marks
{
    private const double Half = 2;

    internal static Mark For(DrivetrainSpec spec, GearResult gear, Rubbing rubs = default) =>
        gear.State switch
        {
            GearState.Slack => Mark.Slack,
            GearState.Short => Mark.Short,
            GearState.Clash => Mark.Clash,
            GearState.Unreachable => Mark.Unreachable,
            _ when rubs.Any => Mark.Rubs,
            _ => Reason(spec, gear) is null ? Mark.Taut : Mark.LookAt,
        };

    /// <summary>The mark in words; of a gear to look at, why.</summary>
    internal static string Words(
        Mark mark,
        DrivetrainSpec spec,
        GearResult gear,
        Rubbing rubs = default
    ) =>
        mark switch
        {
            // With both there is no room for more words in the cell.
            Mark.Rubs => rubs is not { Ring: true, Cage: true } && Reason(spec, gear) is { } reason
                ? $"{GearWords.Rubs(rubs)}, {reason}"
                : GearWords.Rubs(rubs),
            Mark.Taut => Texts.Get("table.taut"),
            Mark.LookAt => Reason(spec, gear) ?? GearWords.State(gear.State),
            Mark.Slack => Texts.Get("table.hangs"),
            Mark.Short => Texts.Get("table.short"),
            Mark.Clash => GearWords.State(GearState.Clash),
            Mark.Unreachable => Texts.Get("table.notReached"),
            _ => throw new ArgumentOutOfRangeException(nameof(mark)),
        };

    /// <summary>A mark about the origin (mm, upwards positive; within 3 mm of it), for a screen that draws it itself.</summary>
    public static ImmutableArray<Shape> Shapes(Mark mark)
    {
        var sheet = new Sheet(1);
        Draw(sheet, mark, new(0, 0));
        return [.. sheet.Shapes];
    }

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
            case Mark.Rubs:
                // A roller of the chain against a plate.
                sheet.Line(at + new Point(-1, -1.9), at + new Point(-1, 1.9), Stroke.Part);
                sheet.Circle(at + new Point(0, 0), 1, Stroke.Part);
                sheet.Line(at + new Point(1, 0), at + new Point(Half + 0.6, 0), Stroke.Part);
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

    /// <summary>What is below the part's least, the gap to the cog in use first; null when nothing is.</summary>
    private static string? Reason(DrivetrainSpec spec, GearResult gear)
    {
        if (spec.RearDerailleur is not { } derailleur)
        {
            return null;
        }
        // What does not exist is NaN here, and no NaN is below anything.
        return gear.GapMm < derailleur.LeastGapMm ? Texts.Get("table.smallGap")
            : gear.GapToNextMm < Math.Min(0, derailleur.LeastGapMm)
                ? Texts.Get("table.nextCogOverlap", GearWords.Signed(-gear.GapToNextMm, "0.0"))
            : gear.GapToNextMm < derailleur.LeastGapMm
                ? Texts.Get("table.nextCog", GearWords.Signed(gear.GapToNextMm, "0.0"))
            : gear.TightMarginMm < derailleur.LeastMarginMm ? Texts.Get("table.littleTight")
            : gear.LooseMarginMm < derailleur.LeastMarginMm ? Texts.Get("table.littleLoose")
            : null;
    }
}
