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
        var axle = RearEnd.Of(spec.Frame).At(45).Axle;
        var scene = SideView.Draw(table, Gear);
        Assert.True(HasCircle(scene, axle));
        Assert.False(HasCircle(scene, spec.Frame.Axle, Stroke.Part));
        // The path takes the chain: its links are drawn, and nothing warns.
        Assert.DoesNotContain(scene.Shapes.OfType<Line>(), line => line.Stroke == Stroke.Warning);
        var path = Assert.Single(
            scene.Shapes.OfType<Polyline>(),
            line => line is { Stroke: Stroke.Ghost, Closed: false }
        );
        Assert.Equal(spec.Frame.Axle.X, path.Points[0].X);
        Assert.Equal(RearEnd.Of(spec.Frame).At(60).Axle.Y, path.Points[^1].Y);
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
    public void SideView_PulleysAtATravel_StandWhereTheSolverHasThem()
    {
        var spec = Suspended(Links);
        var table = GearTableSolver.Solve(spec, 112, null, 60);
        var gear = table.Find(Gear)!.Value;
        var scene = SideView.Draw(table, Gear);
        Assert.True(HasCircle(scene, gear.Guide));
        Assert.True(HasCircle(scene, gear.Tension));
        Assert.True(HasCircle(scene, gear.CagePivot));
        var pose = table.AxlePose;
        Assert.True(HasCircle(scene, pose.Axle + spec.Hanger!.OffsetMm.Turned(pose.RotationRad)));
    }

    [Fact]
    public void SideView_WithIdler_LeadsTheChainOverIt()
    {
        var spec = Suspended(new SinglePivot(new(-15, 130)), new Idler(new(-20, 150), 14));
        Assert.Empty(SpecCheck.Problems(spec));
        var table = GearTableSolver.Solve(spec, 118, null, 30);
        Assert.Equal(GearState.Ok, table.Find(Gear)!.Value.State);
        var scene = SideView.Draw(table, Gear);
        Assert.True(HasCircle(scene, new(-20, 150)));
        var arc = Assert.Single(
            scene.Shapes.OfType<Arc>(),
            arc => arc is { X: -20, Y: 150, Stroke: Stroke.Chain }
        );
        Assert.Equal(Sprocket.PitchRadiusMm(14), arc.Radius, 1e-9);
    }

    private static bool HasCircle(Scene scene, Point centre, Stroke? stroke = null) =>
        scene
            .Shapes.OfType<Circle>()
            .Any(circle =>
                Math.Abs(circle.X - centre.X) < 1e-9
                && Math.Abs(circle.Y - centre.Y) < 1e-9
                && (stroke is null || circle.Stroke == stroke)
            );
}
