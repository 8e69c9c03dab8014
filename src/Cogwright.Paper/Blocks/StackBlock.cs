namespace Cogwright.Paper.Blocks;

/// <summary>Blocks below one another that are kept together.</summary>
internal sealed class StackBlock(IReadOnlyList<Block> blocks) : Block
{
    /// <summary>Whether there is nothing in it.</summary>
    internal bool IsEmpty => blocks.Count == 0;

    /// <inheritdoc/>
    internal override string Name => blocks[0].Name;

    /// <inheritdoc/>
    internal override IReadOnlyList<Block> Pieces => blocks;

    /// <inheritdoc/>
    internal override double Measure(Setting setting, double widthPt) =>
        blocks.Sum(block => block.Measure(setting, widthPt));

    /// <inheritdoc/>
    internal override void Draw(Setting setting, Sheet sheet, PaperBox box)
    {
        var top = box.Top;
        foreach (var block in blocks)
        {
            var height = block.Measure(setting, box.Width);
            if (height > 0)
            {
                block.Draw(setting, sheet, box with { Top = top, Height = height });
                top += height;
            }
        }
    }

    /// <summary>Blocks that each are no higher than a page: one that is higher comes apart, and its pieces when they must.</summary>
    /// <param name="block">The block.</param>
    /// <param name="setting">How it is set.</param>
    /// <param name="widthPt">Width of the page (pt).</param>
    /// <param name="heightPt">Height of the page (pt).</param>
    internal static IEnumerable<Block> NoHigherThan(
        Block block,
        Setting setting,
        double widthPt,
        double heightPt
    ) =>
        block.Pieces is [var first, ..] pieces
        && first != block
        && block.Measure(setting, widthPt) > heightPt
            ? pieces.SelectMany(each => NoHigherThan(each, setting, widthPt, heightPt))
            : [block];
}
