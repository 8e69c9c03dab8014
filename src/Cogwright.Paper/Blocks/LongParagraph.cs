namespace Cogwright.Paper.Blocks;

/// <summary>A paragraph that goes on overleaf when it is longer than a page.</summary>
/// <param name="name">What it is, for the record of the layout.</param>
/// <param name="text">The text.</param>
/// <param name="sizePt">Size of the type (pt).</param>
/// <param name="bold">Whether it is bold.</param>
internal sealed class LongParagraph(string name, string text, double sizePt, bool bold) : Block
{
    // About what a line holds; a piece of so many words fits any page.
    private const int WordsOfAPiece = 300;

    /// <inheritdoc/>
    internal override string Name => name;

    /// <inheritdoc/>
    internal override IReadOnlyList<Block> Pieces =>
        text.Split(' ') is { Length: > WordsOfAPiece } words
            ?
            [
                .. words
                    .Chunk(WordsOfAPiece)
                    .Select(some => new Paragraph(
                        name,
                        string.Join(' ', some),
                        sizePt: sizePt,
                        bold: bold
                    )),
            ]
            : [this];

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Whole.Measure(setting, widthPt);

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box) =>
        Whole.Draw(setting, sheet, box);

    private Paragraph Whole => new(name, text, sizePt: sizePt, bold: bold);
}
