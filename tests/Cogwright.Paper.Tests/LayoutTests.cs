using Cogwright.Setup;

namespace Cogwright.Paper.Tests;

/// <summary>Nothing crosses a margin, nothing is printed over anything else, and what is read at the stand is large.</summary>
public sealed class LayoutTests
{
    public static IEnumerable<TheoryDataRow<string, PaperSize>> All => SheetCases.All;

    [Theory]
    [MemberData(nameof(All))]
    public void Blocks_AnyBike_StayInsideTheMargins(string name, PaperSize size)
    {
        var layout = SheetCases.Set(name, size).Layout;
        var inside = new PaperBox(
            layout.MarginPt,
            layout.MarginPt,
            layout.SideWidthPt - (2 * layout.MarginPt),
            layout.SideHeightPt - (2 * layout.MarginPt)
        );
        Assert.All(layout.Blocks, block => Assert.True(inside.Contains(block.Box), $"{block}"));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Blocks_AnyBike_DoNotOverlap(string name, PaperSize size)
    {
        var blocks = SheetCases.Set(name, size).Layout.Blocks;
        for (var i = 0; i < blocks.Length; i++)
        {
            for (var j = 0; j < i; j++)
            {
                Assert.False(
                    blocks[i].Side == blocks[j].Side && blocks[i].Box.Overlaps(blocks[j].Box),
                    $"{blocks[j]} and {blocks[i]}"
                );
            }
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Texts_AnyBike_StayInTheirCellsAndBlocks(string name, PaperSize size)
    {
        var layout = SheetCases.Set(name, size).Layout;
        // The line's height counts ascenders and descenders that few lines have: half a point is air.
        const double air = 0.5;
        Assert.All(
            layout.Printed,
            text =>
            {
                Assert.True(
                    text.Cell.Contains(text.Ink with { Top = text.Cell.Top, Height = 0 }, 0.1),
                    $"wider than its cell: {text}"
                );
                Assert.Contains(
                    layout.Blocks,
                    block =>
                        block.Side == text.Side
                        && block.Name == text.Block
                        && block.Box.Contains(text.Ink, air)
                );
            }
        );
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Texts_AnyBike_DoNotOverprint(string name, PaperSize size)
    {
        var texts = SheetCases.Set(name, size).Layout.Printed;
        const double air = 1;
        foreach (var side in texts.GroupBy(text => text.Side))
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

    [Theory]
    [MemberData(nameof(All))]
    public void Texts_AnyBike_AreNeverSmallerThanEightPoints(string name, PaperSize size) =>
        Assert.All(
            SheetCases.Set(name, size).Layout.Printed,
            text => Assert.InRange(text.SizePt, 8, 20)
        );

    [Theory]
    [MemberData(nameof(All))]
    public void Targets_AnyBike_EachStandsOnTheSheetInTheOrderOfWork(string name, PaperSize size)
    {
        var layout = SheetCases.Set(name, size).Layout;
        var stages = SheetCases
            .Content(name)
            .Stages.Where(stage => stage.Stage is not WorkStage.Inspection)
            .Select(stage => "stage:" + stage.Stage);
        Assert.Equal("stop", layout.Blocks.First(block => block.Name is "stop").Name);
        Assert.Equal(
            stages,
            layout
                .Blocks.Select(block => block.Name)
                .Where(block => block.StartsWith("stage:", StringComparison.Ordinal))
        );
        foreach (var torque in Torques(name))
        {
            Assert.Contains(layout.Blocks, block => block.Name == "target:" + torque.Id);
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Values_AnyBike_AreSetInFourteenPoints(string name, PaperSize size)
    {
        var layout = SheetCases.Set(name, size).Layout;
        foreach (var torque in Torques(name).Where(target => target.Lower is not null))
        {
            Assert.Contains(
                layout.Printed,
                text =>
                    text.Block == "target:" + torque.Id
                    && text.SizePt >= 14
                    && text.Text.Contains("N·m", StringComparison.Ordinal)
            );
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void StandSide_AnyBike_HoldsAllWorkAtTheRearWheel(string name, PaperSize size)
    {
        // What may begin side two: front derailleur, torque walk-round, test and handover.
        var last = new[]
        {
            "stage:" + WorkStage.Front,
            "stage:" + WorkStage.Torque,
            "stage:" + WorkStage.LoadedTest,
        };
        Assert.All(
            SheetCases
                .Set(name, size)
                .Layout.Blocks.Where(block =>
                    block.Name.StartsWith("stage:", StringComparison.Ordinal)
                    && !last.Contains(block.Name)
                ),
            block => Assert.Equal(0, block.Side)
        );
    }

    [Theory]
    [MemberData(nameof(All))]
    public void AssumedValues_AnyBike_AllStandInTheCompleteList(string name, PaperSize size)
    {
        var printed = string.Join(
            ' ',
            SheetCases
                .Set(name, size)
                .Layout.Printed.Where(text => text.Block == "assumed-list")
                .Select(text => text.Text)
        );
        Assert.All(
            SheetCases.Content(name).Assumed,
            value => Assert.Contains(value.Path, printed, StringComparison.Ordinal)
        );
    }

    private static IEnumerable<Target> Torques(string name) =>
        SheetCases
            .Content(name)
            .Stages.SelectMany(stage => stage.Targets)
            .Where(target => target.IsTorque);
}
