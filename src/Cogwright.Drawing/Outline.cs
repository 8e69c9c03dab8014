using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Drawing;

/// <summary>Outlines of parts as closed polygons, in the side view (mm).</summary>
internal static class Outline
{
    /// <summary>
    /// A toothed rim: round seats of the roller's size on the pitch circle (ISO 606's seating angle at the middle of
    /// its range, 130° − 90°/z), straight flanks to narrow tips on the tip circle. The tip's width is for the eye only.
    /// </summary>
    /// <param name="centre">Centre (mm).</param>
    /// <param name="teeth">Number of teeth.</param>
    /// <param name="pitchRadiusMm">Pitch radius (mm).</param>
    /// <param name="tipRadiusMm">Tip radius (mm).</param>
    /// <param name="gapAngleRad">Angle of the middle of one tooth gap (rad).</param>
    internal static ImmutableArray<(double X, double Y)> Toothed(
        Point centre,
        int teeth,
        double pitchRadiusMm,
        double tipRadiusMm,
        double gapAngleRad
    )
    {
        const int seatSteps = 8;
        const double seatRadius = 0.505 * Sprocket.RollerDiameterMm;
        var seatHalf = (130 - (90.0 / teeth)) * Math.PI / 360;
        var tipHalf = Math.Min(1.1 / tipRadiusMm, 0.3 * Math.PI / teeth);
        var points = ImmutableArray.CreateBuilder<(double X, double Y)>(teeth * (seatSteps + 3));
        for (var tooth = 0; tooth < teeth; tooth++)
        {
            var middle = gapAngleRad + (tooth * Math.Tau / teeth);
            var seat = At(centre, pitchRadiusMm, middle);
            for (var step = 0; step <= seatSteps; step++)
            {
                // The seat faces outward, so it is walked clockwise while the rim is walked anticlockwise.
                var turn = seatHalf * (1 - (2.0 * step / seatSteps));
                points.Add(Pair(At(seat, seatRadius, middle + Math.PI + turn)));
            }
            var tip = middle + (Math.PI / teeth);
            points.Add(Pair(At(centre, tipRadiusMm, tip - tipHalf)));
            points.Add(Pair(At(centre, tipRadiusMm, tip + tipHalf)));
        }
        return points.ToImmutable();
    }

    /// <summary>The tightest convex outline round circles, such as a cage plate round its pulleys' bolts.</summary>
    internal static ImmutableArray<(double X, double Y)> Round(
        params ReadOnlySpan<(Point Centre, double RadiusMm)> circles
    )
    {
        const int steps = 48;
        var points = new List<(double X, double Y)>(circles.Length * steps);
        foreach (var (centre, radius) in circles)
        {
            for (var i = 0; i < steps; i++)
            {
                points.Add(Pair(At(centre, radius, Math.Tau * i / steps)));
            }
        }
        return ConvexHull(points);
    }

    /// <summary>A link plate between two pins: two half circles and two straight sides.</summary>
    internal static ImmutableArray<(double X, double Y)> Plate(
        Point a,
        Point b,
        double halfHeightMm
    )
    {
        const int steps = 8;
        var angle = Math.Atan2(b.Y - a.Y, b.X - a.X);
        var points = ImmutableArray.CreateBuilder<(double X, double Y)>(2 * (steps + 1));
        for (var i = 0; i <= steps; i++)
        {
            points.Add(Pair(At(b, halfHeightMm, angle - (Math.PI / 2) + (Math.PI * i / steps))));
        }
        for (var i = 0; i <= steps; i++)
        {
            points.Add(Pair(At(a, halfHeightMm, angle + (Math.PI / 2) + (Math.PI * i / steps))));
        }
        return points.ToImmutable();
    }

    internal static Point At(Point centre, double radiusMm, double angleRad)
    {
        var (sin, cos) = Math.SinCos(angleRad);
        return new(centre.X + (radiusMm * cos), centre.Y + (radiusMm * sin));
    }

    private static (double X, double Y) Pair(Point point) => (point.X, point.Y);

    // Monotone chain (A. M. Andrew, "Another efficient algorithm for convex hulls in two dimensions", 1979).
    private static ImmutableArray<(double X, double Y)> ConvexHull(
        List<(double X, double Y)> points
    )
    {
        points.Sort();
        var hull = new List<(double X, double Y)>();
        Sweep(points, hull);
        var lower = hull.Count;
        points.Reverse();
        Sweep(points, hull, lower - 1);
        hull.RemoveAt(hull.Count - 1);
        return [.. hull];
    }

    private static void Sweep(
        List<(double X, double Y)> points,
        List<(double X, double Y)> hull,
        int keep = 0
    )
    {
        foreach (var point in points)
        {
            while (hull.Count >= keep + 2 && Cross(hull[^2], hull[^1], point) <= 1e-12)
            {
                hull.RemoveAt(hull.Count - 1);
            }
            if (hull.Count == 0 || hull[^1] != point)
            {
                hull.Add(point);
            }
        }
    }

    private static double Cross(
        (double X, double Y) o,
        (double X, double Y) a,
        (double X, double Y) b
    ) => ((a.X - o.X) * (b.Y - o.Y)) - ((a.Y - o.Y) * (b.X - o.X));
}
