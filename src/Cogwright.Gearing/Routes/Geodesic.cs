namespace Cogwright.Gearing;

/// <summary>
/// Distance and course on the WGS84 ellipsoid. Sources: T. Vincenty, "Direct and inverse solutions of geodesics on the ellipsoid
/// with application of nested equations", Survey Review 23(176), 1975 (inverse formula); for two points less than about a
/// kilometre apart Gauss' mid-latitude formula, which agrees with it to better than a millionth there.
/// </summary>
public static class Geodesic
{
    /// <summary>Equatorial radius of WGS84 (m).</summary>
    public const double EquatorM = 6378137;

    /// <summary>Flattening of WGS84.</summary>
    public const double Flattening = 1 / 298.257223563;

    private const double PolarM = EquatorM * (1 - Flattening);
    private const double Eccentricity2 = Flattening * (2 - Flattening);
    private const double MeanM = 6371008.8;
    private const double RadPerDeg = Math.PI / 180;

    // Within this the mid-latitude formula serves (rad): 0.01°, a kilometre. Its error grows with the square: 1e-9 there.
    private const double Near = 0.01 * RadPerDeg;

    // Beyond this latitude meridians draw together too fast for it.
    private const double NearPole = 80 * RadPerDeg;

    private const int MostSteps = 200;

    /// <summary>Distance between two places (m) on the ellipsoid, elevation left out.</summary>
    /// <remarks>
    /// Two places almost opposite on the globe, where Vincenty's formula does not converge, get the distance on a sphere of the
    /// mean radius (0.6 % at worst).
    /// </remarks>
    /// <param name="latitude1Deg">Latitude of the first (degrees, −90 to 90).</param>
    /// <param name="longitude1Deg">Longitude of the first (degrees, −180 to 180).</param>
    /// <param name="latitude2Deg">Latitude of the second (degrees).</param>
    /// <param name="longitude2Deg">Longitude of the second (degrees).</param>
    public static double DistanceM(
        double latitude1Deg,
        double longitude1Deg,
        double latitude2Deg,
        double longitude2Deg
    ) => Line(latitude1Deg, longitude1Deg, latitude2Deg, longitude2Deg).DistanceM;

    /// <summary>Distance (m) and course at the first place (rad, clockwise from north, −π to π; 0 when they are the same place).</summary>
    /// <param name="latitude1Deg">Latitude of the first (degrees, −90 to 90).</param>
    /// <param name="longitude1Deg">Longitude of the first (degrees, −180 to 180).</param>
    /// <param name="latitude2Deg">Latitude of the second (degrees).</param>
    /// <param name="longitude2Deg">Longitude of the second (degrees).</param>
    public static (double DistanceM, double CourseRad) Line(
        double latitude1Deg,
        double longitude1Deg,
        double latitude2Deg,
        double longitude2Deg
    )
    {
        var phi1 = latitude1Deg * RadPerDeg;
        var phi2 = latitude2Deg * RadPerDeg;
        var lambda = Math.IEEERemainder(longitude2Deg - longitude1Deg, 360) * RadPerDeg;
        return Math.Abs(lambda) < Near && Math.Abs(phi2 - phi1) < Near && Math.Abs(phi1) < NearPole
            ? MidLatitude(phi1, phi2, lambda)
            : Vincenty(phi1, phi2, lambda);
    }

    /// <summary>Gauss' mid-latitude formula, of second order.</summary>
    internal static (double DistanceM, double CourseRad) MidLatitude(
        double phi1,
        double phi2,
        double lambda
    )
    {
        var (sin, cos) = Math.SinCos(0.5 * (phi1 + phi2));
        var w2 = 1 - (Eccentricity2 * sin * sin);
        var n = EquatorM / Math.Sqrt(w2);
        var east = n * cos * lambda;
        var north = n * (1 - Eccentricity2) / w2 * (phi2 - phi1);
        // At the middle of the line; at its beginning it is less by half the convergence of the meridians.
        var course = Math.Atan2(east, north) - (0.5 * lambda * sin);
        return (Math.Sqrt((east * east) + (north * north)), east == 0 && north == 0 ? 0 : course);
    }

    /// <summary>Vincenty's inverse formula.</summary>
    internal static (double DistanceM, double CourseRad) Vincenty(
        double phi1,
        double phi2,
        double lambda0
    )
    {
        var (sinU1, cosU1) = Math.SinCos(Math.Atan((1 - Flattening) * Math.Tan(phi1)));
        var (sinU2, cosU2) = Math.SinCos(Math.Atan((1 - Flattening) * Math.Tan(phi2)));
        var lambda = lambda0;
        for (var i = 0; i < MostSteps; i++)
        {
            var (sinLambda, cosLambda) = Math.SinCos(lambda);
            var x = cosU2 * sinLambda;
            var y = (cosU1 * sinU2) - (sinU1 * cosU2 * cosLambda);
            var sinSigma = Math.Sqrt((x * x) + (y * y));
            if (sinSigma == 0)
            {
                return (0, 0);
            }
            var cosSigma = (sinU1 * sinU2) + (cosU1 * cosU2 * cosLambda);
            var sigma = Math.Atan2(sinSigma, cosSigma);
            var sinAlpha = cosU1 * cosU2 * sinLambda / sinSigma;
            var cos2Alpha = 1 - (sinAlpha * sinAlpha);
            var cos2Sm = cos2Alpha == 0 ? 0 : cosSigma - (2 * sinU1 * sinU2 / cos2Alpha);
            var c = Flattening / 16 * cos2Alpha * (4 + (Flattening * (4 - (3 * cos2Alpha))));
            var before = lambda;
            lambda =
                lambda0
                + (
                    (1 - c)
                    * Flattening
                    * sinAlpha
                    * (
                        sigma
                        + (c * sinSigma * (cos2Sm + (c * cosSigma * (-1 + (2 * cos2Sm * cos2Sm)))))
                    )
                );
            if (Math.Abs(lambda - before) < 1e-12)
            {
                return (Arc(sigma, sinSigma, cosSigma, cos2Sm, cos2Alpha), Math.Atan2(x, y));
            }
        }
        return OnSphere(phi1, phi2, lambda0);
    }

    private static double Arc(
        double sigma,
        double sinSigma,
        double cosSigma,
        double cos2Sm,
        double cos2Alpha
    )
    {
        var u2 = cos2Alpha * ((EquatorM * EquatorM) - (PolarM * PolarM)) / (PolarM * PolarM);
        var a = 1 + (u2 / 16384 * (4096 + (u2 * (-768 + (u2 * (320 - (175 * u2)))))));
        var b = u2 / 1024 * (256 + (u2 * (-128 + (u2 * (74 - (47 * u2))))));
        var inner =
            (cosSigma * (-1 + (2 * cos2Sm * cos2Sm)))
            - (b / 6 * cos2Sm * (-3 + (4 * sinSigma * sinSigma)) * (-3 + (4 * cos2Sm * cos2Sm)));
        return PolarM * a * (sigma - (b * sinSigma * (cos2Sm + (b / 4 * inner))));
    }

    private static (double DistanceM, double CourseRad) OnSphere(
        double phi1,
        double phi2,
        double lambda
    )
    {
        var (sin1, cos1) = Math.SinCos(phi1);
        var (sin2, cos2) = Math.SinCos(phi2);
        var (sinLambda, cosLambda) = Math.SinCos(lambda);
        var x = cos2 * sinLambda;
        var y = (cos1 * sin2) - (sin1 * cos2 * cosLambda);
        var sigma = Math.Atan2(
            Math.Sqrt((x * x) + (y * y)),
            (sin1 * sin2) + (cos1 * cos2 * cosLambda)
        );
        return (MeanM * sigma, Math.Atan2(x, y));
    }
}
