using Cogwright.Gearing;

namespace Cogwright.Drawing.Tests;

/// <summary>Gears of several set-ups on one scale.</summary>
public class GearLadderDrawingTests
{
    private static readonly GearLadder Road = GearLadder.Of(
        new("Road", [34, 50], [11, 22, 33], [new(50, 33)]),
        Tyre.OfRollOut(2105)
    );

    private static readonly GearLadder Tour = GearLadder.Of(
        new("Tour", [26, 36, 48], [11, 22, 33]),
        Tyre.OfSize(37, 622)
    );

    [Fact]
    public void Strokes_EqualSteps_AreEquallyFarApart()
    {
        // 22 to 11 is the same step on every ring: it takes the same room.
        var strokes = Strokes(GearLadderDrawing.Draw([Road, Tour]));
        var widths = strokes
            .GroupBy(line => line.Y1)
            .Select(lane => lane.OrderByDescending(line => line.X1).Take(2).ToList())
            .Select(pair => pair[0].X1 - pair[1].X1)
            .ToList();

        Assert.Equal(5, widths.Count);
        Assert.All(widths, width => Assert.Equal(widths[0], width, 1e-9));
    }

    [Fact]
    public void Strokes_OfAHigherGear_StandFurtherRight()
    {
        var strokes = Strokes(GearLadderDrawing.Draw([Road]));

        Assert.Equal(5, strokes.Count);
        Assert.Equal(50 / 11.0, Road.Highest.Ratio, 1e-12);
        Assert.Equal(strokes.Max(line => line.X1), strokes[^1].X1);
    }

    [Fact]
    public void Scene_OfTwo_NamesBothAndKeepsAllInside()
    {
        var scene = GearLadderDrawing.Draw([Road, Tour]);
        var labels = scene.Shapes.OfType<Label>().Select(label => label.Text).ToList();

        Assert.Contains(labels, text => text.StartsWith("Road", StringComparison.Ordinal));
        Assert.Contains(labels, text => text.StartsWith("Tour", StringComparison.Ordinal));
        Assert.Contains("km/h at 90 rpm", labels);
        var extent = Extent.Of(scene.Shapes);
        Assert.True(extent.Left >= scene.Left && extent.Right <= scene.Right);
        Assert.True(extent.Bottom >= scene.Bottom && extent.Top <= scene.Top);
        Assert.DoesNotContain("NaN", SvgWriter.Write(scene), StringComparison.Ordinal);
    }

    [Fact]
    public void Scene_OfOneGear_IsDrawn()
    {
        var fixedGear = GearLadder.Of(new("Fixed", [44], [16]), Tyre.OfSize(28, 622));

        Assert.Single(Strokes(GearLadderDrawing.Draw([fixedGear])));
    }

    [Fact]
    public void Scene_OfNothing_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => GearLadderDrawing.Draw([]));

    private static List<Line> Strokes(Scene scene) =>
        [.. scene.Shapes.OfType<Line>().Where(line => line.Stroke == Stroke.Part)];
}
