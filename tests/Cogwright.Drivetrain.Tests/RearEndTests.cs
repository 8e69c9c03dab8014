using static Cogwright.Drivetrain.Tests.Example;
using static Cogwright.Drivetrain.Tests.RearEnds;

namespace Cogwright.Drivetrain.Tests;

/// <summary>Rear ends against what a hand can work out: circles, symmetric cases, signs, small changes.</summary>
public class RearEndTests
{
    [Fact]
    public void RearEnd_RigidFrame_HasOnePoseAndNoOther()
    {
        var rearEnd = RearEnd.Of(Rigid);
        Assert.Equal(new AxlePose(Rigid.Axle, 0), rearEnd.At(0));
        Assert.Equal(0, rearEnd.TravelMm);
        Assert.Throws<ArgumentOutOfRangeException>(() => RearEnd.Of(Rigid).At(1));
    }

    [Fact]
    public void RearEnd_RigidFrame_GivesTheTableOfBeforeAtTravel0()
    {
        var table = GearTableSolver.Solve(Spec, 110);
        var at0 = GearTableSolver.Solve(Spec, 110, null, 0);
        Assert.Equal(table.Gears, at0.Gears);
        Assert.Equal(0, table.TravelMm);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(42)]
    [InlineData(97.3)]
    [InlineData(140)]
    public void SinglePivot_AnyTravel_LiesOnTheCircleAtThatHeight(double travel)
    {
        var axle = OnPivot.Axle;
        var pivot = Pivot.PivotMm;
        var radius = (axle - pivot).Length;
        var pose = RearEnd.Of(OnPivot).At(travel);
        // By hand: height known, the rest is Pythagoras; the turn is the difference of two arcsines.
        var height = axle.Y + travel - pivot.Y;
        var forward = pivot.X - Math.Sqrt((radius * radius) - (height * height));
        Assert.Equal(axle.Y + travel, pose.Axle.Y, 1e-10);
        Assert.Equal(forward, pose.Axle.X, 1e-10);
        var turn = Math.Asin((axle.Y - pivot.Y) / radius) - Math.Asin(height / radius);
        Assert.Equal(turn, pose.RotationRad, 1e-12);
    }

    [Fact]
    public void SinglePivot_WheelRises_TurnsClockwise()
    {
        Assert.True(RearEnd.Of(OnPivot).At(50).RotationRad < 0);
    }

    [Fact]
    public void SinglePivot_OnTheBottomBracket_NeverGrows()
    {
        var rearEnd = RearEnd.Of(With(new SinglePivot(new(0, 0)), 140));
        for (var travel = 0; travel <= 140; travel += 10)
        {
            Assert.Equal(0, rearEnd.GrowthMm(travel), 1e-10);
        }
    }

    [Fact]
    public void SinglePivot_LevelInMidTravel_GrowsAsMuchBelowAsAbove()
    {
        // Pivot on the height of the bracket, the axle as far below as it ends above: the path is its own mirror image.
        var frame = new Frame
        {
            ChainstayMm = 440,
            BottomBracketDropMm = -60,
            Suspension = new() { Linkage = new SinglePivot(new(-35, 0)), TravelMm = 120 },
        };
        var rearEnd = RearEnd.Of(frame);
        for (var off = 0; off <= 60; off += 15)
        {
            Assert.Equal(rearEnd.GrowthMm(60 - off), rearEnd.GrowthMm(60 + off), 1e-10);
        }
        Assert.Equal(0, rearEnd.GrowthMm(120), 1e-10);
        // The pivot lies behind the bracket, so the axle stands farthest back when arm and stay lie in one line.
        var longest = LongestPosition.Of(frame);
        Assert.Equal(60, longest.TravelMm, 1e-3);
        var arm = (frame.Axle - new Point(-35, 0)).Length;
        Assert.Equal(arm + 35, longest.AxleToBracketMm, 1e-9);
    }

    [Fact]
    public void FourBar_ParallelEqualLinks_CarriesWithoutTurning()
    {
        // A parallelogram: the coupler only shifts, and the axle draws the lower link's circle.
        var frame = With(
            new FourBar(new(-20, 60), new(-380, 40), new(-20, 260), new(-380, 240)),
            120
        );
        var radius = (new Point(-380, 40) - new Point(-20, 60)).Length;
        for (var travel = 0; travel <= 120; travel += 20)
        {
            var pose = RearEnd.Of(frame).At(travel);
            Assert.Equal(0, pose.RotationRad, 1e-12);
            Assert.Equal(radius, (pose.Axle - frame.Axle + new Point(-360, -20)).Length, 1e-9);
            Assert.Equal(frame.Axle.Y + travel, pose.Axle.Y, 1e-10);
        }
    }

    [Fact]
    public void FourBar_AxleOnLowerLink_MovesLikeASinglePivot()
    {
        var links = Links with { Carries = LinkageMember.LowerLink };
        var pivot = With(new SinglePivot(links.LowerFrameMm), 140);
        foreach (var travel in (double[])[0, 13, 70, 140])
        {
            AssertSame(
                RearEnd.Of(pivot).At(travel),
                RearEnd.Of(With(links, 140)).At(travel),
                1e-11
            );
        }
    }

    [Theory]
    [InlineData(LinkageMember.LowerLink)]
    [InlineData(LinkageMember.UpperLink)]
    [InlineData(LinkageMember.Coupler)]
    public void FourBar_ByShockStroke_TakesThatMuchOffTheShock(LinkageMember on)
    {
        var frame = Stroke(on, 50);
        Assert.Empty(SpecCheck.Problems(Trail(frame)));
        var wheel = RearEnd.Of(OnLinks);
        var shock = RearEnd.Of(frame);
        var last = 0.0;
        for (var stroke = 5.0; stroke <= 50; stroke += 5)
        {
            var pose = shock.At(stroke);
            var risen = pose.Axle.Y - frame.Axle.Y;
            Assert.True(risen > last);
            last = risen;
            // The same linkage asked by the wheel's rise stands in the same pose.
            if (risen <= 140)
            {
                AssertSame(wheel.At(risen), pose, 1e-9);
            }
        }
    }

    [Fact]
    public void SinglePivot_ByShockStroke_ShortensTheShockByTheStroke()
    {
        var eyes = new ShockEyes(new(40, 260), new(-70, 150));
        var frame = Rigid with
        {
            Suspension = new()
            {
                Linkage = Pivot,
                TravelMm = 20,
                TravelMeans = TravelMeaning.ShockStroke,
                Shock = eyes,
            },
        };
        var rearEnd = RearEnd.Of(frame);
        var extended = (eyes.MemberEyeMm - eyes.FrameEyeMm).Length;
        for (var stroke = 0.0; stroke <= 20; stroke += 2.5)
        {
            var eye = rearEnd.Carried(eyes.MemberEyeMm, rearEnd.At(stroke));
            Assert.Equal(extended - stroke, (eye - eyes.FrameEyeMm).Length, 1e-10);
        }
    }

    [Fact]
    public void TabulatedPath_RowsOfASinglePivot_ReproducesItBetweenTheRows()
    {
        var exact = RearEnd.Of(OnPivot);
        var table = new TabulatedPath([
            .. Enumerable
                .Range(0, 15)
                .Select(i => exact.At(i * 10))
                .Select((p, i) => new PathPoint(i * 10, p.Axle, p.RotationRad)),
        ]);
        var tabulated = RearEnd.Of(With(table, 140));
        for (var travel = 0.0; travel <= 140; travel += 0.7)
        {
            AssertSame(exact.At(travel), tabulated.At(travel), 1e-3);
        }
        for (var travel = 0; travel <= 140; travel += 10)
        {
            AssertSame(exact.At(travel), tabulated.At(travel), 1e-11);
        }
    }

    [Fact]
    public void TabulatedPath_OnAParabola_IsExact()
    {
        static PathPoint At(double s) =>
            new(s, new(-430 - (0.1 * s) + (0.0005 * s * s), 30 + s), -0.002 * s);
        var frame = new Frame
        {
            ChainstayMm = Math.Sqrt((430 * 430) + (30 * 30)),
            BottomBracketDropMm = 30,
            Suspension = new()
            {
                Linkage = new TabulatedPath([At(0), At(17), At(60), At(95), At(130)]),
                TravelMm = 130,
            },
        };
        foreach (var travel in (double[])[3, 16.9, 33, 77, 129])
        {
            var pose = RearEnd.Of(frame).At(travel);
            Assert.Equal(At(travel).AxleMm.X, pose.Axle.X, 1e-9);
            Assert.Equal(At(travel).RotationRad, pose.RotationRad, 1e-12);
        }
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(140.1)]
    [InlineData(double.NaN)]
    public void RearEnd_TravelOutside_IsRefused(double travel)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => RearEnd.Of(OnPivot).At(travel));
        Assert.Throws<ArgumentOutOfRangeException>(() =>
            GearTableSolver.Solve(Trail(OnPivot), 126, null, travel)
        );
    }

    [Fact]
    public void Growth_SmallStep_IsTheDistanceRateOfTheGeometry()
    {
        // d|axle|/ds is the axle's direction of motion along the line from the bracket; the direction is square to the
        // radius through the instant centre, which of a single pivot is the pivot.
        var rearEnd = RearEnd.Of(OnPivot);
        for (var travel = 5.0; travel <= 135; travel += 5)
        {
            const double h = 1e-3;
            var measured = (rearEnd.GrowthMm(travel + h) - rearEnd.GrowthMm(travel - h)) / (2 * h);
            var axle = rearEnd.At(travel).Axle;
            var arm = axle - Pivot.PivotMm;
            // Per mm of rise: velocity (−arm.y, arm.x)/arm.x.
            var expected = ((axle.X * -arm.Y) + (axle.Y * arm.X)) / (arm.X * axle.Length);
            Assert.Equal(expected, measured, 1e-7);
        }
    }

    private static Frame With(RearLinkage linkage, double travel) =>
        Rigid with
        {
            Suspension = new() { Linkage = linkage, TravelMm = travel },
        };

    internal static Frame Stroke(LinkageMember on, double stroke) =>
        Rigid with
        {
            Suspension = new()
            {
                Linkage = Links,
                TravelMm = stroke,
                TravelMeans = TravelMeaning.ShockStroke,
                Shock = on switch
                {
                    LinkageMember.UpperLink => new(new(20, 180), new(-20, 372), on),
                    LinkageMember.Coupler => new(new(-60, 420), new(-180, 260), on),
                    _ => new(new(60, 250), new(-130, 80), on),
                },
            },
        };

    private static void AssertSame(AxlePose expected, AxlePose actual, double withinMm)
    {
        Assert.Equal(expected.Axle.X, actual.Axle.X, withinMm);
        Assert.Equal(expected.Axle.Y, actual.Axle.Y, withinMm);
        Assert.Equal(expected.RotationRad, actual.RotationRad, withinMm / 100);
    }
}
