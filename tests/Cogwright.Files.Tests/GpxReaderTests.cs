using System.Globalization;
using System.Text;
using CsCheck;

namespace Cogwright.Files.Tests;

/// <summary>Tracks and routes in GPX 1.1: what is taken, and where exactly something is wrong.</summary>
public class GpxReaderTests
{
    private const string Head =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        + "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\" version=\"1.1\" creator=\"test\">\n";

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public void Track_OfTwoSegments_IsReadInStretches()
    {
        var reading = Read(
            Head
                + "<metadata><name>Evening round</name></metadata>\n"
                + "<wpt lat=\"1\" lon=\"2\"><ele>5</ele><name>Café</name></wpt>\n"
                + "<trk><name>Other</name><trkseg>\n"
                + "<trkpt lat=\"47.1\" lon=\"8.5\"><ele>410.5</ele><time>2026-01-01T00:00:00Z</time></trkpt>\n"
                + "<trkpt lat=\"47.2\" lon=\"-180\"/>\n"
                + "</trkseg><trkseg>\n"
                + "<trkpt lat=\"-90\" lon=\"179.999\"><ele> 12 </ele></trkpt>\n"
                + "</trkseg></trk></gpx>"
        );

        var track = reading.Track!;
        Assert.Equal("Evening round", track.Name);
        Assert.Equal([47.1, 47.2, -90], track.LatitudesDeg);
        Assert.Equal([8.5, -180, 179.999], track.LongitudesDeg);
        Assert.Equal([410.5, double.NaN, 12], track.ElevationsM);
        Assert.Equal([0, 2], track.StretchStarts);
        Assert.Empty(reading.Problems);
    }

    [Fact]
    public void Route_WithoutTrack_IsRead()
    {
        var reading = Read(
            Head
                + "<rte><rtept lat=\"47.1\" lon=\"8.5\"><ele>1</ele></rtept>"
                + "<rtept lat=\"47.2\" lon=\"8.5\"><ele>2</ele></rtept></rte></gpx>"
        );

        Assert.Equal(2, reading.Track!.Count);
        Assert.Empty(reading.Problems);
    }

    [Fact]
    public void Route_BesideATrack_IsLeftOutAndTold()
    {
        var reading = Read(
            Head + "<rte><rtept lat=\"1\" lon=\"8.5\"/></rte>" + Segment("47.1", "47.2") + "</gpx>"
        );

        Assert.Equal([47.1, 47.2], reading.Track!.LatitudesDeg);
        Assert.Contains(
            "routes are left out",
            Assert.Single(reading.Problems).Message,
            StringComparison.Ordinal
        );
    }

    /// <summary>What other programs add, with names of its own, changes nothing.</summary>
    [Fact]
    public void Extensions_HoweverDeep_ArePassedOver()
    {
        var reading = Read(
            Head
                + "<trk><trkseg><trkpt lat=\"47.1\" lon=\"8.5\"><ele>1</ele><extensions>"
                + "<x:a xmlns:x=\"urn:x\"><x:b><ele>99</ele><extensions/><trkpt lat=\"9\" lon=\"9\"/></x:b></x:a>"
                + "</extensions></trkpt><extensions/><extensions/>"
                + "<trkpt lat=\"47.2\" lon=\"8.5\"><ele>2</ele></trkpt></trkseg></trk></gpx>"
        );

        Assert.Equal([47.1, 47.2], reading.Track!.LatitudesDeg);
        Assert.Equal([1.0, 2], reading.Track.ElevationsM);
    }

    /// <summary>A hundred thousand empty extensions one behind the other do not pile up.</summary>
    [Fact]
    public void Extensions_InMasses_DoNotPileUp()
    {
        var many = string.Concat(Enumerable.Repeat("<extensions></extensions>", 100_000));
        var reading = Read(Head + many + Segment("47.1", "47.2") + "</gpx>");

        Assert.NotNull(reading.Track);
    }

    [Fact]
    public void Version10_AndNoNamespace_AreReadWithARemark()
    {
        var old = Read(
            "<gpx version=\"1.0\" xmlns=\"http://www.topografix.com/GPX/1/0\">"
                + Segment("47.1", "47.2")
                + "</gpx>"
        );
        var bare = Read("<gpx>" + Segment("47.1", "47.2") + "</gpx>");

        Assert.Equal(2, old.Track!.Count);
        Assert.Equal(2, bare.Track!.Count);
        Assert.False(Assert.Single(old.Problems).IsError);
        Assert.False(Assert.Single(bare.Problems).IsError);
    }

    /// <summary>Source: GPX 1.1 schema: latitude −90 to 90, longitude −180 up to but without 180, both required; ele a decimal.</summary>
    [Theory]
    [InlineData("<trkpt lat=\"91\" lon=\"8\"/>", "trkpt.lat", 9)]
    [InlineData("<trkpt lat=\"47,1\" lon=\"8\"/>", "trkpt.lat", 9)]
    [InlineData("<trkpt lat=\"NaN\" lon=\"8\"/>", "trkpt.lat", 9)]
    [InlineData("<trkpt lat=\"47\" lon=\"180\"/>", "trkpt.lon", 18)]
    [InlineData("<trkpt lat=\"47\" lon=\"-180.01\"/>", "trkpt.lon", 18)]
    [InlineData("<trkpt lat=\"47\"/>", "trkpt", 3)]
    [InlineData("<trkpt/>", "trkpt", 3)]
    [InlineData("<trkpt lat=\"47\" lon=\"8\"><ele>high</ele></trkpt>", "ele", 0)]
    [InlineData("<trkpt lat=\"47\" lon=\"8\"><ele>408,5</ele></trkpt>", "ele", 0)]
    [InlineData("<trkpt lat=\"47\" lon=\"8\"><ele>1e999</ele></trkpt>", "ele", 0)]
    public void Point_ThatIsWrong_IsNamedWithItsPlace(string point, string field, int column)
    {
        var reading = Read(Head + "<trk><trkseg>\n" + " " + point + "\n</trkseg></trk></gpx>");

        Assert.Null(reading.Track);
        var problem = reading.Problems[0];
        Assert.True(problem.IsError);
        Assert.Equal(field, problem.Field);
        Assert.Equal(4, problem.Line);
        if (column > 0)
        {
            Assert.Equal(column, problem.Column);
        }
    }

    /// <summary>Source: GPX 1.1 schema: both latitudes of 90° and the longitude of −180° are places, that of 180° is none.</summary>
    [Theory]
    [InlineData("90", "-180", true)]
    [InlineData("-90", "179.9999999", true)]
    [InlineData("90.0000001", "0", false)]
    [InlineData("0", "180", false)]
    public void Point_OnTheEdgesOfTheSchema_IsReadOrRefused(string lat, string lon, bool isRead)
    {
        var reading = Read(
            Head
                + $"<trk><trkseg><trkpt lat=\"{lat}\" lon=\"{lon}\"/><trkpt lat=\"0\" lon=\"0\"/></trkseg></trk></gpx>"
        );

        Assert.Equal(isRead, reading.Track is not null);
    }

    /// <summary>
    /// Source: GPX 1.1 schema, wptType: ele, time, magvar, geoidheight, name, cmt, desc, src, link, sym, type, fix, sat, hdop, vdop,
    /// pdop, ageofdgpsdata, dgpsid, extensions, in that order. Of these the elevation is taken and no other number for it.
    /// </summary>
    [Fact]
    public void Point_WithEverythingTheSchemaAllows_GivesItsElevationAlone()
    {
        const string Rest =
            "<time>2026-01-01T00:00:00Z</time><magvar>359.9</magvar><geoidheight>47.3</geoidheight><name>7</name><cmt>8</cmt>"
            + "<desc>9</desc><src>10</src><link href=\"urn:x\"><text>11</text></link><sym>12</sym><type>13</type><fix>dgps</fix>"
            + "<sat>14</sat><hdop>1.5</hdop><vdop>1.6</vdop><pdop>1.7</pdop><ageofdgpsdata>18</ageofdgpsdata><dgpsid>1023</dgpsid>"
            + "<extensions/>";
        var reading = Read(
            Head
                + "<trk><name>Way</name><trkseg>"
                + $"<trkpt lat=\"47\" lon=\"8\"><ele>408.5</ele>{Rest}</trkpt>"
                + $"<trkpt lat=\"47.1\" lon=\"8\">{Rest}</trkpt>"
                + "</trkseg></trk></gpx>"
        );

        Assert.Equal([408.5, double.NaN], reading.Track!.ElevationsM);
        Assert.Equal("Way", reading.Track.Name);
        Assert.Empty(reading.Problems);
    }

    [Fact]
    public void Points_WrongInMasses_AreToldUpToALimit()
    {
        var many = string.Concat(Enumerable.Repeat("<trkpt lat=\"x\" lon=\"y\"/>\n", 10_000));
        var reading = Read(Head + "<trk><trkseg>" + many + "</trkseg></trk></gpx>");

        Assert.Null(reading.Track);
        Assert.InRange(reading.Problems.Length, 1, 52);
    }

    /// <summary>A device that ran out of battery leaves half a file: where it ends is told, and how much there was.</summary>
    [Fact]
    public void File_CutOff_TellsWhereAndHowMuchThereWas()
    {
        var whole = Head + Segment("47.1", "47.2");
        var reading = Read(whole[..^20]);

        Assert.Null(reading.Track);
        var problem = Assert.Single(reading.Problems);
        Assert.Equal(3, problem.Line);
        Assert.Contains("2 points", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("frame: 1\nname: x\n")]
    [InlineData("PK\u0003\u0004")]
    public void File_ThatIsNoXml_IsRefused(string text)
    {
        var reading = Read(text);

        Assert.Null(reading.Track);
        Assert.True(Assert.Single(reading.Problems).IsError);
    }

    [Theory]
    [InlineData("<kml xmlns=\"http://www.opengis.net/kml/2.2\"/>", "kml")]
    [InlineData("<gpx xmlns=\"urn:other\"/>", "gpx")]
    public void Root_OfAnotherFormat_IsRefused(string text, string field) =>
        Assert.Equal(field, Assert.Single(Read(text).Problems).Field);

    [Fact]
    public void File_WithoutAWay_SaysWhatThereIs()
    {
        var reading = Read(Head + "<wpt lat=\"1\" lon=\"2\"/><wpt lat=\"1\" lon=\"2\"/></gpx>");

        Assert.Contains(
            "2 single places",
            Assert.Single(reading.Problems).Message,
            StringComparison.Ordinal
        );
    }

    /// <summary>A document type can make a small file endless, or fetch others: it is refused.</summary>
    [Fact]
    public void DocumentType_IsRefused()
    {
        var reading = Read(
            "<?xml version=\"1.0\"?><!DOCTYPE gpx [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;\">]>"
                + "<gpx>&b;</gpx>"
        );

        Assert.Null(reading.Track);
        Assert.True(Assert.Single(reading.Problems).IsError);
    }

    [Fact]
    public void Encodings_OfXml_AreRead()
    {
        var text = (
            Head + "<metadata><name>Über</name></metadata>" + Segment("47.1", "47.2") + "</gpx>"
        ).Replace("UTF-8", "utf-16", StringComparison.Ordinal);
        using var stream = new MemoryStream([
            .. Encoding.Unicode.GetPreamble(),
            .. Encoding.Unicode.GetBytes(text),
        ]);

        Assert.Equal("Über", GpxReader.Read(stream, "x.gpx", null, Token).Track!.Name);
    }

    [Fact]
    public void Elevation_MadeOfMuchText_IsRefusedAndNotKept()
    {
        var reading = Read(
            Head
                + "<trk><trkseg><trkpt lat=\"47\" lon=\"8\"><ele>"
                + new string('1', 1_000_000)
                + "</ele></trkpt></trkseg></trk></gpx>"
        );

        Assert.Null(reading.Track);
        Assert.True(reading.Problems[0].Message.Length < 300);
    }

    [Fact]
    public void Reading_TellsHowFarItIs_AndEndsWhenAsked()
    {
        using var stream = Many(60_000);
        using var cancel = new CancellationTokenSource();
        var told = new List<int>();
        Assert.Throws<OperationCanceledException>(() =>
        {
            foreach (var points in GpxReader.Steps(stream, "x.gpx", _ => { }, cancel.Token))
            {
                told.Add(points);
                if (told.Count == 3)
                {
                    cancel.Cancel();
                }
            }
        });
        Assert.Equal(told.Order(), told);
        Assert.Equal(3, told.Count);
    }

    [Fact]
    public void Track_OfAHundredThousandPoints_IsRead()
    {
        using var stream = Many(100_000);
        var reading = GpxReader.Read(stream, "x.gpx", null, Token);

        Assert.Equal(100_000, reading.Track!.Count);
        Assert.Empty(reading.Problems);
        Assert.Equal(400 + (99_999 % 50), reading.Track.ElevationsM[^1]);
    }

    [Fact]
    public void Points_BeyondWhatCanBeRidden_AreRefused()
    {
        using var stream = Many(50);
        using var walk = new GpxWalk(stream, "x.gpx", 20);
        while (walk.Advance(1000)) { }

        var problem = Assert.Single(walk.Made().Problems);
        Assert.Contains("More than 20", problem.Message, StringComparison.Ordinal);
    }

    /// <summary>Whatever is done to a file, reading ends with a track or with a sentence, and never with a fault.</summary>
    [Fact]
    public void File_DamagedAnywhere_IsReadOrRefused()
    {
        var whole = Encoding.UTF8.GetBytes(
            Head + "<metadata><name>Å</name></metadata>" + Segment("47.1", "47.2") + "</gpx>"
        );
        Gen.Select(Gen.Int[0, whole.Length - 1], Gen.Byte, Gen.Int[0, 3])
            .Sample(
                (at, with, how) =>
                {
                    byte[] damaged = how switch
                    {
                        0 => [.. whole[..at]],
                        1 => [.. whole[..at], with, .. whole[at..]],
                        2 => [.. whole[..at], .. whole[(at + 1)..]],
                        _ => [.. whole[..at], with, .. whole[(at + 1)..]],
                    };
                    using var stream = new MemoryStream(damaged);
                    var reading = GpxReader.Read(stream, "x.gpx", null, CancellationToken.None);
                    Assert.Equal(
                        reading.Track is null,
                        reading.Problems.Any(problem => problem.IsError)
                    );
                    Assert.All(
                        reading.Problems,
                        problem =>
                        {
                            Assert.True(problem.Line >= 1 && problem.Column >= 1);
                            Assert.NotEqual("", problem.Message);
                        }
                    );
                },
                iter: 2000
            );
    }

    private static string Segment(params string[] latitudes) =>
        "<trk><trkseg>"
        + string.Concat(
            latitudes.Select(lat => $"<trkpt lat=\"{lat}\" lon=\"8.5\"><ele>400</ele></trkpt>")
        )
        + "</trkseg></trk>";

    private static MemoryStream Many(int count)
    {
        var text = new StringBuilder(Head).Append("<trk><trkseg>");
        for (var i = 0; i < count; i++)
        {
            text.Append(
                CultureInfo.InvariantCulture,
                $"<trkpt lat=\"{47 + (i * 1e-5):0.00000}\" lon=\"8.5\"><ele>{400 + (i % 50)}</ele></trkpt>\n"
            );
        }
        return new(Encoding.UTF8.GetBytes(text.Append("</trkseg></trk></gpx>").ToString()));
    }

    private static TrackReading Read(string text)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(text));
        return GpxReader.Read(stream, "x.gpx", null, Token);
    }
}
