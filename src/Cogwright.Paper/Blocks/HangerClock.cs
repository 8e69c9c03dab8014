using Cogwright.Setup;
using PdfSharp.Drawing;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// The hanger: what is wanted, and a clock face of the wheel seen from the drive side; at 12, 3, 6 and 9 o'clock a box
/// for how far outboard of the rim the gauge stands, before and after.
/// </summary>
internal sealed class HangerClock(Target? target) : Block
{
    private const double CaptionPt = 8;
    private const double HourPt = 9;
    private const double Above = 3;

    /// <inheritdoc/>
    internal override string Name => "hanger-clock";

    private static double BoxWidth => Points.FromMm(20);

    private static double BoxHeight => Points.FromMm(7);

    private static double FaceDiameter => Points.FromMm(9);

    private static double ClockWidth => (2 * BoxWidth) + FaceDiameter;

    private static double ClockHeight => (2 * BoxHeight) + FaceDiameter;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Above
        + Math.Max(ClockHeight, HeadHeight(setting, widthPt))
        + (SmallLines(setting, widthPt).Count * Setting.Line(Setting.SmallPt))
        + 2;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var width = TextWidth(box.Width);
        var top = box.Top + Above;
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
        DrawClock(sheet, box.Right - (ClockWidth / 2), top + (ClockHeight / 2));
        sheet.PrintLines(
            SmallLines(setting, box.Width),
            box.Left,
            top + Math.Max(ClockHeight, HeadHeight(setting, box.Width)),
            box.Width,
            Setting.SmallPt
        );
    }

    private static void DrawClock(Sheet sheet, double x, double y)
    {
        var radius = FaceDiameter / 2;
        sheet.Graphics.DrawEllipse(
            new XPen(XColors.Black, 1.2),
            x - radius,
            y - radius,
            FaceDiameter,
            FaceDiameter
        );
        sheet.Rule(x, y, x, y - (radius * 0.75), 1);
        sheet.Rule(x, y, x + (radius * 0.5), y, 1);
        ReadOnlySpan<(string Hour, double X, double Y)> hours =
        [
            ("12", x, y - radius - (BoxHeight / 2)),
            ("3", x + radius + (BoxWidth / 2), y),
            ("6", x, y + radius + (BoxHeight / 2)),
            ("9", x - radius - (BoxWidth / 2), y),
        ];
        foreach (var (hour, centreX, centreY) in hours)
        {
            var cell = new PaperBox(
                centreX - (BoxWidth / 2),
                centreY - (BoxHeight / 2),
                BoxWidth,
                BoxHeight
            );
            sheet.Frame(cell with { Width = BoxWidth / 2 });
            sheet.Frame(cell with { Left = cell.Left + (BoxWidth / 2), Width = BoxWidth / 2 }, 1.4);
            sheet.Print(
                hour,
                new PaperBox(cell.Left + 2, cell.Top + 1, 13, Setting.Line(HourPt)),
                HourPt,
                bold: true
            );
        }
        var caption = new PaperBox(
            x - (ClockWidth / 2),
            y - (ClockHeight / 2),
            (ClockWidth - BoxWidth) / 2 - 2,
            Setting.Line(CaptionPt)
        );
        sheet.Print(Texts.Get("sheet.before"), caption, CaptionPt, align: Align.End);
        sheet.Print(
            Texts.Get("sheet.after"),
            caption with
            {
                Left = x + (BoxWidth / 2) + 2,
            },
            CaptionPt,
            bold: true
        );
    }

    private static double TextWidth(double widthPt) => widthPt - ClockWidth - 4;

    private double HeadHeight(Setting setting, double widthPt)
    {
        var width = TextWidth(widthPt);
        return (TitleLines(setting, width).Count * Setting.Line(setting.Density.TitlePt))
            + (ValueLines(setting, width).Count * Setting.Line(Setting.StandPt));
    }

    private List<string> TitleLines(Setting setting, double width) =>
        setting.Fit.Wrap(target?.Title ?? "", setting.Density.TitlePt, false, width);

    private List<string> ValueLines(Setting setting, double width) =>
        setting.Fit.Wrap(target is null ? "" : Amount.Of(target), Setting.StandPt, true, width);

    private List<string> SmallLines(Setting setting, double width) =>
        target is { Convention.Length: > 0 }
            ? SmallPrint.Lines(setting, target, width)
            : setting.Fit.Wrap(Texts.Get("sheet.hangerConvention"), Setting.SmallPt, false, width);
}
