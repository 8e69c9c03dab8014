using Cogwright.Drivetrain;

namespace Cogwright.Drawing.Tests;

/// <summary>A sprung body is drawn where it stands in the gear that is drawn.</summary>
public sealed class SprungDrawingTests
{
    private static readonly DrivetrainSpec Spec = WorkedExample.Table.Spec with
    {
        RearDerailleur = WorkedExample.Table.Spec.RearDerailleur! with
        {
            Sprung = new(0, 0.7, 1.2, 1.2),
            Cage = WorkedExample.Table.Spec.RearDerailleur!.Cage with { Spring = new(0.9, 0.35) },
        },
    };

    /// <summary>Every pin of the chain is drawn only where the drawn path takes exactly the chain: with body and cage in their balance.</summary>
    [Theory]
    [InlineData(34, 11, 110)]
    [InlineData(34, 34, 110)]
    [InlineData(50, 34, 110)]
    [InlineData(34, 34, 112)]
    public void SideView_SprungBody_StandsWhereItBalancesInThatGear(int ring, int cog, int pitches)
    {
        var table = GearTableSolver.Solve(Spec, pitches);
        var gear = table.Find(new(ring, cog))!.Value;
        Assert.Equal(BodyRest.Balanced, gear.BodyRest);
        var circles = SideView.Draw(table, gear.Gear).Shapes.OfType<Circle>().ToList();
        Assert.Equal(pitches, circles.Count(c => c.Stroke == Stroke.Chain));
        var upper =
            Spec.Frame.Axle
            + Spec.Hanger!.OffsetMm
            + Spec.RearDerailleur!.UpperPivotMm.Turned(gear.BodyAngleRad);
        Assert.Contains(circles, c => (new Point(c.X, c.Y) - upper).Length < 1e-6);
    }

    [Theory]
    [InlineData(110, "balanced at")]
    [InlineData(90, "at its forward limit")]
    [InlineData(130, "on its tab at")]
    public void SideView_SprungBody_SaysWhatHoldsIt(int pitches, string words)
    {
        var scene = SideView.Draw(GearTableSolver.Solve(Spec, pitches), new(34, 24));
        Assert.Contains(
            scene.Shapes.OfType<Label>(),
            label => label.Text.Contains(words, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void GearTable_SprungBody_TellsThePreloadInPlaceOfAnAngle()
    {
        var scene = GearTableDrawing.Draw(GearTableSolver.Solve(Spec, 110));
        Assert.Contains(
            scene.Shapes.OfType<Label>(),
            label =>
                label.Text.EndsWith("sprung body, 1.20 N·m on its tab", StringComparison.Ordinal)
        );
    }
}
