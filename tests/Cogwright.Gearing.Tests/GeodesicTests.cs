using CsCheck;

namespace Cogwright.Gearing.Tests;

/// <summary>Distances on the ellipsoid against published lines.</summary>
public class GeodesicTests
{
    /// <summary>
    /// Source: Flinders Peak to Buninyong, Geocentric Datum of Australia technical manual: 54 972.271 m, azimuth 306°52'05.37".
    /// </summary>
    [Fact]
    public void Line_FlindersPeakToBuninyong_AgreesToAMillimetre()
    {
        var (distance, course) = Geodesic.Line(
            -(37 + (57 / 60.0) + (3.72030 / 3600)),
            144 + (25 / 60.0) + (29.52440 / 3600),
            -(37 + (39 / 60.0) + (10.15610 / 3600)),
            143 + (55 / 60.0) + (35.38390 / 3600)
        );

        Assert.Equal(54972.271, distance, 0.001);
        var azimuth = 306 + (52 / 60.0) + (5.37 / 3600);
        Assert.Equal(azimuth - 360, course * 180 / Math.PI, 0.01 / 3600);
    }

    /// <summary>Source: Karney's test lines (GeographicLib, test/geodesictest.js), computed there to a nanometre.</summary>
    [Theory]
    [InlineData(35.60777, -139.44815, -11.17491, -69.95921, 8935244.5604818305)]
    [InlineData(55.52454, 106.05087, 77.03196, 197.18234, 4105086.1713924406)]
    [InlineData(-10.62672, -32.0898, 5.883, -134.31681, 11470869.3864563009)]
    public void Distance_KarneysTestLines_AgreesToAMillimetre(
        double latitude1,
        double longitude1,
        double latitude2,
        double longitude2,
        double metres
    ) =>
        Assert.Equal(
            metres,
            Geodesic.DistanceM(latitude1, longitude1, latitude2, longitude2),
            0.001
        );

    /// <summary>
    /// Source: the same line backwards, 127°10'25.07" (Geocentric Datum of Australia technical manual); and forwards −53.131840797° and
    /// 54 972.27114 m as computed apart by Karney's method on WGS84.
    /// </summary>
    [Fact]
    public void Line_BuninyongToFlindersPeak_HasTheReverseAzimuth()
    {
        const double Rad = Math.PI / 180;
        const double FlindersN = -(37 + (57 / 60.0) + (3.72030 / 3600));
        const double FlindersE = 144 + (25 / 60.0) + (29.52440 / 3600);
        const double BuninyongN = -(37 + (39 / 60.0) + (10.15610 / 3600));
        const double BuninyongE = 143 + (55 / 60.0) + (35.38390 / 3600);
        var there = Geodesic.Line(FlindersN, FlindersE, BuninyongN, BuninyongE);
        var back = Geodesic.Line(BuninyongN, BuninyongE, FlindersN, FlindersE);

        Assert.Equal(127 + (10 / 60.0) + (25.07 / 3600), back.CourseRad / Rad, 0.01 / 3600);
        Assert.Equal(-53.131840797, there.CourseRad / Rad, 2e-9);
        Assert.Equal(54972.27114, there.DistanceM, 1e-4);
        Assert.Equal(there.DistanceM, back.DistanceM, 1e-6);
    }

    /// <summary>Source: the azimuths (degrees) at both ends of Karney's test lines; a bike that leaves the second end comes back.</summary>
    [Theory]
    [InlineData(
        35.60777,
        -139.44815,
        111.098748429560326,
        -11.17491,
        -69.95921,
        129.289270889708762
    )]
    [InlineData(55.52454, 106.05087, 22.020059880982801, 77.03196, 197.18234, 109.112041110671519)]
    [InlineData(-10.62672, -32.0898, -86.426713286747751, 5.883, -134.31681, -80.473780971034875)]
    public void Course_KarneysTestLines_AgreesAtBothEnds(
        double latitude1,
        double longitude1,
        double azimuth1,
        double latitude2,
        double longitude2,
        double azimuth2
    )
    {
        const double Deg = 180 / Math.PI;
        var there = Geodesic.Line(latitude1, longitude1, latitude2, longitude2).CourseRad;
        var back = Geodesic.Line(latitude2, longitude2, latitude1, longitude1).CourseRad;

        Assert.Equal(azimuth1, there * Deg, 1e-7);
        Assert.Equal(0, Math.IEEERemainder((back * Deg) - (azimuth2 + 180), 360), 1e-7);
    }

    /// <summary>Source: a degree at the equator and the quarter meridian on WGS84, computed with Karney's method.</summary>
    [Theory]
    [InlineData(0, 0, 0, 1, 111319.4908)]
    [InlineData(0, 0, 1, 0, 110574.3886)]
    [InlineData(0, 0, 90, 0, 10001965.7293)]
    [InlineData(40.6, -73.8, 51.6, -0.5, 5551759.400)]
    [InlineData(0, 179.5, 0, -179.5, 111319.4908)]
    public void Distance_OnWgs84_AgreesToAMillimetre(
        double latitude1,
        double longitude1,
        double latitude2,
        double longitude2,
        double metres
    ) =>
        Assert.Equal(
            metres,
            Geodesic.DistanceM(latitude1, longitude1, latitude2, longitude2),
            0.001
        );

    /// <summary>The short cut for near points gives what the whole formula gives.</summary>
    [Fact]
    public void Distance_OfNearPoints_IsThatOfTheWholeFormula() =>
        Gen.Select(
                Gen.Double[-79.9, 79.9],
                Gen.Double[-0.0099, 0.0099],
                Gen.Double[-0.0099, 0.0099]
            )
            .Sample(
                (latitude, up, east) =>
                {
                    const double Rad = Math.PI / 180;
                    var phi1 = latitude * Rad;
                    var phi2 = (latitude + up) * Rad;
                    var whole = Geodesic.Vincenty(phi1, phi2, east * Rad);
                    var near = Geodesic.MidLatitude(phi1, phi2, east * Rad);
                    Assert.Equal(whole.DistanceM, near.DistanceM, 1e-5 + (1e-6 * whole.DistanceM));
                    if (whole.DistanceM > 1)
                    {
                        Assert.Equal(
                            0,
                            Math.IEEERemainder(whole.CourseRad - near.CourseRad, 2 * Math.PI),
                            1e-5
                        );
                    }
                }
            );

    [Fact]
    public void Distance_OfOnePlace_IsNothing() =>
        Assert.Equal((0, 0), Geodesic.Line(47.3769, 8.5417, 47.3769, 8.5417));

    /// <summary>Where Vincenty's formula fails the answer is still half the way round, within the flattening.</summary>
    [Fact]
    public void Distance_AlmostOpposite_IsHalfTheWayRound()
    {
        var distance = Geodesic.DistanceM(0.5, 0, -0.5, 179.7);
        Assert.Equal(20.0e6, distance, 0.01 * 20.0e6);
    }
}
