using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>A torque: the range, what the tool was set to, whether it clicked or what was measured, initials.</summary>
internal sealed class TorqueRow(Target target) : Block
{
    private const double Gap = 2;
    private const double TickPt = 8;

    /// <inheritdoc/>
    internal override string Name => "target:" + target.Id;

    private static double SetPt => Points.FromMm(12);

    private static double DonePt => Points.FromMm(26);

    private static double TitlePt(Setting setting) => Math.Min(setting.Density.TitlePt, 11);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt)
    {
        var width = TextWidth(widthPt);
        var height =
            (TitleLines(setting, width).Count * Setting.Line(TitlePt(setting)))
            + Setting.Line(Setting.StandPt)
            + (SmallPrint.Lines(setting, target, width).Count * Setting.Line(Setting.SmallPt));
        return Math.Max(height, Points.FromMm(8)) + Gap;
    }

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var left = box.Left + Columns.TabPt;
        var width = TextWidth(box.Width);
        var top = sheet.PrintLines(
            TitleLines(setting, width),
            left,
            box.Top + (Gap / 2),
            width,
            TitlePt(setting)
        );
        sheet.Print(
            Amount.Of(target),
            new PaperBox(left, top, width, Setting.Line(Setting.StandPt)),
            Setting.StandPt,
            bold: true
        );
        sheet.PrintLines(
            SmallPrint.Lines(setting, target, width),
            left,
            top + Setting.Line(Setting.StandPt),
            width,
            Setting.SmallPt
        );
        DrawBoxes(sheet, box);
        sheet.Rule(left, box.Bottom, box.Right, box.Bottom, 0.3);
    }

    private static void DrawBoxes(Sheet sheet, PaperBox box)
    {
        var top = box.Top + (Gap / 2);
        var height = Points.FromMm(8);
        var x = box.Right - Columns.InitialsPt - DonePt - SetPt;
        var small = Setting.Line(Setting.SmallPt);
        var set = new PaperBox(x, top, SetPt, height);
        sheet.Frame(set);
        sheet.Print(
            Texts.Get("ToolSetTo"),
            new PaperBox(set.Left + 2, set.Top + 1, set.Width - 3, small),
            Setting.SmallPt
        );
        var done = new PaperBox(x + SetPt, top, DonePt, height);
        sheet.Frame(done, 1.2);
        var half = height / 2;
        var ticks = done with { Left = done.Left + 3, Width = done.Width - 5, Height = half };
        sheet.Tick(Texts.Get("Clicked"), ticks, TickPt);
        sheet.Tick(Texts.Get("Measured"), ticks with { Top = ticks.Top + half }, TickPt);
        sheet.Rule(done.Right - Points.FromMm(8), done.Bottom - 3, done.Right - 3, done.Bottom - 3);
        sheet.Frame(new PaperBox(done.Right, top, Columns.InitialsPt, height));
    }

    private static double TextWidth(double widthPt) =>
        widthPt - Columns.TabPt - SetPt - DonePt - Columns.InitialsPt - 3;

    private List<string> TitleLines(Setting setting, double width) =>
        setting.Fit.Wrap(target.Title, TitlePt(setting), false, width);
}
