namespace Cogwright.Paper.Blocks;

/// <summary>A heading or a paragraph of side two.</summary>
internal sealed class Paragraph(string name, string text, bool heading = false) : Block
{
    private const double HeadingPt = 10;
    private const double TextPt = Setting.SmallPt;
    private const double Above = 1.5;

    /// <inheritdoc/>
    internal override string Name => name;

    /// <inheritdoc/>
    internal override bool StaysWithNext => heading;

    private double SizePt => heading ? HeadingPt : TextPt;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Above + setting.HeightOf(text, SizePt, heading, widthPt);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.PrintLines(
            setting.Fit.Wrap(text, SizePt, heading, box.Width),
            box.Left,
            box.Top + Above,
            box.Width,
            SizePt,
            heading
        );
    }
}
