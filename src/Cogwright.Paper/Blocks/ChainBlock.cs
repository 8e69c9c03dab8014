using System.Globalization;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// The chain to cut: its pitches in large figures with boxes for two counts before the cutter is picked up and for what
/// was cut; then the direct path with the box for what was counted, and how near the rounding edge is.
/// </summary>
internal sealed class ChainBlock(ChainBox chain, Target? directPath) : Block
{
    private const double Pad = 3;
    private const double FramePt = 1.6;
    private const double Above = 1.5;
    private const double PathPt = 10;
    private const double BoxMm = 6.4;

    /// <inheritdoc/>
    internal override string Name => "chain";

    private static double RowPt => Points.FromMm(BoxMm) + 1.5;

    private static double CountPt => Points.FromMm(11);

    private static double BoxesPt => (2 * CountPt) + Columns.ValuePt + Columns.InitialsPt;

    private string Figures =>
        chain.Pitches is { } pitches ? Texts.Get("sheet.pitches", pitches) : chain.Headline;

    private string Path =>
        // The unit stands in the line above; here the room goes to the box's own heading.
        directPath is not null
        && Amount.Of(directPath with { Unit = "" }) is { Length: > 0 } amount
            ? amount
            : chain.DirectPathPitches.ToString("0.00", CultureInfo.InvariantCulture);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (2 * (Pad + Above))
        + Setting.Line(Setting.SmallPt)
        + Math.Max(RowPt, HeadHeight(setting, widthPt))
        + RowPt
        + (Small(setting, widthPt).Count * Setting.Line(Setting.SmallPt));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + Above, Height = box.Height - (2 * Above) }, FramePt);
        var (left, width) = (box.Left + Pad, box.Width - (2 * Pad));
        var top = box.Top + Above + Pad;
        var first = new PaperBox(
            left,
            top,
            width,
            Setting.Line(Setting.SmallPt) + Math.Max(RowPt, HeadHeight(setting, box.Width))
        );
        DrawLength(setting, sheet, first);
        top = first.Bottom;
        DrawPath(setting, sheet, new PaperBox(left, top, width, RowPt));
        sheet.PrintLines(Small(setting, box.Width), left, top + RowPt, width, Setting.SmallPt);
    }

    private void DrawLength(Setting setting, Sheet sheet, PaperBox row)
    {
        var label = Setting.Line(Setting.SmallPt);
        var text = row with { Width = row.Width - BoxesPt - 3 };
        var lines = HeadLines(setting, text.Width);
        var top = sheet.PrintLines(
            lines,
            text.Left,
            row.Top,
            text.Width,
            Setting.StandPt,
            bold: true
        );
        sheet.PrintLines(
            LinkLines(setting, text.Width),
            text.Left,
            top,
            text.Width,
            Setting.SmallPt
        );
        ReadOnlySpan<(string Key, double Width, double Pen, bool Bold)> boxes =
        [
            ("sheet.countOne", CountPt, 0.7, false),
            ("sheet.countTwo", CountPt, 0.7, false),
            ("sheet.cutTo", Columns.ValuePt, 1.2, true),
            ("sheet.initials", Columns.InitialsPt, 0.7, false),
        ];
        var left = row.Right - BoxesPt;
        foreach (var (key, width, pen, bold) in boxes)
        {
            sheet.Print(
                Texts.Get(key),
                new PaperBox(left, row.Top - 1, width, label),
                Setting.SmallPt,
                bold,
                Align.Middle
            );
            var height = row.Height - label - 1;
            sheet.Frame(new PaperBox(left, row.Top + label - 1, width, height), pen);
            left += width;
        }
    }

    private void DrawPath(Setting setting, Sheet sheet, PaperBox row)
    {
        var counted = Columns.ValuePt + Columns.InitialsPt;
        var label = Texts.Get("sheet.found");
        var labelWidth = setting.Fit.Width(label, Setting.SmallPt, false) + 1;
        var words = Texts.Get("sheet.directPath");
        var wordsWidth = setting.Fit.Width(words, PathPt, false) + 4;
        sheet.Print(words, row with { Width = wordsWidth }, PathPt);
        sheet.Print(
            Path,
            row with
            {
                Left = row.Left + wordsWidth,
                Width = row.Width - wordsWidth - counted - labelWidth - 5,
            },
            Setting.StandPt,
            bold: true
        );
        sheet.Print(
            label,
            row with
            {
                Left = row.Right - counted - labelWidth - 2,
                Width = labelWidth,
            },
            Setting.SmallPt
        );
        var height = row.Height - 1;
        sheet.Frame(new PaperBox(row.Right - counted, row.Top, Columns.ValuePt, height));
        sheet.Frame(
            new PaperBox(row.Right - Columns.InitialsPt, row.Top, Columns.InitialsPt, height)
        );
    }

    private double HeadHeight(Setting setting, double widthPt)
    {
        var width = widthPt - (2 * Pad) - BoxesPt - 3;
        return (HeadLines(setting, width).Count * Setting.Line(Setting.StandPt))
            + (LinkLines(setting, width).Count * Setting.Line(Setting.SmallPt))
            - Setting.Line(Setting.SmallPt);
    }

    private List<string> HeadLines(Setting setting, double width) =>
        setting.Fit.Wrap(Figures, Setting.StandPt, true, width);

    /// <summary>Inner and outer links; a length that is odd says so in the headline's own words.</summary>
    private List<string> LinkLines(Setting setting, double width) =>
        chain switch
        {
            { Pitches: null } => [],
            { InnerLinks: { } inner, OuterLinks: { } outer } when chain.Pitches % 2 == 0 =>
                setting.Fit.Wrap(
                    Texts.Get("sheet.innerOuter", inner, outer),
                    Setting.SmallPt,
                    false,
                    width
                ),
            _ => setting.Fit.Wrap(chain.Headline, Setting.SmallPt, false, width),
        };

    private List<string> Small(Setting setting, double widthPt)
    {
        var edge =
            chain.EdgeInShort.Length > 0 ? chain.EdgeInShort
            : directPath?.Note is { } note ? note
            : chain.Lines.FirstOrDefault() ?? "";
        var lines = new List<string>();
        if (directPath is not null)
        {
            lines.Add(SmallPrint.OfMeasure(directPath with { Tool = null }));
        }
        lines.Add(edge);
        var width = widthPt - (2 * Pad);
        return [.. lines.SelectMany(line => setting.Fit.Wrap(line, Setting.SmallPt, false, width))];
    }
}
