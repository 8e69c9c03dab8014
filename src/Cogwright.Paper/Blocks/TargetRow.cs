using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// One line of the work: what, how much, in which gear, by which convention and tool; and at the right the boxes to
/// write in: found, left at, initials.
/// </summary>
internal sealed class TargetRow(Target target) : Block
{
    private const double Gap = 3;

    /// <inheritdoc/>
    internal override string Name => "target:" + target.Id;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt)
    {
        var width = TextWidth(widthPt);
        var height = TitleLines(setting, width).Count * Setting.Line(setting.Density.TitlePt);
        if (Value.Length > 0)
        {
            height += Setting.Line(Setting.StandPt);
        }
        height += SmallLines(setting, width).Count * Setting.Line(Setting.SmallPt);
        return Math.Max(height, Points.FromMm(setting.Density.BoxMm)) + Gap;
    }

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var left = box.Left + Columns.TabPt;
        var width = TextWidth(box.Width);
        var top = box.Top + (Gap / 2);
        top = sheet.PrintLines(
            TitleLines(setting, width),
            left,
            top,
            width,
            setting.Density.TitlePt,
            Value.Length == 0
        );
        if (Value.Length > 0)
        {
            sheet.Print(
                Value,
                new PaperBox(left, top, width, Setting.Line(Setting.StandPt)),
                Setting.StandPt,
                bold: true
            );
            top += Setting.Line(Setting.StandPt);
        }
        sheet.PrintLines(SmallLines(setting, width), left, top, width, Setting.SmallPt);
        Columns.WriteIn(
            sheet,
            box.Right,
            box.Top + (Gap / 2),
            Points.FromMm(setting.Density.BoxMm)
        );
        sheet.Rule(left, box.Bottom, box.Right, box.Bottom, 0.3);
    }

    private static double TextWidth(double widthPt) =>
        widthPt - Columns.TabPt - Columns.WriteInPt - 3;

    private string Value
    {
        get
        {
            var amount = Amount.Of(target);
            return target.Gear is not { } gear ? amount
                : amount.Length == 0 ? Texts.Get("InGear", Amount.Gear(gear))
                : Texts.Get("AmountInGear", amount, Amount.Gear(gear));
        }
    }

    private List<string> TitleLines(Setting setting, double width) =>
        setting.Fit.Wrap(target.Title, setting.Density.TitlePt, Value.Length == 0, width);

    private List<string> SmallLines(Setting setting, double width) =>
        SmallPrint.Lines(setting, target, width);
}
