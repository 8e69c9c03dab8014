using CsCheck;
using MathNet.Numerics.RootFinding;
using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Union;

namespace Cogwright.Drivetrain.Tests;

/// <summary>
/// Free runs and wrap angles against geometry that knows nothing of chains: the hull of finely segmented circles
/// (NetTopologySuite), and tangency solved by a general root finder (MathNet).
/// </summary>
public class ChainPathGeometryTests
{
    private const int QuadrantSegments = 4_000;

    /// <summary>
    /// A hull over N = 4·4000 segments per circle leaves a circle at most one segment angle 2π/N from the true tangent
    /// point: 3.9e-4 rad, at both ends of a run. Twice that for the difference of two points.
    /// </summary>
    private const double WrapWithinRad = 2 * Math.Tau / (4 * QuadrantSegments);

    /// <summary>
    /// The tangent points move by up to r·2π/N along the circles, 0.04 mm at r = 100 mm; the run changes by both.
    /// </summary>
    private const double RunWithinMm = 2 * 110 * Math.Tau / (4 * QuadrantSegments);

    /// <summary>Two, three and four sprockets, all clockwise, none inside the hull of the others.</summary>
    public static TheoryData<double[]> Layouts() =>
        new(
            [-410, 0, 34, 0, 0, 50],
            [-404, 70, 11, 0, 0, 50],
            [-435, 20, 51, 0, 0, 32],
            [-404, 70, 11, 0, 0, 50, -380, -120, 14],
            [-404, 70, 34, -200, 190, 18, 0, 0, 34],
            [-404, 70, 21, -150, 180, 16, 0, 0, 44, -300, -150, 12]
        );

    [Theory]
    [MemberData(nameof(Layouts))]
    public void ChainPath_AllClockwise_RunsAndWrapsAgreeWithTheHullOfTheCircles(double[] layout)
    {
        var sprockets = layout
            .Chunk(3)
            .Select(c => new OrientedSprocket(new(c[0], c[1]), (int)c[2], 1))
            .ToArray();
        var factory = new GeometryFactory();
        var circles = sprockets
            .Select(s =>
                factory
                    .CreatePoint(new Coordinate(s.Centre.X, s.Centre.Y))
                    .Buffer(Sprocket.PitchRadiusMm(s.Teeth), QuadrantSegments)
            )
            .ToArray();
        var hull = UnaryUnionOp.Union(circles).ConvexHull().Coordinates;

        var path = ChainPath.Round(sprockets);
        var runs = HullRuns(hull, sprockets);
        Assert.Equal(sprockets.Length, runs.Count);
        for (var i = 0; i < sprockets.Length; i++)
        {
            var j = (i + 1) % sprockets.Length;
            var (_, _, start, end) = Assert.Single(runs, r => r.From == i && r.To == j);
            Assert.Equal(start.Distance(end), path.Runs[i].LengthMm, RunWithinMm);
            var arrives = runs.Single(r => r.To == i).End;
            var wrap = Turned(sprockets[i].Centre, arrives, start);
            Assert.Equal(wrap, path.Wraps[i].AngleRad, WrapWithinRad);
        }
    }

    /// <summary>The hull's edges between vertices of different circles, turned into the chain's clockwise order.</summary>
    private static List<(int From, int To, Coordinate Start, Coordinate End)> HullRuns(
        Coordinate[] hull,
        OrientedSprocket[] sprockets
    )
    {
        if (NetTopologySuite.Algorithm.Orientation.IsCCW(hull))
        {
            Array.Reverse(hull);
        }
        var runs = new List<(int, int, Coordinate, Coordinate)>();
        for (var k = 0; k + 1 < hull.Length; k++)
        {
            var (from, to) = (On(hull[k]), On(hull[k + 1]));
            if (from != to)
            {
                runs.Add((from, to, hull[k], hull[k + 1]));
            }
        }
        return runs;

        int On(Coordinate point) =>
            Array.FindIndex(
                sprockets,
                s =>
                    Math.Abs(
                        new Point(point.X - s.Centre.X, point.Y - s.Centre.Y).Length
                            - Sprocket.PitchRadiusMm(s.Teeth)
                    ) < 1e-6
            );
    }

    /// <summary>Angle turned clockwise at a centre from one point to another (rad).</summary>
    private static double Turned(Point centre, Coordinate from, Coordinate to)
    {
        var turn =
            Math.Atan2(from.Y - centre.Y, from.X - centre.X)
            - Math.Atan2(to.Y - centre.Y, to.X - centre.X);
        return turn < 0 ? turn + Math.Tau : turn;
    }

    /// <summary>
    /// The crossed path over an anticlockwise guide pulley: each tangent is found as the angle at which a line touching
    /// the first circle comes within the second's radius, by Brent's method and no arcsine.
    /// </summary>
    [Fact]
    public void ChainPath_AnticlockwiseGuide_RunsAndWrapsAgreeWithTangencySolvedByRootFinding()
    {
        foreach (var u in Draws.Of(Gen.Double.Unit.Array[9], 300, 3_000, 7))
        {
            OrientedSprocket[] sprockets =
            [
                new(new(-400 - (40 * u[0]), 70 * u[1]), 11 + (int)(40 * u[2]), 1),
                new(new(0, 0), 28 + (int)(25 * u[3]), 1),
                new(new(-400 + (60 * u[4]), -220 - (40 * u[5])), 11 + (int)(5 * u[6]), 1),
                new(new(-380 + (20 * u[7]), -125 - (30 * u[8])), 12, -1),
            ];
            var path = ChainPath.Round(sprockets);
            Assert.True(path.IsPossible);
            var directions = new double[4];
            for (var i = 0; i < 4; i++)
            {
                directions[i] = TangentDirection(sprockets[i], sprockets[(i + 1) % 4]);
                Assert.Equal(
                    0,
                    Math.IEEERemainder(directions[i] - path.Runs[i].DirectionRad, Math.Tau),
                    1e-9
                );
                // The end points lie on both circles and the run between them is square to both radii.
                var run = path.Runs[i];
                Assert.Equal((run.End - run.Start).Length, run.LengthMm, 1e-9);
                Assert.Equal(0, Across(run, run.Start - sprockets[i].Centre), 1e-9);
                Assert.Equal(0, Across(run, run.End - sprockets[(i + 1) % 4].Centre), 1e-9);
            }
            for (var j = 0; j < 4; j++)
            {
                var turn = sprockets[j].Sense * (directions[(j + 3) % 4] - directions[j]);
                Assert.Equal(
                    ((turn % Math.Tau) + Math.Tau) % Math.Tau,
                    path.Wraps[j].AngleRad,
                    1e-8
                );
            }
        }

        static double Across(ChainRun run, Point radius) =>
            (radius.X * Math.Cos(run.DirectionRad)) + (radius.Y * Math.Sin(run.DirectionRad));
    }

    private static double TangentDirection(OrientedSprocket from, OrientedSprocket to)
    {
        var between = to.Centre - from.Centre;
        var towards = Math.Atan2(between.Y, between.X);
        // Distance of the second centre left of a line that touches the first circle on its outer side.
        double Miss(double direction)
        {
            var left = new Point(-Math.Sin(direction), Math.Cos(direction));
            var offset =
                (between.X * left.X)
                + (between.Y * left.Y)
                - (from.Sense * Sprocket.PitchRadiusMm(from.Teeth));
            return offset + (to.Sense * Sprocket.PitchRadiusMm(to.Teeth));
        }
        return Brent.FindRoot(
            Miss,
            towards - (0.5 * Math.PI) + 1e-9,
            towards + (0.5 * Math.PI) - 1e-9,
            1e-13,
            200
        );
    }
}
