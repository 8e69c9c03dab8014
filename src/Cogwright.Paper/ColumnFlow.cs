using Cogwright.Paper.Blocks;

namespace Cogwright.Paper;

/// <summary>
/// Fills columns with blocks in order, from the top of the first to the foot of the last. A heading is never left
/// alone at the foot of a column.
/// </summary>
internal sealed class ColumnFlow(IReadOnlyList<PaperBox> columns)
{
    private const double Slack = 0.01;

    private readonly List<(Block Block, PaperBox Box)> _placed = [];

    /// <summary>What was placed, where.</summary>
    internal IReadOnlyList<(Block Block, PaperBox Box)> Placed => _placed;

    /// <summary>Places as many blocks as the columns hold; returns those that are left.</summary>
    internal List<Block> Fill(Setting setting, IReadOnlyList<Block> blocks)
    {
        var column = 0;
        var top = columns[0].Top;
        var at = 0;
        while (at < blocks.Count)
        {
            var group = GroupFrom(blocks, at);
            var heights = group.ConvertAll(block => block.Measure(setting, columns[column].Width));
            if (top + heights.Sum() > columns[column].Bottom + Slack)
            {
                if (++column == columns.Count)
                {
                    break;
                }
                top = columns[column].Top;
                continue;
            }
            for (var i = 0; i < group.Count; i++)
            {
                if (heights[i] > 0)
                {
                    var box = columns[column] with { Top = top, Height = heights[i] };
                    _placed.Add((group[i], box));
                    top += heights[i];
                }
            }
            at += group.Count;
        }
        return [.. blocks.Skip(at)];
    }

    private static List<Block> GroupFrom(IReadOnlyList<Block> blocks, int at)
    {
        var group = new List<Block> { blocks[at] };
        while (group[^1].StaysWithNext && at + group.Count < blocks.Count)
        {
            group.Add(blocks[at + group.Count]);
        }
        return group;
    }
}
