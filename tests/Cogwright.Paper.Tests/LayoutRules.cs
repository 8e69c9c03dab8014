namespace Cogwright.Paper.Tests;

/// <summary>What holds for every paper: nothing crosses a margin, nothing is printed over anything else.</summary>
internal static class LayoutRules
{
    internal static void InsideTheMargins(WorksheetLayout layout)
    {
        var inside = new PaperBox(
            layout.MarginPt,
            layout.MarginPt,
            layout.SideWidthPt - (2 * layout.MarginPt),
            layout.SideHeightPt - (2 * layout.MarginPt)
        );
        Assert.All(layout.Blocks, block => Assert.True(inside.Contains(block.Box), $"{block}"));
    }

    internal static void BlocksApart(WorksheetLayout layout)
    {
        foreach (var side in layout.Blocks.GroupBy(block => block.Side))
        {
            PlacedBlock[] blocks = [.. side];
            for (var i = 0; i < blocks.Length; i++)
            {
                for (var j = 0; j < i; j++)
                {
                    Assert.False(
                        blocks[i].Box.Overlaps(blocks[j].Box),
                        $"{blocks[j]} and {blocks[i]}"
                    );
                }
            }
        }
    }

    internal static void TextsInTheirCells(WorksheetLayout layout)
    {
        // The line's height counts ascenders and descenders that few lines have: half a point is air.
        const double air = 0.5;
        var blocks = layout.Blocks.ToLookup(block => (block.Side, block.Name));
        Assert.All(
            layout.Printed,
            text =>
            {
                Assert.True(
                    text.Cell.Contains(text.Ink with { Top = text.Cell.Top, Height = 0 }, 0.1),
                    $"wider than its cell: {text}"
                );
                Assert.Contains(
                    blocks[(text.Side, text.Block)],
                    block => block.Box.Contains(text.Ink, air)
                );
            }
        );
    }

    internal static void TextsApart(WorksheetLayout layout)
    {
        const double air = 1;
        foreach (var side in layout.Printed.GroupBy(text => text.Side))
        {
            var sorted = side.OrderBy(text => text.Ink.Top).ToList();
            for (var i = 0; i < sorted.Count; i++)
            {
                for (
                    var j = i + 1;
                    j < sorted.Count && sorted[j].Ink.Top < sorted[i].Ink.Bottom;
                    j++
                )
                {
                    Assert.False(
                        sorted[i].Ink.Overlaps(sorted[j].Ink, air),
                        $"{sorted[i]} and {sorted[j]}"
                    );
                }
            }
        }
    }

    internal static void EightPointsAtLeast(WorksheetLayout layout) =>
        Assert.All(layout.Printed, text => Assert.InRange(text.SizePt, 8, 20));
}
