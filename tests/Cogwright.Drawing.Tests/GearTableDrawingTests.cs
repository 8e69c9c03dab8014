using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Tests;

namespace Cogwright.Drawing.Tests;

public class GearTableDrawingTests
{
    private static List<string> Words(Scene scene) =>
        [.. scene.Shapes.OfType<Label>().Select(l => l.Text)];

    [Fact]
    public void Cells_WorkedExample_HoldEveryGap()
    {
        var words = Words(GearTableDrawing.Draw(WorkedExample.Table));
        // Worked example of the model, §9, rounded to a tenth.
        Assert.All(
            (string[])["7.7", "22.2", "14.6", "5.4", "15.1", "6.4"],
            gap => Assert.Contains(gap, words)
        );
        Assert.All(
            (string[])["−19.8", "59.7", "−77.3", "7.3"],
            angle => Assert.Contains(angle, words)
        );
    }

    [Theory]
    [InlineData("short", "chain too short")]
    [InlineData("slack", "chain hangs")]
    [InlineData("clash", "pulley on cog")]
    [InlineData("unreachable", "not reached")]
    [InlineData("ok 34/30", "next cog")]
    public void Cell_EveryState_SaysItInWords(string state, string words)
    {
        var (_, table, _) = WorkedExample.EveryState().Single(s => s.Name == state);
        Assert.Contains(
            Words(GearTableDrawing.Draw(table)),
            text => text.StartsWith(words, StringComparison.Ordinal)
        );
    }

    /// <summary>Rub of the chain stands in the cell in words, and by a mark that no other cell has.</summary>
    [Fact]
    public void Cell_ChainRubsOnTheNextRing_SaysSoInWordsAndShape()
    {
        var wide = WorkedExample.Spec.Rings.Max(ring => ring.LateralMm);
        var table = WorkedExample.Table;
        var close = table with
        {
            Spec = table.Spec with
            {
                // The rings so close together that every crossing rubs.
                Rings =
                [
                    .. table.Spec.Rings.Select(ring =>
                        ring with
                        {
                            LateralMm = wide - (ring.Teeth == 50 ? 0 : 1),
                        }
                    ),
                ],
            },
        };
        var rubs = Findings.Of(close).Where(f => f.Kind == FindingKind.RubsNextRing).ToList();
        Assert.NotEmpty(rubs);
        var scene = GearTableDrawing.Draw(close);
        var lone = GearTableSolver.Solve(WorkedExample.SingleSpeed, 94);
        Assert.Equal(
            rubs.Count,
            Words(scene).Count(text => text.StartsWith("rubs ring", StringComparison.Ordinal))
        );
        Assert.Contains(
            Words(scene),
            text => text.StartsWith("roller against a plate", StringComparison.Ordinal)
        );
        Assert.DoesNotContain(
            Words(GearTableDrawing.Draw(lone)),
            text => text.StartsWith("roller against", StringComparison.Ordinal)
        );
        // No other mark has a roller of that size.
        Assert.Equal(rubs.Count, Rollers(scene));
        Assert.Equal(0, Rollers(GearTableDrawing.Draw(lone)));

        static int Rollers(Scene drawn) =>
            drawn.Shapes.OfType<Circle>().Count(circle => circle.Radius == 1);
    }

    [Fact]
    public void Cell_ChainRubsOnTheFrontCage_SaysSoInWords()
    {
        var table = FrontExample.Table(FrontExample.Spec);
        Assert.Contains(
            Findings.Of(table),
            finding =>
                finding.Kind == FindingKind.RubsFrontCage
                && table.Find(finding.Gear)!.Value.State == GearState.Ok
        );
        Assert.Contains(
            Words(GearTableDrawing.Draw(table)),
            text =>
                text.StartsWith("rubs cage", StringComparison.Ordinal)
                || text.StartsWith("rubs ring and cage", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Cell_GearNotUsed_SaysSo()
    {
        var table = WorkedExample.Table with
        {
            Spec = WorkedExample.Spec with { GearsNotUsed = [new(50, 34)] },
        };
        Assert.Contains("taut, not used", Words(GearTableDrawing.Draw(table)));
    }

    [Fact]
    public void Cell_LongState_StaysClearOfTheNumbers()
    {
        var derailleur = WorkedExample.Spec.RearDerailleur!;
        var table = WorkedExample.Table with
        {
            Spec = WorkedExample.Spec with
            {
                // Every gear is to be looked at, and none is to be used: the longest words there are.
                RearDerailleur = derailleur with
                {
                    LeastMarginMm = 1000,
                },
                GearsNotUsed = [.. WorkedExample.Table.Gears.Select(gear => gear.Gear)],
            },
        };
        var labels = GearTableDrawing.Draw(table).Shapes.OfType<Label>().ToList();
        Assert.Contains(labels, label => label.Text == "nearly too short,");
        Assert.Contains(labels, label => label.Text == "not used");
        var boxes = labels.ConvertAll(label => (label.Text, Box: Extent.Of(label)));
        for (var i = 0; i < boxes.Count; i++)
        {
            for (var j = i + 1; j < boxes.Count; j++)
            {
                var (a, b) = (boxes[i].Box, boxes[j].Box);
                Assert.False(
                    a.Left < b.Right && b.Left < a.Right && a.Bottom < b.Top && b.Bottom < a.Top,
                    $"'{boxes[i].Text}' and '{boxes[j].Text}' overlap"
                );
            }
        }
    }

    [Fact]
    public void Foot_ListStandsOnTheSamePaper_NamesNoAssumedValue()
    {
        var table = WorkedExample.Table with { Spec = WorkedExample.Assumed };
        var words = Words(GearTableDrawing.Draw(table, new() { NamesAssumed = false }));
        Assert.Contains("values marked assumed: see list", words);
        Assert.DoesNotContain(
            words,
            text => text.StartsWith("assumed, not measured", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Values_ThatDoNotExist_AreDashesAndNeverNaN()
    {
        var words = Words(GearTableDrawing.Draw(WorkedExample.Unreachable));
        Assert.Contains("–", words);
        Assert.DoesNotContain(words, text => text.Contains("NaN", StringComparison.Ordinal));
    }

    [Fact]
    public void Labels_WorkedExample_DoNotOverlap()
    {
        var boxes = GearTableDrawing
            .Draw(WorkedExample.Table)
            .Shapes.OfType<Label>()
            .Select(label => (label.Text, Box: Extent.Of(label)))
            .ToList();
        for (var i = 0; i < boxes.Count; i++)
        {
            for (var j = i + 1; j < boxes.Count; j++)
            {
                var (a, b) = (boxes[i].Box, boxes[j].Box);
                Assert.False(
                    a.Left < b.Right && b.Left < a.Right && a.Bottom < b.Top && b.Bottom < a.Top,
                    $"'{boxes[i].Text}' and '{boxes[j].Text}' overlap"
                );
            }
        }
    }

    [Fact]
    public void Size_TwoRings_FitsTheWidthOfAPage() =>
        // A4 less 12 mm at either side.
        Assert.InRange(GearTableDrawing.Draw(WorkedExample.Table).Width, 100, 190);
}
