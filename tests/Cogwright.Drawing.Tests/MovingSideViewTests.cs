using System.Xml.Linq;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing.Tests;

public sealed class MovingSideViewTests
{
    private const int Guide = 8;
    private const int Tension = 7;

    [Fact]
    public void Pose_InEveryState_IsMadeOfNumbersAndWellFormedMarkup()
    {
        foreach (var (name, table, gear) in WorkedExample.EveryState())
        {
            var view = MovingSideView.Of(table, gear, table);
            foreach (var gauge in Enum.GetValues<Gauge>())
            {
                var numbers = new double[MovingSideView.NumberCount(table.Pitches)];
                var pose = view.Pose(table, numbers, gauge, 6, atRest: true);
                Assert.True(numbers.All(double.IsFinite), name);
                _ = XElement.Parse($"<svg>{view.Markup}{pose.Dimensions}</svg>");
            }
        }
    }

    [Fact]
    public void Pose_OfAGear_PutsThePulleysWhereTheModelHasThem()
    {
        var gear = new Gear(34, 34);
        var table = WorkedExample.Table;
        var turned = GearTableSolver.SolveOne(table.Spec, 110, gear, WorkedExample.Rad(18));
        var numbers = new double[MovingSideView.NumberCount(110)];
        MovingSideView.Of(table, gear).Pose(turned, numbers, Gauge.Gap, 6, atRest: false);
        var result = turned.Find(gear)!.Value;
        Assert.Equal(result.Guide.X, numbers[3 * Guide], 9);
        Assert.Equal(-result.Guide.Y, numbers[(3 * Guide) + 1], 9);
        Assert.Equal(result.Tension.X, numbers[3 * Tension], 9);
        Assert.Equal(-result.Tension.Y, numbers[(3 * Tension) + 1], 9);
    }

    [Fact]
    public void SvgForScreen_OfAnyNumber_HasItInHundredths()
    {
        foreach (
            var value in (double[])
                [0, -0.004, 0.005, 1, -1, 9.999, 10.1, -123.456, 1000.05, 99999.99]
        )
        {
            var svg = XElement.Parse(
                SvgWriter.Write(
                    new("", 0, 0, 1, 1, [new Circle(value, 0, 1, Stroke.Part)]),
                    new() { ForScreen = true }
                )
            );
            var written = svg.Descendants()
                .Single(element => element.Name.LocalName == "circle")
                .Attribute("cx")!
                .Value;
            Assert.Equal(
                Math.Round(value * 100) / 100,
                double.Parse(written, System.Globalization.CultureInfo.InvariantCulture),
                9
            );
        }
    }

    [Fact]
    public void SvgForScreen_OfADrawing_HasNoStyleOfItsOwn()
    {
        var svg = SvgWriter.Write(
            TopView.Draw(WorkedExample.Table, new(34, 34), new() { ShowWords = false }),
            new() { ForScreen = true }
        );
        Assert.DoesNotContain("<style", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", svg, StringComparison.Ordinal);
        _ = XElement.Parse(svg);
    }

    [Fact]
    public void TopView_OfATiltedHanger_MovesThePulleysByTheTilt()
    {
        var gear = new Gear(34, 34);
        var straight = Pulley(null);
        var tilt = new HangerTilt(0.01, 0);
        var bolt = WorkedExample.Spec.Frame.Axle + WorkedExample.Spec.BoltOffsetMm;
        var expected = tilt.LateralMm(WorkedExample.Table.Find(gear)!.Value.Tension - bolt);
        Assert.Equal(-expected, Pulley(tilt) - straight, 9);

        double Pulley(HangerTilt? tilt)
        {
            var tension = WorkedExample.Table.Find(gear)!.Value.Tension;
            return TopView
                .Draw(WorkedExample.Table, gear, new() { Tilt = tilt, ShowWords = false })
                .Shapes.OfType<Polyline>()
                .Where(p => p.Closed && p.Points.Length == 4 && p.Stroke == Stroke.Part)
                .Where(p => Math.Abs(((p.Points[0].X + p.Points[1].X) / 2) - tension.X) < 1e-6)
                .Select(p => (p.Points[0].Y + p.Points[2].Y) / 2)
                .First();
        }
    }
}
