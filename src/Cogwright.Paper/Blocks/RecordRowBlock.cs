using Cogwright.Setup.Records;

namespace Cogwright.Paper.Blocks;

/// <summary>One step of a record in five columns: step, asked for, came to, read with, by whom and when.</summary>
internal sealed class RecordRowBlock(string name, RecordRow row, bool isHead) : Block
{
    private const double Gap = 5;
    private const double Pad = 1.5;

    // A row higher than a page goes on overleaf: so many words fit the narrowest column of any page.
    private const int WordsOfAPiece = 100;

    // The widest for what is longest; together 1.
    private static readonly double[] Parts = [0.28, 0.24, 0.21, 0.15, 0.12];

    /// <inheritdoc/>
    internal override string Name => name;

    /// <inheritdoc/>
    internal override bool StaysWithNext => isHead;

    /// <inheritdoc/>
    internal override IReadOnlyList<Block> Pieces =>
        Cells.Max(text => text.Split(' ').Length) is > WordsOfAPiece and var most
            ?
            [
                .. Enumerable
                    .Range(0, (most + WordsOfAPiece - 1) / WordsOfAPiece)
                    .Select(piece => new RecordRowBlock(
                        name,
                        new(
                            Piece(row.Step, piece),
                            Piece(row.Asked, piece),
                            Piece(row.Came, piece),
                            Piece(row.With, piece),
                            Piece(row.By, piece)
                        ),
                        isHead
                    )),
            ]
            : [this];

    private string[] Cells => [row.Step, row.Asked, row.Came, row.With, row.By];

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        (2 * Pad)
        + Cells
            .Select(
                (text, i) => setting.HeightOf(text, Setting.SmallPt, IsBold(i), WidthOf(i, widthPt))
            )
            .Max();

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        sheet.Begin(Name, box);
        var left = box.Left;
        foreach (var (i, text) in Cells.Index())
        {
            var width = WidthOf(i, box.Width);
            sheet.PrintLines(
                setting.Fit.Wrap(text, Setting.SmallPt, IsBold(i), width),
                left,
                box.Top + Pad,
                width,
                Setting.SmallPt,
                IsBold(i)
            );
            left += width + Gap;
        }
        sheet.Rule(box.Left, box.Bottom, box.Right, box.Bottom, isHead ? 1 : 0.3);
    }

    private static string Piece(string text, int piece) =>
        string.Join(' ', text.Split(' ').Skip(piece * WordsOfAPiece).Take(WordsOfAPiece));

    private bool IsBold(int column) => isHead || column == 2;

    private static double WidthOf(int column, double widthPt) =>
        (widthPt - (Gap * (Parts.Length - 1))) * Parts[column];
}
