namespace Cogwright.Paper.Blocks;

/// <summary>The foot of a side: which bike, which side.</summary>
internal sealed class FootBlock(string bikeName, int side, int sides) : Block
{
    /// <inheritdoc/>
    internal override string Name => "foot";

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Setting.Line(Setting.SmallPt);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var page = Texts.Get("sheet.sideOf", side, sides);
        var width = setting.Fit.Width(page, Setting.SmallPt, true) + 1;
        sheet.Print(bikeName, box with { Width = box.Width - width - 12 }, Setting.SmallPt);
        sheet.Print(
            page,
            box with
            {
                Left = box.Right - width,
                Width = width,
            },
            Setting.SmallPt,
            bold: true,
            align: Align.End
        );
    }
}
