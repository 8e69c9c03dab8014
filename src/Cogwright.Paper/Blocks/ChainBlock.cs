using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// The chain to cut: its pitches in large figures, the direct path, how near the rounding edge, the boxes for what was
/// found and what was cut, and two ticks for two counts before the cutter is picked up.
/// </summary>
internal sealed class ChainBlock(ChainBox chain, string? roundingEdge) : Block
{
    private const double Pad = 3;
    private const double FramePt = 1.6;
    private const double CountPt = 10;
    private const double CountHeight = 17;

    /// <inheritdoc/>
    internal override string Name => "chain";

    private static double BoxPt(Setting setting) => Points.FromMm(setting.Density.BoxMm);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (2 * Pad)
        + (HeadLines(setting, widthPt).Count * Setting.Line(Setting.StandPt))
        + (ReasonLines(setting, widthPt).Count * Setting.Line(Setting.SmallPt))
        + BoxPt(setting)
        + CountHeight;

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + 1, Height = box.Height - 2 }, FramePt);
        var (left, width) = (box.Left + Pad, box.Width - (2 * Pad));
        var top = sheet.PrintLines(
            HeadLines(setting, box.Width),
            left,
            box.Top + Pad,
            width,
            Setting.StandPt,
            bold: true
        );
        top = sheet.PrintLines(ReasonLines(setting, box.Width), left, top, width, Setting.SmallPt);
        DrawPath(setting, sheet, new PaperBox(left, top, width, BoxPt(setting)));
        top += BoxPt(setting);
        DrawCounts(sheet, new PaperBox(left, top, width, CountHeight));
    }

    private void DrawPath(Setting setting, Sheet sheet, PaperBox line)
    {
        var width = line.Width + Pad - Columns.WriteInPt - 3;
        var words = Texts.Get("sheet.directPath");
        var wordsWidth = setting.Fit.Width(words, CountPt, false) + 4;
        sheet.Print(words, line with { Width = wordsWidth }, CountPt);
        sheet.Print(
            chain.DirectPathPitches.ToString("0.00", CultureInfo.InvariantCulture),
            line with
            {
                Left = line.Left + wordsWidth,
                Width = width - wordsWidth,
            },
            Setting.StandPt,
            bold: true
        );
        Columns.WriteIn(sheet, line.Right + Pad, line.Top + 1, BoxPt(setting) - 1);
    }

    private static void DrawCounts(Sheet sheet, PaperBox line)
    {
        var ticks = Points.FromMm(24);
        sheet.Print(
            Texts.Get("sheet.countedTwice"),
            line with
            {
                Width = line.Width - ticks - 3,
            },
            CountPt,
            bold: true
        );
        var first = line with { Left = line.Right - ticks, Width = ticks / 2 };
        sheet.Tick("1", first, Setting.StandPt, bold: true);
        sheet.Tick("2", first with { Left = first.Right }, Setting.StandPt, bold: true);
    }

    private List<string> HeadLines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(chain.Headline, Setting.StandPt, true, widthPt - (2 * Pad));

    private List<string> ReasonLines(Setting setting, double widthPt)
    {
        // At the stand the distance to the rounding edge; the other reasons are read at the desk when room is short.
        IEnumerable<string> edge = roundingEdge is null ? chain.Lines.Take(1) : [roundingEdge];
        var reasons = setting.Density.Notes ? chain.Lines : edge;
        return
        [
            .. reasons.SelectMany(reason =>
                setting.Fit.Wrap(reason, Setting.SmallPt, false, widthPt - (2 * Pad))
            ),
        ];
    }
}
