namespace Cogwright.Paper.Blocks;

/// <summary>A text in a frame of its own, so that it is not passed over.</summary>
/// <param name="name">What it is, for the record of the layout.</param>
/// <param name="text">The text.</param>
/// <param name="sizePt">Size of the type (pt).</param>
/// <param name="bold">Whether it is bold.</param>
internal sealed class FramedText(string name, string text, double sizePt, bool bold) : Block
{
    private const double Pad = 4;
    private const double AbovePt = 2;

    /// <inheritdoc/>
    internal override string Name => name;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (2 * AbovePt) + Pad + (Lines(setting, widthPt).Count * Setting.Line(sizePt));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        sheet.Frame(box with { Top = box.Top + AbovePt, Height = box.Height - (2 * AbovePt) }, 1.2);
        sheet.PrintLines(
            Lines(setting, box.Width),
            box.Left + Pad,
            box.Top + AbovePt + (Pad / 2),
            box.Width - (2 * Pad),
            sizePt,
            bold
        );
    }

    private List<string> Lines(Setting setting, double widthPt) =>
        setting.Fit.Wrap(text, sizePt, bold, widthPt - (2 * Pad));
}
