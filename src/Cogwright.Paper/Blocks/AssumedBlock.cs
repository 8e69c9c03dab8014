using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// How many values nobody measured and the first of them, on one line, before anything built on them is set; the
/// complete list stands overleaf, or where the sentence says.
/// </summary>
/// <param name="assumed">The values.</param>
/// <param name="firstKey">The sentence of those that the line has room for, when it has not for all.</param>
internal sealed class AssumedBlock(
    ImmutableArray<AssumedValue> assumed,
    string firstKey = "sheet.assumedFirst"
) : Block
{
    private const double TextPt = 8.5;
    private const double Pad = 3;
    private const double AbovePt = 1.5;

    /// <inheritdoc/>
    internal override string Name => "assumed";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        assumed.IsEmpty ? 0 : Setting.Line(TextPt) + (2 * AbovePt);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box, 1.4);
        var line = box with
        {
            Left = box.Left + Pad,
            Width = box.Width - (2 * Pad),
            Top = box.Top + AbovePt,
            Height = Setting.Line(TextPt),
        };
        sheet.Print(Line(setting, line.Width), line, TextPt, bold: true);
    }

    private string Line(Setting setting, double widthPt)
    {
        var lead =
            assumed.Length == 1
                ? Texts.Get("sheet.assumedOne")
                : Texts.Get("sheet.assumedLead", assumed.Length);
        var line = lead;
        for (var shown = assumed.Length; shown > 0; shown--)
        {
            var paths = string.Join(", ", assumed.Take(shown).Select(value => value.Path));
            line = Texts.Get(shown == assumed.Length ? "sheet.assumedAll" : firstKey, lead, paths);
            if (setting.Fit.Width(line, TextPt, true) <= widthPt)
            {
                return line;
            }
        }
        return line;
    }
}
