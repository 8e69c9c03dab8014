using Cogwright.Setup;

namespace Cogwright.Paper.Blocks;

/// <summary>A gap that is off, and how far to turn the screw for it: works with the computer switched off.</summary>
internal sealed class TurnTableBlock(TurnTable turns) : Block
{
    private const double Pad = 3;

    /// <inheritdoc/>
    internal override string Name => "turns";

    private static double RowPt(Setting setting) => Math.Clamp(setting.Density.TitlePt, 10, 12);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (2 * Pad)
        + 3
        + (TitleLines(setting, widthPt).Count * Setting.Line(RowPt(setting)))
        + (turns.Rows.Length * Setting.Line(RowPt(setting)))
        + (NoteLines(setting, widthPt).Count * Setting.Line(Setting.SmallPt));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + 2, Height = box.Height - 3 });
        var (left, width) = (box.Left + Pad, box.Width - (2 * Pad));
        var size = RowPt(setting);
        var top = sheet.PrintLines(
            TitleLines(setting, box.Width),
            left,
            box.Top + 2 + Pad,
            width,
            size,
            bold: true
        );
        var line = Setting.Line(size);
        var first = width * 0.4;
        foreach (var row in turns.Rows)
        {
            sheet.Rule(left, top, left + width, top, 0.3);
            sheet.Print(row.Gap, new PaperBox(left, top, first - 3, line), size);
            sheet.Print(
                row.Action,
                new PaperBox(left + first, top, width - first, line),
                size,
                bold: true
            );
            top += line;
        }
        sheet.PrintLines(NoteLines(setting, box.Width), left, top, width, Setting.SmallPt);
    }

    private List<string> TitleLines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(
            turns.Tool is { } tool
                ? Texts.Get("TurnTitleTool", turns.Screw, tool, Amount.Gear(turns.Gear))
                : Texts.Get("TurnTitle", turns.Screw, Amount.Gear(turns.Gear)),
            RowPt(setting),
            true,
            widthPt - (2 * Pad)
        );

    private List<string> NoteLines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(
            string.Join(' ', setting.Density.Notes ? turns.Notes : turns.Notes.Take(1)),
            Setting.SmallPt,
            false,
            widthPt - (2 * Pad)
        );
}
