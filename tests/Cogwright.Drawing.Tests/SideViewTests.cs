using Cogwright.Drivetrain;

namespace Cogwright.Drawing.Tests;

public class SideViewTests
{
    // Coordinates are sums of a few doubles of a few hundred mm.
    private const double ExactMm = 1e-9;

    // A pin of the chain as it is drawn; nothing else of the chain's pen is a circle.
    private static List<Circle> Pins(Scene scene) =>
        [.. scene.Shapes.OfType<Circle>().Where(c => c.Stroke == Stroke.Chain)];

    public static TheoryData<int, int> Gears()
    {
        var data = new TheoryData<int, int>();
        foreach (var gear in WorkedExample.Table.Gears)
        {
            data.Add(gear.Gear.RingTeeth, gear.Gear.CogTeeth);
        }
        return data;
    }

    public static TheoryData<string> States() =>
        [.. WorkedExample.EveryState().Select(s => s.Name)];

    private static (Scene Scene, GearResult Result) Drawn(string state)
    {
        var (_, table, gear) = WorkedExample.EveryState().Single(s => s.Name == state);
        return (SideView.Draw(table, gear), table.Find(gear)!.Value);
    }

    [Theory]
    [MemberData(nameof(Gears))]
    public void RearOnly_EveryGear_KeepsTheGapWholeAndNothingOfTheRings(int ring, int cog)
    {
        var whole = SideView.Draw(WorkedExample.Table, new(ring, cog), new() { ShowWords = false });
        var rear = SideView.Draw(
            WorkedExample.Table,
            new(ring, cog),
            new() { ShowWords = false, RearOnly = true }
        );

        var gaps = whole.Shapes.OfType<Dimension>().Where(IsGap).ToList();
        Assert.Equal(gaps, rear.Shapes.OfType<Dimension>().Where(IsGap));
        Assert.Single(whole.Shapes.OfType<Dimension>(), d => IsChainstay(d));
        Assert.DoesNotContain(rear.Shapes.OfType<Dimension>(), d => IsChainstay(d));
        Assert.True(rear.Width < 0.7 * whole.Width);
        Assert.All(
            gaps,
            gap =>
            {
                var box = Extent.Of(gap);
                Assert.InRange(box.Right, rear.Left, rear.Right);
                Assert.InRange(box.Left, rear.Left, rear.Right);
            }
        );

        static bool IsGap(Dimension d) =>
            d.Text.StartsWith("gap", StringComparison.Ordinal)
            || d.Text.StartsWith("overlap", StringComparison.Ordinal);

        static bool IsChainstay(Dimension d) =>
            d.Text.StartsWith("chainstay", StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Gears))]
    public void Chain_EveryRun_TouchesItsPitchCirclesAtRightAngles(int ring, int cog)
    {
        var scene = SideView.Draw(WorkedExample.Table, new(ring, cog));
        var runs = scene.Shapes.OfType<Line>().Where(l => l.Stroke == Stroke.Chain).ToList();
        var arcs = scene.Shapes.OfType<Arc>().Where(a => a.Stroke == Stroke.Chain).ToList();
        Assert.Equal(4, runs.Count);
        Assert.Equal(4, arcs.Count);
        Assert.Equal(
            new[] { cog, ring, 12, 12 }.Select(z => 6.35 / Math.Sin(Math.PI / z)),
            arcs.Select(a => a.Radius),
            (a, b) => Math.Abs(a - b) < ExactMm
        );
        for (var i = 0; i < 4; i++)
        {
            var run = runs[i];
            AssertTangent(run.X1, run.Y1, run, arcs[i]);
            AssertTangent(run.X2, run.Y2, run, arcs[(i + 1) % 4]);
            // The arc starts where the run before it ends, and ends where its own run starts.
            var before = runs[(i + 3) % 4];
            AssertAt(before.X2, before.Y2, arcs[i], arcs[i].StartRad);
            AssertAt(run.X1, run.Y1, arcs[i], arcs[i].StartRad + arcs[i].SweepRad);
        }
    }

    private static void AssertTangent(double x, double y, Line run, Arc arc)
    {
        var (rx, ry) = (x - arc.X, y - arc.Y);
        Assert.Equal(arc.Radius, Math.Sqrt((rx * rx) + (ry * ry)), ExactMm);
        var along = (rx * (run.X2 - run.X1)) + (ry * (run.Y2 - run.Y1));
        Assert.Equal(0, along, 1e-6);
    }

    private static void AssertAt(double x, double y, Arc arc, double angleRad)
    {
        Assert.Equal(x, arc.X + (arc.Radius * Math.Cos(angleRad)), ExactMm);
        Assert.Equal(y, arc.Y + (arc.Radius * Math.Sin(angleRad)), ExactMm);
    }

    [Theory]
    [MemberData(nameof(Gears))]
    public void Chain_TautGear_HasOnePinForEachPitch(int ring, int cog) =>
        Assert.Equal(110, Pins(SideView.Draw(WorkedExample.Table, new(ring, cog))).Count);

    [Theory]
    [MemberData(nameof(Gears))]
    public void Chain_PinsAlongRunsAndSprockets_AreOnePitchApart(int ring, int cog)
    {
        var pins = Pins(SideView.Draw(WorkedExample.Table, new(ring, cog)));
        var distances = pins.Select((pin, i) => Distance(pin, pins[(i + 1) % pins.Count])).ToList();
        // A link with one pin on a sprocket and one on the run beside it is out by what a straight tooth differs from
        // its arc: for 11 teeth, the fewest here, at most 0.04 mm.
        Assert.All(distances, d => Assert.InRange(d, 12.7 - 0.05, 12.7 + 0.05));
        // Four sprockets have eight such corners; every other link is one pitch exactly.
        var exact = distances.Count(d => Math.Abs(d - 12.7) < 1e-6);
        Assert.InRange(exact, 110 - 8, 110);
    }

    private static double Distance(Circle a, Circle b) =>
        Math.Sqrt(((a.X - b.X) * (a.X - b.X)) + ((a.Y - b.Y) * (a.Y - b.Y)));

    [Fact]
    public void Chain_SingleSpeed_HasOnePinForEachPitch() =>
        Assert.Equal(
            94,
            Pins(
                SideView.Draw(GearTableSolver.Solve(WorkedExample.SingleSpeed, 94), new(42, 17))
            ).Count
        );

    [Theory]
    [MemberData(nameof(Gears))]
    public void GapDimension_EveryGear_IsAsLongAsTheGap(int ring, int cog)
    {
        var scene = SideView.Draw(WorkedExample.Table, new(ring, cog));
        var gap = scene
            .Shapes.OfType<Dimension>()
            .Single(d => d.Text.StartsWith("gap", StringComparison.Ordinal));
        var result = WorkedExample.Table.Find(new(ring, cog))!.Value;
        Assert.Equal(result.GapMm, Length(gap), 1e-9);
        // It lies on the line from the axle to the guide pulley.
        var axle = WorkedExample.Spec.Frame.Axle;
        var cross =
            ((gap.X1 - axle.X) * (result.Guide.Y - axle.Y))
            - ((gap.Y1 - axle.Y) * (result.Guide.X - axle.X));
        Assert.Equal(0, cross, 1e-6);
    }

    private static double Length(Dimension d) =>
        Math.Sqrt(((d.X2 - d.X1) * (d.X2 - d.X1)) + ((d.Y2 - d.Y1) * (d.Y2 - d.Y1)));

    [Fact]
    public void ChainstayDimension_WorkedExample_IsTheChainstay()
    {
        var scene = SideView.Draw(WorkedExample.Table, new(50, 17));
        var stay = scene.Shapes.OfType<Dimension>().Single(d => d.Text == "chainstay 410 mm");
        Assert.Equal(410, Length(stay), 1e-9);
    }

    [Theory]
    [MemberData(nameof(Gears))]
    public void GapFigure_EveryGear_StandsClearOfTheChain(int ring, int cog)
    {
        var scene = SideView.Draw(WorkedExample.Table, new(ring, cog));
        var figures = scene
            .Shapes.OfType<Dimension>()
            .SelectMany(d => DimensionLayout.Shapes(d).OfType<Label>())
            .Concat(scene.Shapes.OfType<Label>())
            .Where(label => !label.Text.StartsWith("chainstay", StringComparison.Ordinal))
            .Select(label => Extent.Of(label))
            .ToList();
        foreach (var pin in Pins(scene))
        {
            Assert.DoesNotContain(figures, figure => figure.Holds(pin.X, pin.Y));
        }
    }

    [Theory]
    [MemberData(nameof(States))]
    public void Texts_EveryState_DoNotOverlapOneAnother(string state)
    {
        var (scene, _) = Drawn(state);
        var figures = scene
            .Shapes.OfType<Label>()
            .Select(label => (label.Text, Extent: Extent.Of(label)))
            .ToList();
        for (var i = 0; i < figures.Count; i++)
        {
            for (var j = i + 1; j < figures.Count; j++)
            {
                var (a, b) = (figures[i], figures[j]);
                Assert.False(
                    a.Extent.Left < b.Extent.Right
                        && b.Extent.Left < a.Extent.Right
                        && a.Extent.Bottom < b.Extent.Top
                        && b.Extent.Bottom < a.Extent.Top,
                    $"'{a.Text}' and '{b.Text}' overlap"
                );
            }
        }
    }

    [Theory]
    [MemberData(nameof(States))]
    public void Shapes_EveryState_LieInsideTheBox(string state)
    {
        var (scene, _) = Drawn(state);
        Assert.All(
            scene.Shapes,
            shape =>
            {
                var extent = Extent.Of(shape);
                Assert.InRange(extent.Left, scene.Left, scene.Right);
                Assert.InRange(extent.Right, scene.Left, scene.Right);
                Assert.InRange(extent.Bottom, scene.Bottom, scene.Top);
                Assert.InRange(extent.Top, scene.Bottom, scene.Top);
            }
        );
    }

    [Theory]
    [InlineData("short", GearState.Short, "Chain too short by")]
    [InlineData("slack", GearState.Slack, "Chain hangs")]
    [InlineData("clash", GearState.Clash, "overlap by")]
    [InlineData("unreachable", GearState.Unreachable, "inboard stop")]
    [InlineData("noPath", GearState.Clash, "No cage angle")]
    [InlineData("singleSpeedSlack", GearState.Slack, "axle at the rear end")]
    [InlineData("singleSpeedShort", GearState.Short, "axle at the front end")]
    public void Warning_GearThatIsNotOk_SaysSoInWords(
        string state,
        GearState expected,
        string words
    )
    {
        var (scene, result) = Drawn(state);
        Assert.Equal(expected, result.State);
        Assert.Contains(
            scene.Shapes.OfType<Label>(),
            label =>
                label.Stroke == Stroke.Warning
                && label.Text.Contains(words, StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("short")]
    [InlineData("slack")]
    [InlineData("unreachable")]
    [InlineData("noPath")]
    public void Chain_GearWithoutPose_IsNotDrawnAsLying(string state) =>
        Assert.Empty(Pins(Drawn(state).Scene));

    [Fact]
    public void Assumptions_AnyAtAll_AreNamedOnTheDrawing()
    {
        var table = GearTableSolver.Solve(WorkedExample.Assumed, 110);
        foreach (
            var scene in (Scene[])
                [
                    SideView.Draw(table, new(34, 34)),
                    GapView.Draw(table, new(34, 34)),
                    GearTableDrawing.Draw(table),
                ]
        )
        {
            var text = string.Join(' ', scene.Shapes.OfType<Label>().Select(l => l.Text));
            Assert.Contains(
                "assumed, not measured: rearDerailleur.slant, rearDerailleur.linkAngle",
                text,
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public void Assumptions_None_NothingIsSaid() =>
        Assert.DoesNotContain(
            SideView.Draw(WorkedExample.Table, new(34, 34)).Shapes.OfType<Label>(),
            label => label.Text.Contains("assumed", StringComparison.Ordinal)
        );

    [Fact]
    public void Before_OtherBodyAngle_IsDrawnDashedWithItsGapInWords()
    {
        var after = GearTableSolver.Solve(WorkedExample.Spec, 110, WorkedExample.Rad(22));
        var scene = SideView.Draw(after, new(34, 34), new() { Before = WorkedExample.Table });
        // Four runs of chain, two links of the derailleur.
        Assert.Equal(6, scene.Shapes.OfType<Line>().Count(l => l.Stroke == Stroke.Ghost));
        Assert.Contains(
            scene.Shapes.OfType<Label>(),
            label => label.Text == "dashed: before, body angle 15.5°, gap 6.4 mm"
        );
    }

    [Fact]
    public void Draw_GearThatTheBikeHasNot_NamesIt()
    {
        var error = Assert.Throws<ArgumentException>(() =>
            SideView.Draw(WorkedExample.Table, new(53, 11))
        );
        Assert.Contains("53/11", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ScaleBar_AnyScale_IsOneHundredMillimetresLong()
    {
        foreach (var scale in (double[])[0.2, 0.35, 1])
        {
            var scene = SideView.Draw(
                WorkedExample.Table,
                new(34, 34),
                new() { PaperScale = scale }
            );
            var bar = scene.Shapes.OfType<Polyline>().Last(p => p.Stroke == Stroke.Dimension);
            Assert.Equal(100, bar.Points.Max(p => p.X) - bar.Points.Min(p => p.X), 1e-9);
        }
    }
}
