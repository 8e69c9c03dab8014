using CsCheck;

namespace Cogwright.Gearing.Tests;

/// <summary>Roads made of tracks, and typed ones.</summary>
public class TrackRoadTests
{
    // A thousandth of a degree of latitude near 47°, in metres.
    private const double StepDeg = 0.0001;

    [Fact]
    public void Length_IsThatOfTheTrackOnTheEllipsoid()
    {
        var track = North([.. Enumerable.Repeat(400.0, 200)]);
        var road = TrackRoad.Of(track);

        Assert.Equal(Geodesic.DistanceM(47, 8, 47 + (199 * StepDeg), 8), track.LengthM, 0.001);
        Assert.Equal(track.LengthM, road.LengthM, 0.001);
        Assert.All(road.CoursesRad, course => Assert.Equal(0, course, 1e-9));
        Assert.Empty(road.Notes);
    }

    /// <summary>An even slope stays as it is under any window, its ends too.</summary>
    [Fact]
    public void Smoothing_AnEvenSlope_LeavesIt() =>
        Gen.Select(Gen.Double[-0.2, 0.2], Gen.Double[1, 800])
            .Sample(
                (gradient, window) =>
                {
                    var track = North([
                        .. Enumerable.Range(0, 60).Select(i => 500 + (i * StepM() * gradient)),
                    ]);
                    var road = TrackRoad.Of(track, window);
                    Assert.All(road.Gradients, each => Assert.Equal(gradient, each, 1e-6));
                }
            );

    /// <summary>Against a naive twin: the mean over the window by a fine sum instead of the running integral.</summary>
    [Fact]
    public void Smoothing_AgainstAFineSum_Agrees() =>
        Gen.Select(Gen.Double[0, 50].Array[5, 30], Gen.Double[1, 30].Array[30], Gen.Double[1, 200])
            .Sample(
                (values, steps, window) =>
                {
                    var at = new double[values.Length];
                    for (var i = 1; i < at.Length; i++)
                    {
                        at[i] = at[i - 1] + steps[i];
                    }
                    var mean = new WindowMean(at, values, window);
                    foreach (var place in at)
                    {
                        Assert.Equal(FineMean(at, values, window, place), mean.At(place), 0.02);
                    }
                },
                iter: 30
            );

    [Fact]
    public void Smoothing_OfNoise_TakesAscentAwayAndKeepsTheEnds()
    {
        double[] noisy =
        [
            .. Enumerable.Range(0, 400).Select(i => 600 + (0.5 * i) + (i % 2 == 0 ? 2 : -2)),
        ];
        var road = TrackRoad.Of(North(noisy), 100);

        Assert.True(road.RecordedAscentM > 800, "Raw sums count the noise.");
        Assert.InRange(road.AscentM, 190, 215);
        Assert.Equal(noisy[^1] - noisy[0], road.AscentM - road.DescentM, 0.5);
        Assert.Equal(100, road.WindowM);
        Assert.Null(TrackRoad.Of(North(noisy), 0).WindowM);
    }

    [Fact]
    public void Elevation_MissingHereAndThere_IsFilledEvenlyAndTold()
    {
        var elevations = Enumerable.Range(0, 50).Select(i => 100 + (double)i).ToArray();
        elevations[0] = elevations[20] = elevations[21] = elevations[49] = double.NaN;
        elevations[30] = -32768;
        var road = TrackRoad.Of(North(elevations), 0);

        Assert.Equal(5, Note(road, RouteNoteKind.ElevationFilled).Count);
        // The first and the last take their neighbour's, so two metres of 49 are lost.
        Assert.Equal(47, road.AscentM, 1e-6);
        Assert.Equal(1 / StepM(), road.Gradients[20], 1e-6);
    }

    [Fact]
    public void Elevation_OneWildPoint_IsReplacedAndTold()
    {
        var elevations = Enumerable.Repeat(300.0, 50).ToArray();
        elevations[25] = 480;
        var road = TrackRoad.Of(North(elevations), 0);

        Assert.Equal(1, Note(road, RouteNoteKind.SpikeRemoved).Count);
        Assert.Equal(0, road.AscentM);
    }

    /// <summary>A planned way has few points: a pass between two valleys, some kilometres from either, is a pass and no slip.</summary>
    [Fact]
    public void Elevation_PassBetweenFarPoints_IsKept()
    {
        var track = new Track("pass", [47, 47.045, 47.09], [8, 8, 8], [400, 1200, 410], [0]);
        var road = TrackRoad.Of(track, 0);

        Assert.Empty(road.Notes);
        Assert.Equal(800, road.AscentM, 1e-6);
        Assert.Equal(790, road.DescentM, 1e-6);
    }

    [Fact]
    public void Elevation_Nowhere_IsRefused()
    {
        var track = North([.. Enumerable.Repeat(double.NaN, 10)]);
        var refused = Assert.Throws<ImpossibleInputException>(() => TrackRoad.Of(track));

        Assert.Equal("track", refused.Input);
        Assert.Contains("elevation", refused.Message, StringComparison.Ordinal);
    }

    /// <summary>A new segment means that reception was lost (GPX 1.1): what lies between is not ridden.</summary>
    [Fact]
    public void Stretches_AreNotJoined()
    {
        var whole = North([.. Enumerable.Repeat(400.0, 100)]);
        var parted = new Track(
            "parted",
            whole.LatitudesDeg,
            whole.LongitudesDeg,
            whole.ElevationsM,
            [0, 50]
        );
        var road = TrackRoad.Of(parted);

        Assert.Equal(whole.LengthM * 98 / 99, road.LengthM, 0.5);
        Assert.Equal([0, 49], road.StretchStarts);
        Assert.Equal(1, Note(road, RouteNoteKind.Gap).Count);
    }

    [Fact]
    public void Leap_WithinAStretch_IsAGap()
    {
        var track = new Track(
            "leap",
            [47, 47.0001, 47.0002, 47.1, 47.1001],
            [8, 8, 8, 8, 8],
            [400, 400, 400, 400, 400],
            [0]
        );
        var road = TrackRoad.Of(track);

        Assert.Equal(1, Note(road, RouteNoteKind.Gap).Count);
        Assert.Equal(3 * 11.12, road.LengthM, 0.1);
    }

    [Fact]
    public void Points_OnOnePlace_AreLeftOut()
    {
        var track = new Track("stop", [47, 47, 47, 47.0001], [8, 8, 8, 8], [1, 2, 3, 4], [0]);
        var road = TrackRoad.Of(track);

        Assert.Equal(2, Note(road, RouteNoteKind.PointRepeated).Count);
        Assert.Single(road.LengthsM);
    }

    [Fact]
    public void Track_OfOnePlace_IsRefused()
    {
        var track = new Track("stop", [47, 47], [8, 8], [1, 2], [0]);

        Assert.Throws<ImpossibleInputException>(() => TrackRoad.Of(track));
    }

    /// <summary>Points far apart are parted, so that the speed can follow the road.</summary>
    [Fact]
    public void Pieces_AreNeverLong()
    {
        var track = new Track("plan", [47, 47.004, 47.008], [8, 8, 8], [400, 420, 400], [0]);
        var road = TrackRoad.Of(track);

        Assert.All(road.LengthsM, length => Assert.InRange(length, 1, Route.LongestPieceM * 1.01));
        Assert.Equal(road.Count, road.CoursesRad.Length);
        Assert.Equal(track.LengthM, road.LengthM, 1.0);
    }

    /// <summary>A few points that go to and fro over an ocean would be millions of pieces: the longest road holds of tracks too.</summary>
    [Fact]
    public void Track_LongerThanTheLongestRoad_IsRefused()
    {
        var track = new Track(
            "to and fro",
            [47, 40, 47, 40],
            [8, -74, 8, -74],
            [400, 10, 400, 10],
            [0]
        );
        var refused = Assert.Throws<ImpossibleInputException>(() => TrackRoad.Of(track));

        Assert.Equal("track", refused.Input);
        Assert.Contains("5000 km", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Cliff_IsFlattenedAndTold()
    {
        var road = TrackRoad.Of(new("cliff", [47, 47.0001], [8, 8], [0, 50], [0]), 0);

        Assert.Equal(1, Note(road, RouteNoteKind.GradientLimited).Count);
        Assert.Equal(RoadPower.SteepestGradient, road.Gradients[0]);
    }

    [Fact]
    public void Track_ThatCannotBe_SaysWhat()
    {
        Assert.Contains(
            "1 points",
            Refused(() => new("x", [47], [8], [0], [0])),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "Point 2",
            Refused(() => new("x", [47, 91], [8, 8], [0, 0], [0])),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "Point 1",
            Refused(() => new("x", [double.NaN, 47], [8, 8], [0, 0], [0])),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "lists",
            Refused(() => new("x", [47, 47], [8], [0, 0], [0])),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "lists",
            Refused(() => new("x", [47, 47], [8, 8], [0, 0], [1])),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "lists",
            Refused(() => new("x", [47, 47], [8, 8], [0, 0], [0, 0])),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "1 to 5000",
            Assert.Throws<ImpossibleInputException>(() => TrackRoad.Of(North([1, 2]), -1)).Message,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Profile_PieceByPiece_IsTheRoad()
    {
        var road = Route.OfProfile("typed", [new(1000, 0.05), new(500, -0.03)]);

        Assert.Equal(1500, road.LengthM, 1e-6);
        Assert.Equal(1000 * 0.05 / Math.Sqrt(1 + (0.05 * 0.05)), road.AscentM, 1e-6);
        Assert.Equal(500 * 0.03 / Math.Sqrt(1 + (0.03 * 0.03)), road.DescentM, 1e-6);
        Assert.Null(road.RecordedAscentM);
    }

    /// <summary>What never falls falls by 0 m, and not by −0 m.</summary>
    [Fact]
    public void Descent_OfARoadThatOnlyRises_IsNothing()
    {
        var descent = Route.OfGradient("up", 0.05, 1000).DescentM;

        Assert.Equal(0, descent);
        Assert.False(double.IsNegative(descent));
    }

    [Theory]
    [InlineData(0, 0.05)]
    [InlineData(double.NaN, 0.05)]
    [InlineData(100, 2)]
    [InlineData(100, double.NaN)]
    [InlineData(9e9, 0)]
    public void Profile_ThatCannotBe_IsRefused(double length, double gradient)
    {
        Assert.Throws<ImpossibleInputException>(() => Route.OfGradient("x", gradient, length));
        Assert.Throws<ImpossibleInputException>(() => Route.OfProfile("x", []));
    }

    private static RouteNote Note(Route road, RouteNoteKind kind) =>
        road.Notes.Single(note => note.Kind == kind);

    private static string Refused(Func<Track> make) =>
        Assert.Throws<ImpossibleInputException>(make).Message;

    private static double StepM() => Geodesic.DistanceM(47, 8, 47 + StepDeg, 8);

    private static Track North(double[] elevations) =>
        new(
            "north",
            [.. Enumerable.Range(0, elevations.Length).Select(i => 47 + (i * StepDeg))],
            [.. Enumerable.Repeat(8.0, elevations.Length)],
            [.. elevations],
            [0]
        );

    private static double FineMean(double[] at, double[] values, double window, double place)
    {
        const int Parts = 4000;
        var half = Math.Min(window / 2, at[^1]);
        var sum = 0.0;
        for (var i = 0; i < Parts; i++)
        {
            sum += Turned(place - half + (2 * half * (i + 0.5) / Parts));
        }
        return sum / Parts;

        double Turned(double s) =>
            s < 0 ? (2 * values[0]) - Value(-s)
            : s > at[^1] ? (2 * values[^1]) - Value((2 * at[^1]) - s)
            : Value(s);

        double Value(double s)
        {
            for (var i = 1; i < at.Length; i++)
            {
                if (s <= at[i])
                {
                    return values[i - 1]
                        + ((values[i] - values[i - 1]) * (s - at[i - 1]) / (at[i] - at[i - 1]));
                }
            }
            return values[^1];
        }
    }
}
