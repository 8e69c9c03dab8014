using Cogwright.Gearing;

namespace Cogwright.Files;

/// <summary>
/// Reads tracks and routes in GPX 1.1 as a stream: the file is never held as a whole. Source of the format: the schema at
/// http://www.topografix.com/GPX/1/1/gpx.xsd.
/// </summary>
/// <remarks>
/// Taken are the points of all tracks in their order, or of all routes when there is no track; each segment is a stretch of its
/// own and is not joined to the next. Files of GPX 1.0, and such without namespace, have the same points and are read with a
/// remark. Times, names of places, and what other programs add are passed over. No document type is read and nothing fetched.
/// </remarks>
public static class GpxReader
{
    /// <summary>Most characters of a file: 2 000 000 points with all that devices add to them.</summary>
    public const long MostCharacters = 1_000_000_000;

    // Nodes between two looks at the cancellation and two reports of progress.
    private const int Breath = 10_000;

    /// <summary>Reads a file.</summary>
    /// <param name="stream">Its content; read to the end and left open.</param>
    /// <param name="fileName">What it is called in the problems.</param>
    /// <param name="progress">Told how many points were read so far; on the calling thread.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static TrackReading Read(
        Stream stream,
        string fileName,
        IProgress<int>? progress = null,
        CancellationToken cancellation = default
    )
    {
        TrackReading? reading = null;
        foreach (var points in Steps(stream, fileName, found => reading = found, cancellation))
        {
            progress?.Report(points);
        }
        return reading!;
    }

    /// <summary>
    /// Reads step by step, for a page with one thread: between two steps it can draw, take input, or leave off. Each step gives
    /// the points so far.
    /// </summary>
    /// <param name="stream">The file's content; read to the end and left open.</param>
    /// <param name="fileName">What it is called in the problems.</param>
    /// <param name="found">Told what was read, after the last step.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static IEnumerable<int> Steps(
        Stream stream,
        string fileName,
        Action<TrackReading> found,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(found);
        return Steps();

        IEnumerable<int> Steps()
        {
            using var walk = new GpxWalk(stream, fileName, Track.MostPoints);
            while (walk.Advance(Breath))
            {
                cancellation.ThrowIfCancellationRequested();
                yield return walk.Points;
            }
            cancellation.ThrowIfCancellationRequested();
            found(walk.Made());
        }
    }
}
