using Cogwright.Drivetrain;

namespace Cogwright.Drawing.Tests;

/// <summary>The side view of a rear end that moves, and of an idler: everything stands where the model has it.</summary>
public class RearEndDrawingTests
{
    private static readonly Gear Gear = new(34, 21);

    private static DrivetrainSpec Suspended(RearLinkage linkage, Idler? idler = null) =>
        WorkedExample.Spec with
        {
            Frame = WorkedExample.Spec.Frame with
            {
                Suspension = new() { Linkage = linkage, TravelMm = 60 },
            },
            Idler = idler,
        };

    private static readonly FourBar Links = new(
        new(-20, 60),
        new(-370, 70),
        new(-40, 300),
        new(-110, 270)
    );

    [Fact]
    public void SideView_AtATravel_DrawsTheAxleThere()
    {
        var spec = Suspended(Links);
        Assert.Empty(SpecCheck.Problems(spec));
        var table = GearTableSolver.Solve(spec, 112, null, 45);
        var mechanism = Mechanism.Of(table, Gear);
        Assert.Equal(RearEnd.At(spec.Frame, 45).Axle, mechanism.Cog.Centre);
        Assert.True(mechanism.TakesTheChain);
        Assert.Equal(112, mechanism.Path!.Pitches, 1e-9);
        var scene = SideView.Draw(table, Gear);
        var path = Assert.Single(
            scene.Shapes.OfType<Polyline>(),
            line => line is { Stroke: Stroke.Ghost, Closed: false }
        );
        Assert.Equal(spec.Frame.Axle.X, path.Points[0].X);
        Assert.Equal(RearEnd.At(spec.Frame, 60).Axle.Y, path.Points[^1].Y);
        Assert.Contains(
            scene.Shapes.OfType<Label>(),
            label => label.Text.Contains("risen 45 of 60 mm", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void SideView_RigidFrame_DrawsNoPathOfTheAxle()
    {
        var scene = SideView.Draw(WorkedExample.Table, Gear);
        Assert.DoesNotContain(
            scene.Shapes.OfType<Polyline>(),
            line => line is { Stroke: Stroke.Ghost, Closed: false }
        );
    }

    [Fact]
    public void SideView_CagePivotAtATravel_StandsWhereTheSolverHasThePulleys()
    {
        var table = GearTableSolver.Solve(Suspended(Links), 112, null, 60);
        var mechanism = Mechanism.Of(table, Gear);
        Assert.Equal(mechanism.Result.Guide.X, mechanism.Guide!.Value.Centre.X, 1e-9);
        Assert.Equal(mechanism.Result.Guide.Y, mechanism.Guide!.Value.Centre.Y, 1e-9);
        // Body and link keep their lengths whatever the member's turn.
        var upper = mechanism.UpperPivot!.Value;
        var derailleur = table.Spec.RearDerailleur!;
        Assert.Equal(
            derailleur.UpperPivotMm.Length,
            (upper - mechanism.HangerBolt!.Value).Length,
            1e-9
        );
        var (sin, cos) = Math.SinCos(mechanism.Result.SwingRad);
        var sigma = Math.Sin(derailleur.SlantRad);
        Assert.Equal(
            derailleur.LinkLengthMm * Math.Sqrt((cos * cos) + (sin * sin * sigma * sigma)),
            (mechanism.Result.CagePivot - upper).Length,
            1e-9
        );
    }

    [Fact]
    public void SideView_WithIdler_LeadsTheChainOverIt()
    {
        var spec = Suspended(new SinglePivot(new(-15, 130)), new Idler(new(-20, 150), 14));
        Assert.Empty(SpecCheck.Problems(spec));
        var table = GearTableSolver.Solve(spec, 118, null, 30);
        var mechanism = Mechanism.Of(table, Gear);
        Assert.Equal(5, mechanism.Sprockets.Count);
        Assert.Equal(new Point(-20, 150), mechanism.Idler!.Value.Centre);
        Assert.True(mechanism.TakesTheChain, mechanism.Result.State.ToString());
        Assert.NotEmpty(SideView.Draw(table, Gear).Shapes);
    }
}
