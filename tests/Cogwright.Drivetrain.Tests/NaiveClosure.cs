using MathNet.Numerics.RootFinding;

namespace Cogwright.Drivetrain.Tests;

/// <summary>How the naive twin's walk ended, and where.</summary>
internal readonly record struct NaiveResult(
    ClosureEnd End,
    double CageAngleRad,
    double ForemostRad,
    double NeedsPitches,
    int Evaluations
);

/// <summary>
/// The closure written as plainly as the model states it: the whole path from arctangents and arcsines, a walk in
/// fixed steps, and a general-purpose root finder. It knows nothing of the product's kernel.
/// </summary>
internal static class NaiveClosure
{
    /// <summary>The model's rule: no pulley is wrapped by three quarters of a turn or more.</summary>
    private const double MostPulleyWrapRad = 1.5 * Math.PI;

    private const double Taut = 1e-10;

    /// <summary>Path in pitches at a cage angle, or null where the pose cannot be.</summary>
    internal static double? PathPitches(NaiveMechanism m, double theta)
    {
        var tension = m.CagePivot + Turned(m.TensionOffset, theta);
        var guide = m.CagePivot + Turned(m.GuideOffset, theta);
        Point[] centre = [m.Axle, new(0, 0), tension, guide];
        int[] teeth = [m.CogTeeth, m.RingTeeth, m.TensionTeeth, m.GuideTeeth];
        int[] sense = [1, 1, 1, -1];
        var direction = new double[4];
        var pitches = 0.0;
        for (var i = 0; i < 4; i++)
        {
            var j = (i + 1) % 4;
            var dx = centre[j].X - centre[i].X;
            var dy = centre[j].Y - centre[i].Y;
            var distance = Math.Sqrt((dx * dx) + (dy * dy));
            var difference = (sense[i] * Radius(teeth[i])) - (sense[j] * Radius(teeth[j]));
            if (Math.Abs(difference) >= distance)
            {
                return null;
            }
            direction[i] = Math.Atan2(dy, dx) - Math.Asin(difference / distance);
            pitches += Math.Sqrt((distance * distance) - (difference * difference)) / m.PitchMm;
        }
        for (var j = 0; j < 4; j++)
        {
            var turn = sense[j] * (direction[(j + 3) % 4] - direction[j]);
            var wrap = ((turn % Math.Tau) + Math.Tau) % Math.Tau;
            if (j >= 2 && wrap >= MostPulleyWrapRad)
            {
                return null;
            }
            pitches += wrap * teeth[j] / Math.Tau;
        }
        return pitches;

        double Radius(int z) => m.PitchMm / (2 * Math.Sin(Math.PI / z));
    }

    /// <summary>From the front stop rearward in fixed steps to the first closure.</summary>
    internal static NaiveResult Walk(NaiveMechanism m, double stepRad)
    {
        var evaluations = 0;
        var foremost = double.NaN;
        var needs = double.NaN;
        var before = (Angle: m.FrontStopRad, F: (double?)null);
        for (var k = 0; ; k++)
        {
            var angle = Math.Max(m.FrontStopRad - (k * stepRad), m.RearStopRad);
            var here = (Angle: angle, F: F(angle));
            var continuous = before.F is not null;
            if (k > 0 && before.F is null != here.F is null)
            {
                // The last, or the first, pose that can be: a crossing may hide between it and the grid.
                var edge = Edge(before.Angle, angle);
                if (Visit(edge, continuous) is { } atEdge)
                {
                    return atEdge;
                }
                before = edge;
                continuous = true;
            }
            if (here.F is not null && Visit(here, continuous) is { } ended)
            {
                return ended;
            }
            before = here;
            if (angle <= m.RearStopRad)
            {
                return Result(
                    double.IsNaN(foremost) ? ClosureEnd.NoPose : ClosureEnd.Slack,
                    m.RearStopRad
                );
            }
        }

        double? F(double angle)
        {
            evaluations++;
            return PathPitches(m, angle) - m.ChainPitches;
        }

        NaiveResult? Visit((double Angle, double? F) at, bool continuous)
        {
            var f = at.F!.Value;
            if (double.IsNaN(foremost))
            {
                foremost = at.Angle;
                needs = f + m.ChainPitches;
                if (f > Taut)
                {
                    return Result(ClosureEnd.Short, at.Angle);
                }
            }
            else if (!continuous && f > Taut)
            {
                return Result(ClosureEnd.Jammed, before.Angle);
            }
            if (Math.Abs(f) <= Taut)
            {
                return Result(ClosureEnd.Taut, at.Angle);
            }
            return f > 0 ? Result(ClosureEnd.Taut, Root(at.Angle, before.Angle)) : null;
        }

        double Root(double low, double high) =>
            Brent.TryFindRoot(x => F(x) ?? double.NaN, low, high, 1e-13, 100, out var root)
                ? root
                : double.NaN;

        (double, double?) Edge(double from, double to)
        {
            var fromIsPose = F(from) is not null;
            var (a, b) = (from, to);
            for (var i = 0; i < 60; i++)
            {
                var middle = 0.5 * (a + b);
                if (F(middle) is not null == fromIsPose)
                {
                    a = middle;
                }
                else
                {
                    b = middle;
                }
            }
            var pose = fromIsPose ? a : b;
            return (pose, F(pose));
        }

        NaiveResult Result(ClosureEnd end, double angle) =>
            new(end, angle, foremost, needs, evaluations);
    }

    /// <summary>Brent's method on a bracket that somebody else found.</summary>
    internal static double RootBetween(NaiveMechanism m, double low, double high) =>
        Brent.TryFindRoot(
            x => (PathPitches(m, x) ?? double.NaN) - m.ChainPitches,
            low,
            high,
            1e-10,
            100,
            out var root
        )
            ? root
            : double.NaN;

    private static Point Turned(Point offset, double angle) =>
        new(
            (Math.Cos(angle) * offset.X) - (Math.Sin(angle) * offset.Y),
            (Math.Sin(angle) * offset.X) + (Math.Cos(angle) * offset.Y)
        );
}
