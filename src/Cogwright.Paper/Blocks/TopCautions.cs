using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>
/// The cautions that hold for the whole job, in short, in one frame across the sheet; and once for all torques how one
/// is read.
/// </summary>
internal sealed class TopCautions(WorksheetContent content) : Block
{
    private const double Pad = 3;
    private const double AbovePt = 2;

    /// <inheritdoc/>
    internal override string Name => "cautions";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (Lines(setting, widthPt).Count * Setting.Line(Setting.SmallPt)) + (2 * AbovePt);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box);
        sheet.PrintLines(
            Lines(setting, box.Width),
            box.Left + Pad,
            box.Top + AbovePt,
            box.Width - (2 * Pad),
            Setting.SmallPt
        );
    }

    private List<string> Lines(Setting setting, double widthPt)
    {
        ImmutableArray<string> inShort = StageCautions.InShort(
            content.Cautions,
            content.CautionsInShort
        );
        var text = Texts.Get(
            "sheet.caution",
            string.Join(' ', [.. inShort, Texts.Get("sheet.signLegend")])
        );
        var torque = content
            .Stages.SelectMany(stage => stage.Targets)
            .FirstOrDefault(target => target is { IsTorque: true, Convention.Length: > 0 });
        if (torque is not null)
        {
            text +=
                " "
                + Texts.Get(
                    "sheet.torqueConvention",
                    char.ToLowerInvariant(torque.Convention[0]) + torque.Convention[1..]
                );
        }
        return setting.Fit.Wrap(text, Setting.SmallPt, false, widthPt - (2 * Pad));
    }
}
