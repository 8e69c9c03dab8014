using Cogwright.Drivetrain;
using Cogwright.Drivetrain.Bench;
using Cogwright.Setup.Tests;

namespace Cogwright.Paper.Tests;

/// <summary>The measuring form: every distance has its box, its drawing and its room; nothing lies over anything.</summary>
public sealed class MeasuringFormTests
{
    private static DrivetrainSpec Bike => Bikes.Double;

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Form_Printed_HasABoxForEveryDistanceInsideTheMargins(PaperSize size)
    {
        var (pdf, layout) = MeasuringForm.Set(Bike, size);
        using var document = Pdf.Open(pdf);
        Assert.Equal(2, document.PageCount);
        var names = layout.Blocks.Select(b => b.Name).ToHashSet(StringComparer.Ordinal);
        Assert.All(
            Enum.GetValues<BenchDistance>(),
            distance => Assert.Contains("measure:" + BenchNames.Path(distance), names)
        );
        var inside = new PaperBox(
            layout.MarginPt,
            layout.MarginPt,
            layout.SideWidthPt - (2 * layout.MarginPt),
            layout.SideHeightPt - (2 * layout.MarginPt)
        );
        Assert.All(layout.Blocks, block => Assert.True(inside.Contains(block.Box), $"{block}"));
        Assert.All(layout.Printed, text => Assert.True(inside.Contains(text.Ink), $"{text}"));
    }

    [Theory]
    [InlineData(PaperSize.A4)]
    [InlineData(PaperSize.Letter)]
    public void Form_Printed_NothingOverlapsAndNumbersAreLarge(PaperSize size)
    {
        var layout = MeasuringForm.Set(Bike, size).Layout;
        var cells = layout
            .Blocks.Where(b => b.Name.StartsWith("measure:", StringComparison.Ordinal))
            .ToList();
        for (var i = 0; i < cells.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                Assert.False(
                    cells[i].Side == cells[j].Side && cells[i].Box.Overlaps(cells[j].Box),
                    $"{cells[j]} and {cells[i]}"
                );
            }
        }
        var numbers = layout.Printed.Where(t => t.SizePt == 14).Select(t => t.Text);
        Assert.Equal(Enumerable.Range(1, cells.Count).Select(n => $"{n}"), numbers);
        // No sentence was cut for want of room.
        Assert.DoesNotContain(layout.Printed, t => t.Text.Contains('…', StringComparison.Ordinal));
    }

    [Fact]
    public void Scene_OfEveryDistance_ShowsBothEndsInside()
    {
        foreach (
            var place in BenchMeasurements.Form(Bike).AddRange(BenchMeasurements.Further(Bike))
        )
        {
            var scene = Drawing.MeasuringScene.Of(Bike, place, "1", 45, 40)!;
            var ends = scene
                .Shapes.OfType<Drawing.Circle>()
                .Where(c => c.Stroke == Drawing.Stroke.Warning)
                .ToList();
            Assert.Equal(2, ends.Count);
            Assert.All(
                ends,
                end =>
                {
                    Assert.InRange(end.X, scene.Left, scene.Right);
                    Assert.InRange(end.Y, scene.Bottom, scene.Top);
                }
            );
            Assert.InRange(scene.Width * scene.PaperScale, 0, 45.001);
            Assert.InRange(scene.Height * scene.PaperScale, 0, 40.001);
            if (BenchPose.Of(Bike, place)!.Ends is { } measured)
            {
                var drawn = new Point(ends[0].X - ends[1].X, ends[0].Y - ends[1].Y).Length;
                Assert.Equal((measured.From - measured.To).Length, drawn, 1e-9);
            }
        }
    }

    [Fact]
    public void Form_SameBike_SameBytes() =>
        Assert.Equal(
            MeasuringForm.Write(Bike, PaperSize.A4),
            MeasuringForm.Write(Bike, PaperSize.A4)
        );
}
