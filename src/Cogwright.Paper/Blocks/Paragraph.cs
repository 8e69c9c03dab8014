namespace Cogwright.Paper.Blocks;

/// <summary>A heading or a paragraph.</summary>
/// <param name="name">What it is, for the record of the layout.</param>
/// <param name="text">The text.</param>
/// <param name="heading">Whether it belongs to what follows; then it is bold.</param>
/// <param name="sizePt">Size of the type (pt); that of side two when null.</param>
/// <param name="bold">Whether it is bold.</param>
internal sealed class Paragraph(
    string name,
    string text,
    bool heading = false,
    double? sizePt = null,
    bool bold = false
) : Block
{
    private const double HeadingPt = 10;
    private const double TextPt = Setting.SmallPt;
    private const double Above = 1.5;

    /// <inheritdoc/>
    internal override string Name => name;

    /// <inheritdoc/>
    internal override bool StaysWithNext => heading;

    private double SizePt => sizePt ?? (heading ? HeadingPt : TextPt);

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Above + setting.HeightOf(text, SizePt, heading || bold, widthPt);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.PrintLines(
            setting.Fit.Wrap(text, SizePt, heading || bold, box.Width),
            box.Left,
            box.Top + Above,
            box.Width,
            SizePt,
            heading || bold
        );
    }
}
