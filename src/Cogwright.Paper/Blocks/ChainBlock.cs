using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// The chain to cut: its pitches in large figures, the direct path, the reasons, and two ticks for two counts before
/// the cutter is picked up.
/// </summary>
internal sealed class ChainBlock(ChainBox chain) : Block
{
    private const double Pad = 4;
    private const double FramePt = 1.6;
    private const double CountPt = 11;
    private const double CountHeight = 24;

    /// <inheritdoc/>
    internal override string Name => "chain";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (2 * Pad)
        + (HeadLines(setting, widthPt).Count * Setting.Line(Setting.StandPt))
        + Setting.Line(setting.Density.TitlePt)
        + (ReasonLines(setting, widthPt).Count * Setting.Line(Setting.SmallPt))
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
        top = sheet.PrintLines([DirectPath], left, top, width, setting.Density.TitlePt);
        top = sheet.PrintLines(ReasonLines(setting, box.Width), left, top, width, Setting.SmallPt);
        DrawCounts(sheet, new PaperBox(left, top, width, CountHeight));
    }

    private static void DrawCounts(Sheet sheet, PaperBox line)
    {
        var initials = Columns.InitialsPt + 4;
        var ticks = Points.FromMm(21);
        var words = line.Width - initials - ticks;
        sheet.Print(
            Texts.Get("CountedTwice"),
            line with
            {
                Width = words - 3,
            },
            CountPt,
            bold: true
        );
        sheet.Tick("1", line with { Left = line.Left + words, Width = ticks / 2 }, Setting.StandPt);
        sheet.Tick(
            "2",
            line with
            {
                Left = line.Left + words + (ticks / 2),
                Width = ticks / 2,
            },
            Setting.StandPt
        );
        var box = new PaperBox(line.Right - initials, line.Top + 1, initials, line.Height - 3);
        sheet.Frame(box, 1.2);
        sheet.Print(
            Texts.Get("InitialsShort"),
            new PaperBox(box.Left + 2, box.Top, box.Width - 4, Setting.Line(Setting.SmallPt)),
            Setting.SmallPt
        );
    }

    private string DirectPath =>
        Texts.Get(
            "DirectPath",
            chain.DirectPathPitches.ToString("0.00", CultureInfo.InvariantCulture)
        );

    private List<string> HeadLines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(chain.Headline, Setting.StandPt, true, widthPt - (2 * Pad));

    private List<string> ReasonLines(Setting setting, double widthPt)
    {
        var lines = new List<string>();
        foreach (var reason in chain.Lines)
        {
            lines.AddRange(setting.Fit.Wrap(reason, Setting.SmallPt, false, widthPt - (2 * Pad)));
        }
        return lines;
    }
}
