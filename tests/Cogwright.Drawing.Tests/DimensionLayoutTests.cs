namespace Cogwright.Drawing.Tests;

public class DimensionLayoutTests
{
    private static readonly Dimension Long = new(0, 0, 100, 0, 20, "100 mm", 3);

    [Fact]
    public void Shapes_LongDistance_PointArrowsOutwardAtItsEnds()
    {
        var arrows = DimensionLayout.Shapes(Long).OfType<Polyline>().ToList();
        Assert.Equal([(0.0, 20.0), (100.0, 20.0)], arrows.Select(a => a.Points[0]));
        Assert.True(arrows[0].Points[1].X > 0);
        Assert.True(arrows[1].Points[1].X < 100);
    }

    [Fact]
    public void Shapes_ShortDistance_PointArrowsInwardFromOutside()
    {
        var arrows = DimensionLayout
            .Shapes(Long with { X2 = 4, Text = "4 mm" })
            .OfType<Polyline>()
            .ToList();
        Assert.True(arrows[0].Points[1].X < 0);
        Assert.True(arrows[1].Points[1].X > 4);
    }

    [Theory]
    [InlineData(100, 0)]
    [InlineData(-100, 0)]
    [InlineData(0, 100)]
    [InlineData(0, -100)]
    [InlineData(-70, 70)]
    public void Text_AnyDirection_IsNeverUpsideDown(double x2, double y2)
    {
        var text = DimensionLayout.Shapes(Long with { X2 = x2, Y2 = y2 }).OfType<Label>().Single();
        Assert.InRange(text.TurnRad, -Math.PI / 2 + 1e-9, Math.PI / 2 + 1e-9);
    }

    [Fact]
    public void Offset_Negative_LiesToTheRight() =>
        Assert.All(
            DimensionLayout.Shapes(Long with { OffsetMm = -20 }).OfType<Polyline>(),
            arrow => Assert.Equal(-20, arrow.Points[0].Y)
        );
}
