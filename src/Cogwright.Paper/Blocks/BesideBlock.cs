namespace Cogwright.Paper.Blocks;

/// <summary>Two blocks side by side; the one at the right keeps its width.</summary>
internal sealed class BesideBlock(Block left, Block right, double rightPt) : Block
{
    private const double ApartPt = 10;

    /// <inheritdoc/>
    internal override string Name => left.Name;

    /// <inheritdoc/>
    internal override IReadOnlyList<Block> Pieces => [left, right];

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        Math.Max(
            left.Measure(setting, widthPt - rightPt - ApartPt),
            right.Measure(setting, rightPt)
        );

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        var width = box.Width - rightPt - ApartPt;
        left.Draw(
            setting,
            sheet,
            box with
            {
                Width = width,
                Height = left.Measure(setting, width),
            }
        );
        right.Draw(
            setting,
            sheet,
            new PaperBox(box.Right - rightPt, box.Top, rightPt, right.Measure(setting, rightPt))
        );
    }
}
