using Cogwright.Setup;

namespace Cogwright.Paper.Tests;

/// <summary>Nothing crosses a margin, nothing is printed over anything else, and what is read at the stand is large.</summary>
public sealed class LayoutTests
{
    public static IEnumerable<TheoryDataRow<string, PaperSize>> All => SheetCases.All;

    [Theory]
    [MemberData(nameof(All))]
    public void Blocks_AnyBike_StayInsideTheMargins(string name, PaperSize size) =>
        LayoutRules.InsideTheMargins(SheetCases.Set(name, size).Layout);

    [Theory]
    [MemberData(nameof(All))]
    public void Blocks_AnyBike_DoNotOverlap(string name, PaperSize size) =>
        LayoutRules.BlocksApart(SheetCases.Set(name, size).Layout);

    [Theory]
    [MemberData(nameof(All))]
    public void Texts_AnyBike_StayInTheirCellsAndBlocks(string name, PaperSize size) =>
        LayoutRules.TextsInTheirCells(SheetCases.Set(name, size).Layout);

    [Theory]
    [MemberData(nameof(All))]
    public void Texts_AnyBike_DoNotOverprint(string name, PaperSize size) =>
        LayoutRules.TextsApart(SheetCases.Set(name, size).Layout);

    [Theory]
    [MemberData(nameof(All))]
    public void Texts_AnyBike_AreNeverSmallerThanEightPoints(string name, PaperSize size) =>
        LayoutRules.EightPointsAtLeast(SheetCases.Set(name, size).Layout);

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
        foreach (var torque in Torques(name).Where(target => !IsInGrid(name, target)))
        {
            Assert.Contains(layout.Blocks, block => block.Name == "target:" + torque.Id);
        }
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Values_AnyBike_AreSetInFourteenPoints(string name, PaperSize size)
    {
        var layout = SheetCases.Set(name, size).Layout;
        foreach (
            var torque in Torques(name)
                .Where(target => target.Lower is not null && !IsInGrid(name, target))
        )
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
    public void StandSide_AnyBike_HoldsTheWholeWorkOrder(string name, PaperSize size)
    {
        var layout = SheetCases.Set(name, size).Layout;
        string[] work = ["stop", "stage:", "target:", "ticks:", "chain", "turns", "hanger-clock"];
        Assert.All(
            layout.Blocks.Where(block =>
                block.Name is "tightened-before" or "gears-not-to-use"
                || work.Any(kind => block.Name.StartsWith(kind, StringComparison.Ordinal))
            ),
            block => Assert.True(block.Side == 0 || block.Name == "chain-reasons", $"{block}")
        );
    }

    [Theory]
    [MemberData(nameof(All))]
    public void StandSide_AnyBike_CutsNoSentenceShort(string name, PaperSize size) =>
        Assert.DoesNotContain(
            SheetCases.Set(name, size).Layout.Printed,
            text =>
                text.Side == 0
                && text.Block is not ("header" or "assumed")
                && text.Text.Contains('…', StringComparison.Ordinal)
        );

    [Theory]
    [MemberData(nameof(All))]
    public void StandSide_AnyBike_FillsBothColumns(string name, PaperSize size)
    {
        var layout = SheetCases.Set(name, size).Layout;
        // Work that needs less than the side leaves a strip for notes below both columns.
        var columns = layout
            .Blocks.Where(block =>
                block.Side == 0 && block.Box.Width < layout.SideWidthPt / 2 && block.Name != "notes"
            )
            .GroupBy(block => block.Box.Left)
            .Select(column => column.Max(block => block.Box.Bottom))
            .ToList();
        Assert.Equal(2, columns.Count);
        // A block is never split between them.
        Assert.InRange(Math.Abs(columns[0] - columns[1]), 0, 90);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void StandSide_AnyBike_SaysEveryConventionInOneLine(string name, PaperSize size)
    {
        var printed = SheetCases.Set(name, size).Layout.Printed.Where(text => text.Side == 0);
        var words = string.Join(' ', printed.Select(text => text.Text));
        // How a torque is read is said once; how links are counted, by "55 inner + 55 outer".
        Assert.All(
            SheetCases
                .Content(name)
                .Stages.SelectMany(stage => stage.Targets)
                .Where(target => !target.IsTorque && target.Id != TargetNames.ChainPitches),
            target =>
                Assert.Contains(
                    target.ConventionInShort ?? target.Convention,
                    words,
                    StringComparison.Ordinal
                )
        );
    }

    [Fact]
    public void StandSide_MoreWorkThanItHolds_SendsTheLastStagesOverleaf()
    {
        var content = SheetCases.Content("model: triple-cable");
        var stages = content.Stages.Select(stage =>
            stage.Stage is WorkStage.LoadedTest
                ? stage with
                {
                    Targets =
                    [
                        .. Enumerable
                            .Range(0, 40)
                            .Select(i => stage.Targets[0] with { Id = $"more-{i}" }),
                    ],
                }
                : stage
        );
        var layout = Worksheet
            .Set(content with { Stages = [.. stages] }, [], PaperSize.Letter)
            .Layout;
        Assert.Equal(0, SideOf(layout, WorkStage.Front));
        Assert.Equal(1, SideOf(layout, WorkStage.LoadedTest));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Torques_TightenedInAStage_HaveOneLineThereAndATickInTheWalkRound(
        string name,
        PaperSize size
    )
    {
        var layout = SheetCases.Set(name, size).Layout;
        foreach (var torque in Torques(name).Where(target => IsInGrid(name, target)))
        {
            Assert.DoesNotContain(layout.Blocks, block => block.Name == "target:" + torque.Id);
            Assert.Contains(
                layout.Printed,
                text =>
                    text.Block == "tightened-before"
                    && text.Text == (torque.TitleInShort ?? torque.Title)
            );
        }
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

    private static int SideOf(WorksheetLayout layout, WorkStage stage) =>
        layout.Blocks.Single(block => block.Name == "stage:" + stage).Side;

    private static bool IsInGrid(string name, Target target) =>
        target.Id.StartsWith("torque-", StringComparison.Ordinal)
        && Torques(name).Any(first => first.Id == "tighten-" + target.Id["torque-".Length..]);

    private static IEnumerable<Target> Torques(string name) =>
        SheetCases
            .Content(name)
            .Stages.SelectMany(stage => stage.Targets)
            .Where(target => target.IsTorque);
}
