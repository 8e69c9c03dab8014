using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// Moves and looks without a number that follow one another: a box to tick each, one box of initials for all. The small
/// print stands behind the words where it fits; short ones may share a line.
/// </summary>
internal sealed class TickGroup(ImmutableArray<Target> targets) : Block
{
    private const double Gap = 1.6;
    private const double TickWidth = 14.5;

    // Words that almost fit on one line are set smaller by this much at most (pt), rather than broken.
    private const double MostShrunk = 1.5;
    private const double LeastPt = 9;
    private const double Apart = 5;
    private const double BetweenItems = 12;
    private static readonly double LeastHeight = Points.FromMm(5);

    private sealed record Item(
        Target Target,
        double Left,
        double Top,
        double Width,
        double SizePt,
        List<string> Title,
        List<string> Small,
        bool SmallBehind
    );

    /// <inheritdoc/>
    internal override string Name => "ticks:" + targets[0].Id;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Math.Max(Lay(setting, widthPt).Height + Gap, LeastHeight);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var size = setting.Density.TickPt;
        var line = Setting.Line(size);
        var square = Math.Min(size, 11);
        foreach (var item in Lay(setting, box.Width).Items)
        {
            var (left, top) = (box.Left + item.Left, box.Top + (Gap / 2) + item.Top);
            sheet.Frame(new PaperBox(left + 1, top + ((line - square) / 2), square, square), 0.9);
            left += TickWidth;
            var lower = (size - item.SizePt) * Typeface.BaselineFactor;
            var next = sheet.PrintLines(item.Title, left, top + lower, item.Width, item.SizePt);
            if (item.SmallBehind)
            {
                var used = setting.Fit.Width(item.Title[0], item.SizePt, false) + Apart;
                sheet.PrintLines(
                    item.Small,
                    left + used,
                    top + ((size - Setting.SmallPt) * Typeface.BaselineFactor),
                    item.Width - used,
                    Setting.SmallPt
                );
            }
            else
            {
                sheet.PrintLines(item.Small, left, next, item.Width, Setting.SmallPt);
            }
        }
        sheet.Frame(
            new PaperBox(
                box.Right - Columns.InitialsPt,
                box.Top + 0.5,
                Columns.InitialsPt,
                box.Height - 1
            )
        );
    }

    private (List<Item> Items, double Height) Lay(Setting setting, double widthPt)
    {
        var items = new List<Item>();
        var full = widthPt - TickWidth - Columns.InitialsPt - 3;
        var size = setting.Density.TickPt;
        var (line, small) = (Setting.Line(size), Setting.Line(Setting.SmallPt));
        // Where the next short one could go on the line above; none when that line is full or has more below it.
        var (top, free, above) = (0.0, double.PositiveInfinity, 0.0);
        foreach (var target in targets)
        {
            var words = ShortWords.TitleWithGear(target);
            var details = SmallPrint.OfTick(setting, target);
            var whole = setting.Fit.Width(words, size, false);
            if (details.Length > 0)
            {
                whole += Apart + setting.Fit.Width(details, Setting.SmallPt, false);
            }
            List<string> behind = details.Length == 0 ? [] : [details];
            if (setting.Density.Flows && free + TickWidth + whole <= full + TickWidth)
            {
                items.Add(new(target, free, above, whole + 1, size, [words], behind, true));
                free += TickWidth + whole + BetweenItems;
                continue;
            }
            if (whole <= full)
            {
                items.Add(new(target, 0, top, full, size, [words], behind, true));
                (above, free) = (top, TickWidth + whole + BetweenItems);
                top += line;
                continue;
            }
            var shrunk = Shrunk(setting, words, full);
            var lines = setting.Fit.Wrap(words, shrunk, false, full);
            var under = setting.Fit.Wrap(details, Setting.SmallPt, false, full);
            items.Add(new(target, 0, top, full, shrunk, lines, under, false));
            free = double.PositiveInfinity;
            top +=
                ((size - shrunk) * Typeface.BaselineFactor)
                + (lines.Count * Setting.Line(shrunk))
                + (under.Count * small);
        }
        return (items, top);
    }

    /// <summary>The greatest size at which the words fit on one line, if it is little smaller; else the usual size.</summary>
    private static double Shrunk(Setting setting, string words, double width)
    {
        var size = setting.Density.TickPt;
        for (var less = 0.0; less <= MostShrunk && size - less >= LeastPt; less += 0.5)
        {
            if (setting.Fit.Width(words, size - less, false) <= width)
            {
                return size - less;
            }
        }
        return size;
    }
}
