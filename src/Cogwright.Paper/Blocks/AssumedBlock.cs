using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// Values that nobody measured, before anything built on them is set: as many as two lines hold, then how many
/// more; the complete list stands on side two.
/// </summary>
internal sealed class AssumedBlock(ImmutableArray<AssumedValue> assumed) : Block
{
    private const int MostLines = 2;
    private const double TitlePt = 10;
    private const double TextPt = 9;
    private const double Pad = 3;

    /// <inheritdoc/>
    internal override string Name => "assumed";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        assumed.IsEmpty
            ? 0
            : Setting.Line(TitlePt)
                + (Lines(setting, widthPt).Count * Setting.Line(TextPt))
                + (2 * Pad);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box, 1.4);
        var width = box.Width - (2 * Pad);
        sheet.Print(
            Texts.Get("sheet.assumedTitle"),
            new PaperBox(box.Left + Pad, box.Top + Pad, width, Setting.Line(TitlePt)),
            TitlePt,
            bold: true
        );
        sheet.PrintLines(
            Lines(setting, box.Width),
            box.Left + Pad,
            box.Top + Pad + Setting.Line(TitlePt),
            width,
            TextPt
        );
    }

    private List<string> Lines(Setting setting, double widthPt)
    {
        for (var shown = assumed.Length; shown > 1; shown--)
        {
            var lines = Lines(setting, widthPt, shown);
            if (lines.Count <= MostLines)
            {
                return lines;
            }
        }
        return setting.Fit.Wrap(
            string.Join('\n', Lines(setting, widthPt, 1)),
            TextPt,
            false,
            widthPt - (2 * Pad),
            MostLines
        );
    }

    private List<string> Lines(Setting setting, double widthPt, int shown)
    {
        var text = string.Join(
            "; ",
            assumed
                .Take(shown)
                .Select(value => Texts.Get("sheet.assumedShort", value.Path, value.Value))
        );
        if (shown < assumed.Length)
        {
            text = Texts.Get("sheet.andMore", text, assumed.Length - shown);
        }
        return setting.Fit.Wrap(text, TextPt, false, widthPt - (2 * Pad));
    }
}
