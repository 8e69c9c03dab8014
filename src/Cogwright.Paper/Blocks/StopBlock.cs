using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// The inspection before anything is touched: a heavy frame, its warnings in the black heading, go or no-go for each
/// look, one answer and one signature for all.
/// </summary>
internal sealed class StopBlock(WorksheetStage stage, StageCautions cautions) : Block
{
    private const double FramePt = 2.5;
    private const double Pad = 5;
    private const double TitlePt = 12;
    private const double BandPt = 16;
    private const double SignPt = 18;
    private const double SignTextPt = 11;
    private const double GoPt = 8;
    private const double SquarePt = 10;

    /// <inheritdoc/>
    internal override string Name => "stop";

    private static double AnswersWidth => Points.FromMm(17);

    private static string Title => Texts.Get("sheet.stop");

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        BandHeight(setting, widthPt)
        + stage.Targets.Sum(target => RowHeight(setting, target, widthPt))
        + SignPt
        + FramePt;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box, FramePt);
        DrawBand(setting, sheet, box);
        var top = box.Top + BandHeight(setting, box.Width);
        foreach (var target in stage.Targets)
        {
            var height = RowHeight(setting, target, box.Width);
            DrawRow(setting, sheet, target, new PaperBox(box.Left, top, box.Width, height));
            top += height;
        }
        DrawSignature(
            setting,
            sheet,
            new PaperBox(box.Left + Pad, top, box.Width - (2 * Pad), SignPt)
        );
    }

    private void DrawBand(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Blacken(box with { Height = BandHeight(setting, box.Width) });
        var (left, width) = (box.Left + Pad, box.Width - (2 * Pad));
        var line = new PaperBox(left, box.Top, width - AnswersWidth - 3, BandPt);
        sheet.Print(Title, line, TitlePt, bold: true, white: true);
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
        var lines = Warnings(setting, box.Width);
        var room = Beside(setting, box.Width);
        if (room > 0)
        {
            sheet.Print(
                lines[0],
                line with
                {
                    Left = line.Right - room,
                    Width = room,
                },
                Setting.SmallPt,
                bold: true,
                white: true
            );
        }
        for (var i = 1; i < lines.Count; i++)
        {
            var small = Setting.Line(Setting.SmallPt);
            var at = new PaperBox(left, box.Top + BandPt + ((i - 1) * small) - 1, width, small);
            sheet.Print(lines[i], at, Setting.SmallPt, bold: true, white: true);
        }
    }

    private static void DrawRow(Setting setting, Sheet sheet, Target target, PaperBox row)
    {
        var width = TextWidth(row.Width);
        var size = TextPt(setting);
        var lines = TitleLines(setting, target, row.Width);
        var top = row.Top + ((row.Height - TextHeight(setting, target, row.Width)) / 2);
        top = sheet.PrintLines(lines, row.Left + Pad, top, width, size);
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
        foreach (var shift in (ReadOnlySpan<double>)[0.25, 0.75])
        {
            sheet.Frame(
                new PaperBox(
                    row.Right - Pad - AnswersWidth + (AnswersWidth * shift) - (SquarePt / 2),
                    row.Top + ((row.Height - SquarePt) / 2),
                    SquarePt,
                    SquarePt
                ),
                0.9
            );
        }
        sheet.Rule(row.Left + Pad, row.Bottom, row.Right - Pad, row.Bottom, 0.3);
    }

    private static void DrawSignature(Setting setting, Sheet sheet, PaperBox line)
    {
        var box = new PaperBox(
            line.Right - Points.FromMm(24),
            line.Top + 1.5,
            Points.FromMm(24),
            line.Height - 2
        );
        sheet.Frame(box, 1.2);
        var left = line.Left;
        foreach (var words in (string[])[Texts.Get("sheet.go"), Texts.Get("sheet.noGo")])
        {
            var width = setting.Fit.Width(words, SignTextPt, true) + 16;
            sheet.Tick(words, line with { Left = left, Width = width }, SignTextPt, bold: true);
            left += width + 10;
        }
        sheet.Print(
            Texts.Get("sheet.initials"),
            line with
            {
                Left = left,
                Width = box.Left - left - 3,
            },
            Setting.SmallPt,
            align: Align.End
        );
    }

    private double BandHeight(Setting setting, double widthPt)
    {
        var below = Warnings(setting, widthPt).Count - 1;
        return BandPt + (below == 0 ? 0 : (below * Setting.Line(Setting.SmallPt)) + 0.5);
    }

    private static double Beside(Setting setting, double widthPt) =>
        widthPt - (2 * Pad) - AnswersWidth - 3 - setting.Fit.Width(Title, TitlePt, true) - 6;

    private List<string> Warnings(Setting setting, double widthPt) =>
        cautions.Lines(setting, Beside(setting, widthPt), widthPt - (2 * Pad));

    private static double TextPt(Setting setting) => Math.Min(setting.Density.TickPt, 10.5);

    private static double RowHeight(Setting setting, Target target, double widthPt) =>
        Math.Max(TextHeight(setting, target, widthPt), SquarePt + 1) + 0.6;

    private static double TextHeight(Setting setting, Target target, double widthPt) =>
        (TitleLines(setting, target, widthPt).Count * Setting.Line(TextPt(setting)))
        + (SmallLines(setting, target, widthPt).Count * Setting.Line(Setting.SmallPt))
        + (Amount.Of(target).Length > 0 ? Setting.Line(Setting.StandPt) : 0);

    private static double TextWidth(double widthPt) => widthPt - (2 * Pad) - AnswersWidth - 3;

    private static List<string> TitleLines(Setting setting, Target target, double widthPt) =>
        setting.Fit.Wrap(ShortWords.Title(target), TextPt(setting), false, TextWidth(widthPt));

    private static List<string> SmallLines(Setting setting, Target target, double widthPt) =>
        setting.Fit.Wrap(
            SmallPrint.OfTick(setting, target),
            Setting.SmallPt,
            false,
            TextWidth(widthPt)
        );
}
