using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>Moves and looks without a number that follow one another: a box to tick each, one box of initials for all.</summary>
internal sealed class TickGroup(ImmutableArray<Target> targets) : Block
{
    private const double Gap = 2.5;
    private const double TickWidth = 15;

    /// <inheritdoc/>
    internal override string Name => "ticks:" + targets[0].Id;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Math.Max(
            targets.Sum(target => RowHeight(setting, target, widthPt)) + Gap,
            Points.FromMm(6)
        );

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var top = box.Top + 1;
        var size = setting.Density.TickPt;
        var (left, width) = (box.Left + TickWidth, TextWidth(box.Width));
        foreach (var target in targets)
        {
            var square = Math.Min(size, 11);
            sheet.Frame(
                new PaperBox(
                    box.Left + 1,
                    top + ((Setting.Line(size) - square) / 2),
                    square,
                    square
                ),
                0.9
            );
            var next = sheet.PrintLines(TitleLines(setting, target, width), left, top, width, size);
            sheet.PrintLines(Details(setting, target, width), left, next, width, Setting.SmallPt);
            top += RowHeight(setting, target, box.Width);
        }
        sheet.Frame(
            new PaperBox(
                box.Right - Columns.InitialsPt,
                box.Top + 1,
                Columns.InitialsPt,
                box.Height - 2
            )
        );
    }

    private static double TextWidth(double widthPt) => widthPt - TickWidth - Columns.InitialsPt - 3;

    private static List<string> TitleLines(Setting setting, Target target, double width)
    {
        var gear =
            setting.Density.TickDetails && target.Gear is { } named
                ? Texts.Get("sheet.titleInGear", target.Title, Amount.Gear(named))
                : target.Title;
        return setting.Fit.Wrap(gear, setting.Density.TickPt, false, width);
    }

    private static List<string> Details(Setting setting, Target target, double width) =>
        setting.Density.TickDetails || target.Source == TargetSource.Assumed
            ? SmallPrint.Lines(setting, target, width)
            : [];

    private static double RowHeight(Setting setting, Target target, double widthPt)
    {
        var width = TextWidth(widthPt);
        return 1
            + (TitleLines(setting, target, width).Count * Setting.Line(setting.Density.TickPt))
            + (Details(setting, target, width).Count * Setting.Line(Setting.SmallPt));
    }
}
