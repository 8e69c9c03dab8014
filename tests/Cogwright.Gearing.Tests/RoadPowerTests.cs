using CsCheck;
using MathNet.Numerics.RootFinding;

namespace Cogwright.Gearing.Tests;

/// <summary>The road model of Martin et al. 1998 and the speed that a power gives.</summary>
public class RoadPowerTests
{
    private static readonly RoadLoad Example = new()
    {
        MassKg = 90,
        DragAreaM2 = 0.2565,
        RollingCoefficient = 0.0032,
        DriveEfficiency = 0.976,
        WheelDragAreaM2 = 0.0044,
        WheelInertiaKgM2 = 0.14,
        TyreRadiusM = 0.311,
        AirDensity = 1.2234,
        Gravity = 9.81,
    };

    private static readonly Gen<(double Gradient, double Wind, double Power)> Roads = Gen.Select(
        Gen.Double[-0.3, 0.3],
        Gen.Double[-15, 15],
        Gen.Double[0, 800]
    );

    /// <summary>
    /// Source: the worked example of Martin et al. 1998 (J. Appl. Biomech. 14(3)); its inputs from memory, its results reproduced
    /// by a computation apart from the product: aero 158.8, rolling 23.6, bearings 1.4, potential 22.1, kinetic 2.3, net 208.3 W,
    /// total 213.4 W.
    /// </summary>
    [Fact]
    public void Power_WorkedExampleOfMartin1998_AgreesWithinATenthOfAWatt()
    {
        const double Rad = Math.PI / 180;
        var wind = new Wind(2.94, 310 * Rad);
        var speed = 471.8 / 56.42;
        var head = wind.HeadMs(340 * Rad);

        var parts = RoadPower.At(
            Example,
            speed,
            0.003,
            head,
            RoadPower.KineticW(Example, 8.28, 8.45, 56.42)
        );

        Assert.Equal(2.5461, head, 0.0001);
        Assert.Equal(
            7.675,
            Math.Atan2(Math.Abs(wind.CrossMs(340 * Rad)), speed + head) / Rad,
            0.001
        );
        Assert.Equal(158.803, parts.Aero, 0.1);
        Assert.Equal(23.626, parts.Rolling, 0.1);
        Assert.Equal(1.369, parts.Bearings, 0.1);
        Assert.Equal(22.149, parts.Climbing, 0.1);
        Assert.Equal(2.305, parts.Kinetic, 0.1);
        Assert.Equal(208.252, parts.Net, 0.1);
        Assert.Equal(213.373, parts.Pedals, 0.1);
    }

    /// <summary>The example is sensitive to the sign of the wind: the same wind from behind takes 111 W less in the air.</summary>
    [Fact]
    public void Power_WindFromBehind_TakesLess()
    {
        var against = RoadPower.At(Example, 8.3623, 0, 2.5461).Aero;
        var behind = RoadPower.At(Example, 8.3623, 0, -2.5461).Aero;

        Assert.Equal(Math.Pow((8.3623 + 2.5461) / (8.3623 - 2.5461), 2), against / behind, 1e-9);
        Assert.True(RoadPower.At(Example, 5, 0, -10).Aero < 0, "A wind that overtakes pushes.");
    }

    /// <summary>Against the definition, term by term.</summary>
    [Fact]
    public void Speed_OfAPower_GivesThatPowerBack() =>
        Roads.Sample(road =>
        {
            var speed = RoadPower.SpeedMs(Example, road.Power, road.Gradient, road.Wind);
            if (speed is 0 or RoadPower.MostMs)
            {
                return;
            }
            var parts = RoadPower.At(Example, speed, road.Gradient, road.Wind);
            Assert.Equal(road.Power, parts.Net / Example.DriveEfficiency, 1e-5);
        });

    /// <summary>An independent way: a general-purpose root finder on the same balance, over the speeds at which power rises.</summary>
    [Fact]
    public void Speed_AgainstAGeneralRootFinder_IsTheSame() =>
        Roads.Sample(road =>
        {
            var speed = RoadPower.SpeedMs(Example, road.Power + 1, road.Gradient, road.Wind);
            if (speed is 0 or RoadPower.MostMs)
            {
                return;
            }
            double Surplus(double v) =>
                ((road.Power + 1) * Example.DriveEfficiency / v)
                - (RoadPower.At(Example, v, road.Gradient, road.Wind).Net / v);
            Assert.Equal(Brent.FindRoot(Surplus, 1e-6, RoadPower.MostMs, 1e-11, 500), speed, 1e-6);
        });

    [Fact]
    public void Speed_MorePower_IsFaster() =>
        Roads.Sample(road =>
        {
            var less = RoadPower.SpeedMs(Example, road.Power, road.Gradient, road.Wind);
            var more = RoadPower.SpeedMs(Example, road.Power + 10, road.Gradient, road.Wind);
            Assert.True(more > less || more == RoadPower.MostMs);
        });

    [Fact]
    public void Speed_WithoutPower_IsStillOnTheFlatAndCoastsDownhill()
    {
        Assert.Equal(0, RoadPower.SpeedMs(Example, 0, 0));
        Assert.Equal(0, RoadPower.SpeedMs(Example, 0, 0.05));

        var coasting = RoadPower.SpeedMs(Example, 0, -0.05);
        Assert.InRange(coasting, 10, 25);
        Assert.Equal(0, RoadPower.At(Example, coasting, -0.05).Net, 1e-5);
    }

    /// <summary>Over a long piece of even road the steps settle at the steady speed, from above and from below.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(20)]
    public void Steps_OnAnEvenRoad_SettleAtTheSteadySpeed(double start)
    {
        var force = new RoadForce(Example);
        var v = start;
        for (var i = 0; i < 500; i++)
        {
            v = force.AfterMs(v, 200 * Example.DriveEfficiency, 10, 0.02, 1, 0.3);
        }
        Assert.Equal(RoadPower.SpeedMs(Example, 200, 0.02, 1), v, 1e-4);
    }

    /// <summary>
    /// An independent way: the same start by small steps in time (explicit Euler, 1 ms). Half as long a piece must come about
    /// twice as near.
    /// </summary>
    [Fact]
    public void Steps_OfAStart_ComeNearerTheShorterTheyAre()
    {
        var exact = ByTime(3, 200, 100);
        double Error(double piece)
        {
            var force = new RoadForce(Example);
            var v = 3.0;
            for (var s = 0.0; s < 100 - (piece / 2); s += piece)
            {
                v = force.AfterMs(v, 200 * Example.DriveEfficiency, piece, 0, 0, 0.3);
            }
            return Math.Abs(v - exact);
        }

        Assert.True(Error(5) < 0.1);
        Assert.InRange(Error(10) / Error(5), 1.6, 2.4);
    }

    [Fact]
    public void Steps_OfARiderWhoDoesNotPedalUphill_EndAtWalkingPace()
    {
        var force = new RoadForce(Example);
        var v = 5.0;
        for (var i = 0; i < 20; i++)
        {
            v = force.AfterMs(v, 0, 10, 0.1, 0, 0.5);
        }
        Assert.Equal(0.5, v);
    }

    [Theory]
    [InlineData(0, "mass", "20 to 500")]
    [InlineData(double.NaN, "mass", "20 to 500")]
    [InlineData(9000, "mass", "20 to 500")]
    public void Load_ThatCannotBe_SaysWhatWasExpected(double mass, string input, string expected)
    {
        var refused = Assert.Throws<ImpossibleInputException>(() =>
            RoadPower.SpeedMs(Example with { MassKg = mass }, 200, 0)
        );

        Assert.Equal(input, refused.Input);
        Assert.Contains(expected, refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(double.NaN, 0, 0, "power")]
    [InlineData(-1, 0, 0, "power")]
    [InlineData(200, 2, 0, "gradient")]
    [InlineData(200, double.NaN, 0, "gradient")]
    [InlineData(200, 0, 100, "wind")]
    public void Speed_OfWhatCannotBe_IsRefused(
        double power,
        double gradient,
        double wind,
        string input
    ) =>
        Assert.Equal(
            input,
            Assert
                .Throws<ImpossibleInputException>(() =>
                    RoadPower.SpeedMs(Example, power, gradient, wind)
                )
                .Input
        );

    /// <summary>Usual figures are what is published for the positions: the more bent, the less air.</summary>
    [Fact]
    public void Practice_PositionsAndSurfaces_AreInOrder()
    {
        var areas = Enum.GetValues<RidingPosition>().Select(RoadPractice.DragAreaM2).ToList();
        Assert.Equal(areas.OrderDescending(), areas);
        Assert.Equal(0.632, areas[0]);
        var rolling = Enum.GetValues<RoadSurface>()
            .Select(RoadPractice.RollingCoefficient)
            .ToList();
        Assert.Equal(rolling.Order(), rolling);
        foreach (var surface in Enum.GetValues<RoadSurface>())
        {
            var (least, most) = RoadPractice.RollingSpread(surface);
            Assert.InRange(RoadPractice.RollingCoefficient(surface), least, most);
        }
        Assert.Equal((0.003, 0.006), RoadPractice.RollingSpread(RoadSurface.SmoothAsphalt));
    }

    private static double ByTime(double v, double pedalsW, double metres)
    {
        const double Dt = 0.001;
        var s = 0.0;
        while (s < metres)
        {
            var force = RoadPower.At(Example, v, 0).Net / v;
            s += v * Dt;
            v += ((pedalsW * Example.DriveEfficiency / v) - force) / Example.MovingMassKg * Dt;
        }
        return v;
    }
}
