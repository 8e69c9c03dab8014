namespace Cogwright.Drawing.Tests;

public class GapViewTests
{
    [Theory]
    [MemberData(nameof(SideViewTests.Gears), MemberType = typeof(SideViewTests))]
    public void Dimension_EveryGear_IsAsLongAsTheGap(int ring, int cog)
    {
        var scene = GapView.Draw(WorkedExample.Table, new(ring, cog));
        var gap = Assert.Single(scene.Shapes.OfType<Dimension>());
        var length = Math.Sqrt(
            ((gap.X2 - gap.X1) * (gap.X2 - gap.X1)) + ((gap.Y2 - gap.Y1) * (gap.Y2 - gap.Y1))
        );
        Assert.Equal(WorkedExample.Table.Find(new(ring, cog))!.Value.GapMm, length, 1e-9);
    }

    [Theory]
    [MemberData(nameof(SideViewTests.States), MemberType = typeof(SideViewTests))]
    public void Shapes_EveryState_LieInsideTheBox(string state)
    {
        var (_, table, gear) = WorkedExample.EveryState().Single(s => s.Name == state);
        var scene = GapView.Draw(table, gear);
        var extent = Extent.Of(scene.Shapes);
        Assert.InRange(extent.Left, scene.Left, scene.Right);
        Assert.InRange(extent.Right, scene.Left, scene.Right);
        Assert.InRange(extent.Bottom, scene.Bottom, scene.Top);
        Assert.InRange(extent.Top, scene.Bottom, scene.Top);
    }

    [Fact]
    public void Size_TrueScale_FitsBesideAStepOnPaper()
    {
        var scene = GapView.Draw(WorkedExample.Table, new(34, 34));
        Assert.Equal(1, scene.PaperScale);
        Assert.InRange(scene.Width, 80, 130);
    }

    [Fact]
    public void Wanted_WithTolerance_StandsOnTheDrawing() =>
        Assert.Contains(
            GapView
                .Draw(WorkedExample.Table, new(34, 34), new() { WantedMm = 7, ToleranceMm = 1 })
                .Shapes.OfType<Label>(),
            label => label.Text == "wanted 7.0 ± 1.0 mm"
        );

    [Fact]
    public void Gap_GearWithoutPose_SaysWhyThereIsNone()
    {
        var (_, table, gear) = WorkedExample.EveryState().Single(s => s.Name == "slack");
        var label = GapView.Draw(table, gear).Shapes.OfType<Label>().First();
        Assert.StartsWith("No gap to show. Chain hangs", label.Text, StringComparison.Ordinal);
    }
}
