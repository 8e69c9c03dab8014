using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>The inspection before anything is touched: a heavy frame, go or no-go for each look, one signature.</summary>
internal sealed class StopBlock(WorksheetStage stage, StageCautions cautions) : Block
{
    private const double FramePt = 2.5;
    private const double Pad = 5;
    private const double BandPt = 20;
    private const double SignPt = 22;
    private const double GoPt = 8;
    private const double SquarePt = 10;

    /// <inheritdoc/>
    internal override string Name => "stop";

    private static double AnswersWidth => Points.FromMm(17);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt)
    {
        var height = BandPt + SignPt + (2 * FramePt);
        height += CautionLines(setting, widthPt).Count * Setting.Line(Setting.SmallPt);
        foreach (var target in stage.Targets)
        {
            height += RowHeight(setting, target, widthPt);
        }
        return height;
    }

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box, FramePt);
        sheet.Blacken(box with { Height = BandPt });
        sheet.Print(
            Texts.Get("sheet.stop"),
            new PaperBox(box.Left + Pad, box.Top, box.Width - (2 * Pad) - AnswersWidth - 3, BandPt),
            Setting.StandPt,
            bold: true,
            white: true
        );
        foreach (
            var (words, shift) in ((string, double)[])
                [(Texts.Get("sheet.go"), 0), (Texts.Get("sheet.noGo"), 0.5)]
        )
        {
            sheet.Print(
                words,
                new PaperBox(
                    box.Right - Pad - AnswersWidth + (AnswersWidth * shift),
                    box.Top,
                    AnswersWidth / 2,
                    BandPt
                ),
                GoPt,
                bold: true,
                align: Align.Middle,
                white: true
            );
        }
        var top = sheet.PrintLines(
            CautionLines(setting, box.Width),
            box.Left + Pad,
            box.Top + BandPt,
            box.Width - (2 * Pad),
            Setting.SmallPt,
            bold: true
        );
        foreach (var target in stage.Targets)
        {
            var height = RowHeight(setting, target, box.Width);
            DrawRow(setting, sheet, target, new PaperBox(box.Left, top, box.Width, height));
            top += height;
        }
        DrawSignature(sheet, new PaperBox(box.Left + Pad, top, box.Width - (2 * Pad), SignPt));
    }

    private static void DrawRow(Setting setting, Sheet sheet, Target target, PaperBox row)
    {
        var width = TextWidth(row.Width);
        var top = sheet.PrintLines(
            TitleLines(setting, target, row.Width),
            row.Left + Pad,
            row.Top + 0.5,
            width,
            setting.Density.TickPt
        );
        var amount = Amount.Of(target);
        if (amount.Length > 0)
        {
            sheet.Print(
                amount,
                new PaperBox(row.Left + Pad, top, width, Setting.Line(Setting.StandPt)),
                Setting.StandPt,
                bold: true
            );
            top += Setting.Line(Setting.StandPt);
        }
        sheet.PrintLines(
            SmallLines(setting, target, row.Width),
            row.Left + Pad,
            top,
            width,
            Setting.SmallPt
        );
        var answer = new PaperBox(row.Right - Pad - AnswersWidth, row.Top, 0, row.Height);
        foreach (var shift in (ReadOnlySpan<double>)[0.25, 0.75])
        {
            sheet.Frame(
                new PaperBox(
                    answer.Left + (AnswersWidth * shift) - (SquarePt / 2),
                    row.Top + ((row.Height - SquarePt) / 2),
                    SquarePt,
                    SquarePt
                ),
                0.9
            );
        }
        sheet.Rule(row.Left + Pad, row.Bottom, row.Right - Pad, row.Bottom, 0.3);
    }

    private static void DrawSignature(Sheet sheet, PaperBox line)
    {
        Answers(sheet, line with { Width = Points.FromMm(40) }, Setting.StandPt);
        var box = new PaperBox(
            line.Right - Points.FromMm(28),
            line.Top + 2,
            Points.FromMm(28),
            line.Height - 3
        );
        sheet.Frame(box, 1.2);
        sheet.Print(
            Texts.Get("sheet.initials"),
            new PaperBox(
                line.Left + Points.FromMm(41),
                line.Top,
                box.Left - line.Left - Points.FromMm(41) - 3,
                line.Height
            ),
            Setting.SmallPt,
            align: Align.End
        );
    }

    private static void Answers(Sheet sheet, PaperBox box, double sizePt)
    {
        var half = box.Width * 0.4;
        sheet.Tick(Texts.Get("sheet.go"), box with { Width = half }, sizePt, bold: true);
        sheet.Tick(
            Texts.Get("sheet.noGo"),
            box with
            {
                Left = box.Left + half,
                Width = box.Width - half,
            },
            sizePt,
            bold: true
        );
    }

    private static double RowHeight(Setting setting, Target target, double widthPt)
    {
        var height =
            2
            + (TitleLines(setting, target, widthPt).Count * Setting.Line(setting.Density.TickPt))
            + (SmallLines(setting, target, widthPt).Count * Setting.Line(Setting.SmallPt));
        if (Amount.Of(target).Length > 0)
        {
            height += Setting.Line(Setting.StandPt);
        }
        return Math.Max(height, SquarePt + 2);
    }

    private static double TextWidth(double widthPt) => widthPt - (2 * Pad) - AnswersWidth - 3;

    private static List<string> TitleLines(Setting setting, Target target, double widthPt) =>
        setting.Fit.Wrap(target.Title, setting.Density.TickPt, false, TextWidth(widthPt));

    private static List<string> SmallLines(Setting setting, Target target, double widthPt) =>
        SmallPrint.Lines(setting, target, TextWidth(widthPt));

    private List<string> CautionLines(Setting setting, double widthPt) =>
        SmallPrint.Cautions(setting, cautions.Fresh, widthPt - (2 * Pad));
}
