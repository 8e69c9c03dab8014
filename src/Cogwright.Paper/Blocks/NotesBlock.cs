namespace Cogwright.Paper.Blocks;

/// <summary>What is left of a column, framed for notes.</summary>
internal sealed class NotesBlock : Block
{
    /// <inheritdoc/>
    internal override string Name => "notes";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) => Points.FromMm(9);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + 3, Height = box.Height - 3 }, 0.5);
        sheet.Print(
            Texts.Get("sheet.notes"),
            new PaperBox(box.Left + 3, box.Top + 4, box.Width - 6, Setting.Line(Setting.SmallPt)),
            Setting.SmallPt
        );
    }
}
