using PdfSharp.Drawing;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// Two clock faces of the wheel as seen from the drive side, before and after: how far outboard of the rim the gauge
/// stands at 12, 3, 6 and 9 o'clock.
/// </summary>
internal sealed class HangerClock : Block
{
    private const double CaptionPt = 10;

    /// <inheritdoc/>
    internal override string Name => "hanger-clock";

    private static double BoxWidth => Points.FromMm(13);

    private static double BoxHeight => Points.FromMm(7);

    private static double FaceDiameter => Points.FromMm(13);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        3 + (2 * BoxHeight) + FaceDiameter + 2 + Setting.Line(Setting.SmallPt);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var half = box.Width / 2;
        var faces = box with
        {
            Top = box.Top + 3,
            Height = box.Height - 3 - Setting.Line(Setting.SmallPt),
            Width = half,
        };
        Face(sheet, faces, Texts.Get("sheet.before"), 0.7);
        Face(sheet, faces with { Left = box.Left + half }, Texts.Get("sheet.after"), 1.2);
        sheet.Print(
            Texts.Get("sheet.hangerConvention"),
            new PaperBox(
                box.Left,
                box.Bottom - Setting.Line(Setting.SmallPt),
                box.Width,
                Setting.Line(Setting.SmallPt)
            ),
            Setting.SmallPt,
            align: Align.Middle
        );
    }

    private static void Face(Sheet sheet, PaperBox box, string caption, double framePt)
    {
        var (x, y) = (box.Left + (box.Width / 2), box.Top + (box.Height / 2));
        var radius = FaceDiameter / 2;
        sheet.Graphics.DrawEllipse(
            new XPen(XColors.Black, 0.9),
            x - radius,
            y - radius,
            FaceDiameter,
            FaceDiameter
        );
        sheet.Print(
            caption,
            new PaperBox(x - radius + 1, y - (CaptionPt * 0.6), FaceDiameter - 2, CaptionPt * 1.2),
            CaptionPt,
            bold: true,
            align: Align.Middle
        );
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
            sheet.Frame(cell, framePt);
            sheet.Print(
                hour,
                new PaperBox(cell.Left + 2, cell.Top + 1, 12, Setting.Line(Setting.SmallPt)),
                Setting.SmallPt,
                bold: true
            );
        }
    }
}
