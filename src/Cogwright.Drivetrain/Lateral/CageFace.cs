namespace Cogwright.Drivetrain;

/// <summary>The cage's innermost face in one pose: a plate round both pulleys, seen from the side, and the plane it lies in.</summary>
/// <param name="Guide">Centre of the guide pulley.</param>
/// <param name="Tension">Centre of the tension pulley.</param>
/// <param name="GuideReachMm">How far the plate reaches round the guide pulley's axis (mm).</param>
/// <param name="TensionReachMm">How far it reaches round the tension pulley's axis (mm).</param>
/// <param name="LateralMm">Lateral position of the face with a straight hanger (mm).</param>
internal readonly record struct CageFace(
    Point Guide,
    Point Tension,
    double GuideReachMm,
    double TensionReachMm,
    double LateralMm
)
{
    /// <summary>Directions tried round each pulley; a chord's sagitta at 15 mm is then 0.002 mm.</summary>
    private const int Directions = 180;

    /// <summary>Points tried along each straight side; the distance to the axle is convex and flat there.</summary>
    private const int AlongSide = 64;

    /// <summary>
    /// Least distance from the face outboard to the spokes over the whole plate (mm; negative when it would cut them).
    /// </summary>
    /// <param name="cone">The spokes.</param>
    /// <param name="axle">The axle.</param>
    /// <param name="bolt">The hanger bolt, about which the tilt turns.</param>
    /// <param name="tilt">The hanger's tilt.</param>
    /// <param name="at">Where on the plate it is least.</param>
    /// <remarks>
    /// z_face(p) − z_spoke(|p − axle|) is convex in p (a plane plus a cone), so that its least value on the plate lies
    /// on the rim of the plate; the rim is walked, and the point nearest to the axle is taken exactly.
    /// </remarks>
    internal double LeastToSpokesMm(
        in SpokeCone cone,
        Point axle,
        Point bolt,
        HangerTilt tilt,
        out Point at
    )
    {
        var least = double.PositiveInfinity;
        at = Guide;
        Disc(Guide, GuideReachMm, cone, axle, bolt, tilt, ref least, ref at);
        Disc(Tension, TensionReachMm, cone, axle, bolt, tilt, ref least, ref at);
        var along = Tension - Guide;
        if (along.Length > 0)
        {
            var across = new Point(-along.Y / along.Length, along.X / along.Length);
            for (var side = -1; side <= 1; side += 2)
            {
                for (var i = 1; i < AlongSide; i++)
                {
                    var part = (double)i / AlongSide;
                    var reach = side * (GuideReachMm + (part * (TensionReachMm - GuideReachMm)));
                    var p =
                        Guide
                        + new Point(
                            (part * along.X) + (reach * across.X),
                            (part * along.Y) + (reach * across.Y)
                        );
                    Try(p, cone, axle, bolt, tilt, ref least, ref at);
                }
            }
        }
        return least;
    }

    private void Disc(
        Point centre,
        double reachMm,
        in SpokeCone cone,
        Point axle,
        Point bolt,
        HangerTilt tilt,
        ref double least,
        ref Point at
    )
    {
        var towards = axle - centre;
        var start = Math.Atan2(towards.Y, towards.X);
        for (var i = 0; i < Directions; i++)
        {
            var p = centre + new Point(reachMm, 0).Turned(start + (Math.Tau * i / Directions));
            Try(p, cone, axle, bolt, tilt, ref least, ref at);
        }
    }

    private void Try(
        Point p,
        in SpokeCone cone,
        Point axle,
        Point bolt,
        HangerTilt tilt,
        ref double least,
        ref Point at
    )
    {
        var distance = LateralMm + tilt.LateralMm(p - bolt) - cone.LateralMm((p - axle).Length);
        if (distance < least)
        {
            least = distance;
            at = p;
        }
    }
}
