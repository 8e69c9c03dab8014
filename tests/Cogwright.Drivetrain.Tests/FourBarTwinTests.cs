using CsCheck;
using MathNet.Numerics.RootFinding;
using static Cogwright.Drivetrain.Tests.RearEnds;

namespace Cogwright.Drivetrain.Tests;

/// <summary>
/// The four-bar against a general-purpose solver: MathNet's Broyden on the loop equations as a textbook writes them,
/// with the angles of all three links unknown and the axle's rise as the third equation.
/// </summary>
public class FourBarTwinTests
{
    [Fact]
    public void FourBar_WholeTravel_AgreesWithTheLoopEquations() => AssertAgrees(OnLinks);

    [Fact]
    public void FourBar_RandomLinkages_AgreeWithTheLoopEquations()
    {
        var count = 0;
        var gen = Gen.Double[-1, 1].Array[8];
        foreach (var u in Draws.Of(gen, 60, 1000, 20261125))
        {
            var links = new FourBar(
                new(-20 + (30 * u[0]), 70 + (40 * u[1])),
                new(-385 + (20 * u[2]), 45 + (30 * u[3])),
                new(-50 + (40 * u[4]), 330 + (40 * u[5])),
                new(-140 + (40 * u[6]), 290 + (30 * u[7]))
            );
            var frame = OnLinks with { Suspension = OnLinks.Suspension! with { Linkage = links } };
            if (!SpecCheck.Problems(Trail(frame)).IsEmpty)
            {
                continue;
            }
            count++;
            AssertAgrees(frame);
        }
        Draws.Say($"{count} linkages");
        Assert.True(count > 20, $"{count}");
    }

    private static void AssertAgrees(Frame frame)
    {
        var links = (FourBar)frame.Suspension!.Linkage;
        var (a, b, d, c) = (
            links.LowerFrameMm,
            links.LowerRearMm,
            links.UpperFrameMm,
            links.UpperRearMm
        );
        var lower = (b - a).Length;
        var coupler = (c - b).Length;
        var upper = (c - d).Length;
        var axle0 = frame.Axle;
        // The axle in the coupler's own axes.
        var (e, f) = InAxes(c - b, axle0 - b);
        double[] angles = [Angle(b - a), Angle(c - b), Angle(c - d)];
        var coupler0 = angles[1];
        for (var travel = 0.0; travel <= frame.Suspension.TravelMm; travel += 5)
        {
            var rise = travel;
            angles = Broyden.FindRoot(Equations, angles, 1e-11, 200);
            var axle = AxleAt(angles);
            var pose = RearEnd.Of(frame).At(travel);
            Assert.Equal(axle.X, pose.Axle.X, 1e-8);
            Assert.Equal(axle.Y, pose.Axle.Y, 1e-8);
            Assert.Equal(angles[1] - coupler0, pose.RotationRad, 1e-10);

            double[] Equations(double[] x) =>
                [
                    a.X
                        + (lower * Math.Cos(x[0]))
                        + (coupler * Math.Cos(x[1]))
                        - d.X
                        - (upper * Math.Cos(x[2])),
                    a.Y
                        + (lower * Math.Sin(x[0]))
                        + (coupler * Math.Sin(x[1]))
                        - d.Y
                        - (upper * Math.Sin(x[2])),
                    AxleAt(x).Y - axle0.Y - rise,
                ];
        }

        Point AxleAt(double[] x) =>
            new(
                a.X + (lower * Math.Cos(x[0])) + (e * Math.Cos(x[1])) - (f * Math.Sin(x[1])),
                a.Y + (lower * Math.Sin(x[0])) + (e * Math.Sin(x[1])) + (f * Math.Cos(x[1]))
            );
    }

    private static double Angle(Point p) => Math.Atan2(p.Y, p.X);

    private static (double Along, double Across) InAxes(Point axis, Point p) =>
        (
            ((axis.X * p.X) + (axis.Y * p.Y)) / axis.Length,
            ((axis.X * p.Y) - (axis.Y * p.X)) / axis.Length
        );
}
