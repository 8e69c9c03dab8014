using System.Collections.Immutable;

namespace Cogwright.Paper.Blocks;

/// <summary>The cautions that hold for the whole job, in one frame across the sheet.</summary>
internal sealed class TopCautions(ImmutableArray<string> cautions) : Block
{
    private const double Pad = 3;

    /// <inheritdoc/>
    internal override string Name => "cautions";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        cautions.IsEmpty
            ? 0
            : (Lines(setting, widthPt).Count * Setting.Line(Setting.SmallPt)) + (2 * Pad);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box);
        sheet.PrintLines(
            Lines(setting, box.Width),
            box.Left + Pad,
            box.Top + Pad,
            box.Width - (2 * Pad),
            Setting.SmallPt
        );
    }

    private List<string> Lines(Setting setting, double widthPt)
    {
        var form =
            setting.Density.TopInShort ? CautionForm.Hazard
            : setting.Density.Cautions == CautionForm.Full ? CautionForm.Full
            : CautionForm.HazardAndAvoidance;
        var text = string.Join(' ', cautions.Select(caution => SmallPrint.Form(caution, form)));
        if (!setting.Density.RepeatsCautions)
        {
            text += " " + Texts.Get("sheet.signLegend");
        }
        return setting.Fit.Wrap(
            Texts.Get("sheet.caution", text),
            Setting.SmallPt,
            false,
            widthPt - (2 * Pad)
        );
    }
}
