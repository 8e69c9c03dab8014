using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>A recorded or planned way as places on the globe (WGS84). Immutable.</summary>
public sealed record Track
{
    /// <summary>Most points of a track: a day of one-second points is 86 400.</summary>
    public const int MostPoints = 2_000_000;

    /// <summary>A track.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="latitudesDeg">Latitudes (degrees, −90 to 90).</param>
    /// <param name="longitudesDeg">Longitudes (degrees, −180 to 180), as many.</param>
    /// <param name="elevationsM">Elevations (m), as many; NaN where there is none.</param>
    /// <param name="stretchStarts">Index of the first point of each stretch, ascending from 0; between two of them nothing was recorded.</param>
    /// <exception cref="ImpossibleInputException">A number is out of range, or the lists do not go together.</exception>
    public Track(
        string name,
        ImmutableArray<double> latitudesDeg,
        ImmutableArray<double> longitudesDeg,
        ImmutableArray<double> elevationsM,
        ImmutableArray<int> stretchStarts
    )
    {
        ArgumentNullException.ThrowIfNull(name);
        if (latitudesDeg.Length < 2)
        {
            throw new ImpossibleInputException(
                "track",
                Texts.Get("track.points", latitudesDeg.Length)
            );
        }
        if (latitudesDeg.Length > MostPoints)
        {
            throw new ImpossibleInputException(
                "track",
                Texts.Get("track.tooMany", latitudesDeg.Length, MostPoints)
            );
        }
        if (
            longitudesDeg.Length != latitudesDeg.Length
            || elevationsM.Length != latitudesDeg.Length
            || stretchStarts.IsEmpty
            || stretchStarts[0] != 0
            || stretchStarts[^1] >= latitudesDeg.Length
        )
        {
            throw new ImpossibleInputException("track", Texts.Get("track.lists"));
        }
        for (var i = 1; i < stretchStarts.Length; i++)
        {
            if (stretchStarts[i] <= stretchStarts[i - 1])
            {
                throw new ImpossibleInputException("track", Texts.Get("track.lists"));
            }
        }
        for (var i = 0; i < latitudesDeg.Length; i++)
        {
            if (
                !(Math.Abs(latitudesDeg[i]) <= 90)
                || !(Math.Abs(longitudesDeg[i]) <= 180)
                || double.IsInfinity(elevationsM[i])
            )
            {
                throw new ImpossibleInputException(
                    "track",
                    Texts.Get("track.place", i + 1, latitudesDeg[i], longitudesDeg[i])
                );
            }
        }
        Name = name;
        LatitudesDeg = latitudesDeg;
        LongitudesDeg = longitudesDeg;
        ElevationsM = elevationsM;
        StretchStarts = stretchStarts;
    }

    /// <summary>What it is called.</summary>
    public string Name { get; }

    /// <summary>Latitudes (degrees).</summary>
    public ImmutableArray<double> LatitudesDeg { get; }

    /// <summary>Longitudes (degrees).</summary>
    public ImmutableArray<double> LongitudesDeg { get; }

    /// <summary>Elevations (m); NaN where there is none.</summary>
    public ImmutableArray<double> ElevationsM { get; }

    /// <summary>Index of the first point of each stretch.</summary>
    public ImmutableArray<int> StretchStarts { get; }

    /// <summary>How many points it has.</summary>
    public int Count => LatitudesDeg.Length;

    /// <summary>Length over all points of all stretches on the ellipsoid (m), elevation left out; nothing is left out or smoothed.</summary>
    public double LengthM
    {
        get
        {
            var length = 0.0;
            for (var stretch = 0; stretch < StretchStarts.Length; stretch++)
            {
                var end = stretch + 1 < StretchStarts.Length ? StretchStarts[stretch + 1] : Count;
                for (var i = StretchStarts[stretch] + 1; i < end; i++)
                {
                    length += Geodesic.DistanceM(
                        LatitudesDeg[i - 1],
                        LongitudesDeg[i - 1],
                        LatitudesDeg[i],
                        LongitudesDeg[i]
                    );
                }
            }
            return length;
        }
    }
}
