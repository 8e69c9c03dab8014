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

    [Theory]
    [InlineData(34, 11)]
    [InlineData(34, 34)]
    [InlineData(50, 34)]
    public void Mechanism_EveryGear_HasItsOwnBodyAngleAndTakesTheChain(int ring, int cog)
    {
        var table = GearTableSolver.Solve(Spec, 110);
        var mechanism = Mechanism.Of(table, new(ring, cog));
        Assert.True(mechanism.TakesTheChain);
        var bolt = mechanism.HangerBolt!.Value;
        var arm = mechanism.UpperPivot!.Value - bolt;
        var unturned = Spec.RearDerailleur!.UpperPivotMm;
        Assert.Equal(
            mechanism.Result.BodyAngleRad,
            Math.Atan2(arm.Y, arm.X) - Math.Atan2(unturned.Y, unturned.X),
            1e-9
        );
        // The link keeps its length in side view whatever the body does.
        var other = Mechanism.Of(GearTableSolver.Solve(Spec, 112), new(ring, cog));
        Assert.NotEqual(mechanism.Result.BodyAngleRad, other.Result.BodyAngleRad);
        Assert.Equal(
            (mechanism.CagePivot!.Value - mechanism.UpperPivot.Value).Length,
            (other.CagePivot!.Value - other.UpperPivot!.Value).Length,
            1e-9
        );
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
