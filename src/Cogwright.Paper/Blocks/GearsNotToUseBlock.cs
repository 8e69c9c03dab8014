using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>Gears that the customer must be told not to use; the reasons stand on side two when there are many.</summary>
internal sealed class GearsNotToUseBlock(ImmutableArray<GearNotToUse> gears) : Block
{
    private const int MostLines = 3;
    private const double TitlePt = 10;
    private const double Pad = 3;

    /// <inheritdoc/>
    internal override string Name => "gears-not-to-use";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        gears.IsEmpty
            ? 0
            : (2 * Pad)
                + Setting.Line(TitlePt)
                + (Lines(setting, widthPt).Count * Setting.Line(Setting.StandPt));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + 2, Height = box.Height - 2 });
        var (left, width) = (box.Left + Pad, box.Width - (2 * Pad));
        sheet.Print(
            Texts.Get("sheet.gearsNotToUse"),
            new PaperBox(left, box.Top + Pad, width - Points.FromMm(16), Setting.Line(TitlePt)),
            TitlePt,
            bold: true
        );
        sheet.Tick(
            Texts.Get("sheet.told"),
            new PaperBox(
                box.Right - Pad - Points.FromMm(15),
                box.Top + Pad,
                Points.FromMm(15),
                Setting.Line(TitlePt)
            ),
            TitlePt
        );
        sheet.PrintLines(
            Lines(setting, box.Width),
            left,
            box.Top + Pad + Setting.Line(TitlePt),
            width,
            Setting.StandPt,
            bold: true
        );
    }

    private List<string> Lines(Setting setting, double widthPt)
    {
        for (var shown = gears.Length; ; shown--)
        {
            var text = string.Join(
                ", ",
                gears.Take(shown).Select(gear => Amount.Gear((gear.RingTeeth, gear.CogTeeth)))
            );
            if (shown < gears.Length)
            {
                text = Texts.Get("sheet.andMore", text, gears.Length - shown);
            }
            var lines = setting.Fit.Wrap(text, Setting.StandPt, true, widthPt - (2 * Pad));
            if (lines.Count <= MostLines || shown == 1)
            {
                return lines;
            }
        }
    }
}
