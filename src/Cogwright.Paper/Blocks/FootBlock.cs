namespace Cogwright.Paper.Blocks;

/// <summary>The foot of a side: which bike, which side.</summary>
/// <param name="text">What it is the foot of.</param>
/// <param name="number">Which side of how many, in words.</param>
internal sealed class FootBlock(string text, string number) : Block
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
        var width = setting.Fit.Width(number, Setting.SmallPt, true) + 1;
        sheet.Print(text, box with { Width = box.Width - width - 12 }, Setting.SmallPt);
        sheet.Print(
            number,
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
