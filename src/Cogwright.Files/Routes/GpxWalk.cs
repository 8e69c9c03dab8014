using System.Collections.Immutable;
using System.Globalization;
using System.Xml;
using Cogwright.Files.Documents;
using Cogwright.Gearing;

namespace Cogwright.Files;

/// <summary>One walk through a GPX file, node by node.</summary>
internal sealed class GpxWalk : IDisposable
{
    private const string Namespace11 = "http://www.topografix.com/GPX/1/1";
    private const string Namespace10 = "http://www.topografix.com/GPX/1/0";

    // Longer text is no number.
    private const int LongestNumber = 40;
    private const int LongestName = 120;

    private readonly XmlReader reader;
    private readonly IXmlLineInfo lines;
    private readonly ProblemList problems;
    private readonly string fileName;
    private readonly int mostPoints;
    private readonly char[] text = new char[LongestName + 1];
    private readonly PointList track = new();
    private readonly PointList route = new();

    private string space = "";
    private PointList? taking;
    private string? name;
    private string? element;
    private int length;
    private int waypoints;
    private int? passing;
    private bool isWaypoint;
    private bool rootSeen;
    private bool stopped;

    internal GpxWalk(Stream stream, string fileName, int mostPoints)
    {
        this.fileName = fileName;
        this.mostPoints = mostPoints;
        problems = new(fileName);
        reader = XmlReader.Create(
            stream,
            new()
            {
                DtdProcessing = DtdProcessing.Prohibit,
                XmlResolver = null,
                IgnoreComments = true,
                IgnoreProcessingInstructions = true,
                IgnoreWhitespace = true,
                MaxCharactersInDocument = GpxReader.MostCharacters,
                CloseInput = false,
            }
        );
        lines = (IXmlLineInfo)reader;
    }

    /// <summary>Points read so far.</summary>
    internal int Points => track.Count + route.Count;

    /// <summary>Reads so many nodes on; false when the file is over or cannot be read on.</summary>
    internal bool Advance(int nodes)
    {
        try
        {
            for (var i = 0; i < nodes; i++)
            {
                if (stopped || problems.Errors >= ProblemList.Most || !reader.Read())
                {
                    return false;
                }
                Take();
            }
            return true;
        }
        catch (XmlException e)
        {
            problems.Error(
                new(Math.Max(1, e.LineNumber), Math.Max(1, e.LinePosition)),
                "",
                Texts.Get(rootSeen ? "gpx.broken" : "gpx.notXml", Points)
            );
            stopped = true;
            return false;
        }
    }

    /// <summary>What was read.</summary>
    internal TrackReading Made()
    {
        if (!problems.AnyError)
        {
            if (track.Count > 0 && route.Count > 0)
            {
                problems.Remark(
                    Place.Start,
                    "",
                    Texts.Get("gpx.routesLeft", track.Count, route.Count)
                );
            }
            var taken = track.Count > 0 ? track : route;
            if (taken.Count >= 2)
            {
                return new(taken.Made(name ?? fileName), problems.Sorted());
            }
            problems.Error(Place.Start, "", Texts.Get("gpx.noWay", taken.Count, waypoints));
        }
        return new(null, problems.Sorted());
    }

    public void Dispose() => reader.Dispose();

    private void Take()
    {
        if (passing is { } depth)
        {
            if (reader.NodeType == XmlNodeType.EndElement && reader.Depth == depth)
            {
                passing = null;
            }
            return;
        }
        switch (reader.NodeType)
        {
            case XmlNodeType.Element when !rootSeen:
                Root();
                break;
            case XmlNodeType.Element:
                Begin();
                break;
            case XmlNodeType.Text
            or XmlNodeType.CDATA
            or XmlNodeType.SignificantWhitespace when element is not null:
                Collect();
                break;
            case XmlNodeType.EndElement when element is not null && reader.LocalName == element:
                Ended();
                break;
            default:
                break;
        }
    }

    private Place Here() => new(Math.Max(1, lines.LineNumber), Math.Max(1, lines.LinePosition));

    private void Root()
    {
        rootSeen = true;
        space = reader.NamespaceURI;
        if (reader.LocalName != "gpx" || space is not (Namespace11 or Namespace10 or ""))
        {
            problems.Error(
                Here(),
                Quoting.Short(reader.LocalName),
                Texts.Get("gpx.root", Quoting.Short(reader.LocalName))
            );
            stopped = true;
            return;
        }
        if (space != Namespace11 || reader.GetAttribute("version") is not "1.1")
        {
            problems.Remark(Here(), "gpx", Texts.Get("gpx.version"));
        }
    }

    private void Begin()
    {
        if (reader.NamespaceURI != space)
        {
            // What other programs add stands in extensions; elsewhere it has no business.
            return;
        }
        if (reader.Depth == 1)
        {
            isWaypoint = reader.LocalName == "wpt";
        }
        switch (reader.LocalName)
        {
            case "extensions" when !reader.IsEmptyElement:
                // What other programs add may be deep and long: it is walked past, not skipped at one go.
                passing = reader.Depth;
                break;
            case "trkseg":
                track.Begin();
                break;
            case "rte":
                route.Begin();
                break;
            case "trkpt":
                Point(track);
                break;
            case "rtept":
                Point(route);
                break;
            case "wpt":
                waypoints++;
                taking = null;
                break;
            case "ele" when taking is not null && !reader.IsEmptyElement:
            case "name"
                when name is null && reader.Depth == 2 && !isWaypoint && !reader.IsEmptyElement:
                element = reader.LocalName;
                length = 0;
                break;
            default:
                break;
        }
    }

    private void Point(PointList points)
    {
        var place = Here();
        if (points.Count >= mostPoints)
        {
            problems.Error(place, reader.LocalName, Texts.Get("gpx.tooMany", mostPoints));
            stopped = true;
            return;
        }
        var latitude = Degrees("lat", 90, true, place);
        var longitude = Degrees("lon", 180, false, place);
        // With a place that is wrong the file is refused; what follows is read to tell of that too.
        points.Add(latitude ?? 0, longitude ?? 0);
        taking = reader.IsEmptyElement ? null : points;
    }

    private double? Degrees(string attribute, double most, bool inclusive, Place place)
    {
        var point = reader.LocalName;
        if (!reader.MoveToAttribute(attribute))
        {
            problems.Error(place, point, Texts.Get("gpx.noDegrees", attribute));
            return null;
        }
        var typed = reader.Value;
        var at = Here();
        reader.MoveToElement();
        if (
            typed.Length <= LongestNumber
            && double.TryParse(
                typed.AsSpan().Trim(),
                NumberStyles.AllowLeadingSign
                    | NumberStyles.AllowDecimalPoint
                    | NumberStyles.AllowExponent,
                CultureInfo.InvariantCulture,
                out var degrees
            )
            && degrees >= -most
            && (inclusive ? degrees <= most : degrees < most)
        )
        {
            return degrees;
        }
        problems.Error(
            at,
            $"{point}.{attribute}",
            Texts.Get($"gpx.{attribute}", Quoting.Short(typed))
        );
        return null;
    }

    /// <summary>Takes text up to what fits; a text may come in several nodes.</summary>
    private void Collect()
    {
        while (length < text.Length)
        {
            var count = reader.ReadValueChunk(text, length, text.Length - length);
            if (count == 0)
            {
                return;
            }
            length += count;
        }
    }

    private void Ended()
    {
        var typed = text.AsSpan(0, length).Trim();
        if (element == "name")
        {
            // A name is shown as it stands, so that nothing in it may steer a screen.
            name = typed.IsEmpty ? null : Quoting.Short(typed.ToString());
        }
        else if (!typed.IsEmpty)
        {
            if (
                typed.Length <= LongestNumber
                && double.TryParse(
                    typed,
                    NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
                    CultureInfo.InvariantCulture,
                    out var metres
                )
                && double.IsFinite(metres)
            )
            {
                taking?.Lift(metres);
            }
            else
            {
                problems.Error(
                    Here(),
                    "ele",
                    Texts.Get("gpx.ele", Quoting.Short(typed.ToString()))
                );
            }
        }
        element = null;
    }

    /// <summary>Points as they come.</summary>
    private sealed class PointList
    {
        private readonly ImmutableArray<double>.Builder latitudes =
            ImmutableArray.CreateBuilder<double>();
        private readonly ImmutableArray<double>.Builder longitudes =
            ImmutableArray.CreateBuilder<double>();
        private readonly ImmutableArray<double>.Builder elevations =
            ImmutableArray.CreateBuilder<double>();
        private bool begins = true;

        internal int Count => latitudes.Count;

        internal List<int> Stretches { get; } = [];

        internal void Begin() => begins = true;

        internal void Add(double latitude, double longitude)
        {
            if (begins)
            {
                Stretches.Add(Count);
                begins = false;
            }
            latitudes.Add(latitude);
            longitudes.Add(longitude);
            elevations.Add(double.NaN);
        }

        internal void Lift(double metres) => elevations[^1] = metres;

        internal Track Made(string name) =>
            new(
                name,
                latitudes.DrainToImmutable(),
                longitudes.DrainToImmutable(),
                elevations.DrainToImmutable(),
                [.. Stretches]
            );
    }
}
