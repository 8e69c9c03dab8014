using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// One measure: what, how much, in which gear, and at the right the boxes to write in: found, left at, initials;
/// below, by which convention and tool.
/// </summary>
internal sealed class TargetRow(Target target) : Block
{
    private const double Gap = 3;

    /// <inheritdoc/>
    internal override string Name => "target:" + target.Id;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        HeadHeight(setting, widthPt)
        + (SmallPrint.Lines(setting, target, widthPt).Count * Setting.Line(Setting.SmallPt))
        + Gap;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var width = TextWidth(box.Width);
        var top = box.Top + (Gap / 2);
        if (OnOneLine(setting, width) is { } titleWidth)
        {
            var line = new PaperBox(
                box.Left,
                top,
                titleWidth,
                Points.FromMm(setting.Density.BoxMm)
            );
            sheet.Print(target.Title, line, setting.Density.TitlePt);
            sheet.Print(
                Value,
                line with
                {
                    Left = line.Right,
                    Width = width - titleWidth,
                },
                Setting.StandPt,
                bold: true
            );
        }
        else
        {
            var next = sheet.PrintLines(
                TitleLines(setting, width),
                box.Left,
                top,
                width,
                setting.Density.TitlePt
            );
            sheet.PrintLines(
                ValueLines(setting, width),
                box.Left,
                next,
                width,
                Setting.StandPt,
                bold: true
            );
        }
        Columns.WriteIn(sheet, box.Right, top, Points.FromMm(setting.Density.BoxMm));
        sheet.PrintLines(
            SmallPrint.Lines(setting, target, box.Width),
            box.Left,
            top + HeadHeight(setting, box.Width),
            box.Width,
            Setting.SmallPt
        );
    }

    private static double TextWidth(double widthPt) => widthPt - Columns.WriteInPt - 3;

    private string Value
    {
        get
        {
            var amount = Amount.Of(target);
            return target.Gear is { } gear
                ? Texts.Get("sheet.amountInGear", amount, Amount.Gear(gear))
                : amount;
        }
    }

    private double HeadHeight(Setting setting, double widthPt)
    {
        var width = TextWidth(widthPt);
        if (OnOneLine(setting, width) is not null)
        {
            return Points.FromMm(setting.Density.BoxMm);
        }
        return Math.Max(
            (TitleLines(setting, width).Count * Setting.Line(setting.Density.TitlePt))
                + (ValueLines(setting, width).Count * Setting.Line(Setting.StandPt)),
            Points.FromMm(setting.Density.BoxMm)
        );
    }

    /// <summary>Width of the title when title and value share a line, or null when they do not fit on one.</summary>
    private double? OnOneLine(Setting setting, double width)
    {
        var title = setting.Fit.Width(target.Title, setting.Density.TitlePt, false) + 6;
        return title + setting.Fit.Width(Value, Setting.StandPt, true) <= width ? title : null;
    }

    private List<string> TitleLines(Setting setting, double width) =>
        setting.Fit.Wrap(target.Title, setting.Density.TitlePt, false, width);

    private List<string> ValueLines(Setting setting, double width) =>
        setting.Fit.Wrap(Value, Setting.StandPt, true, width);
}
