using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>
/// Makes a road of a track: distances on the ellipsoid, elevation cleaned and smoothed. See docs/theory/gearing.md.
/// </summary>
/// <remarks>
/// The elevation is drawn as straight lines over the distance and averaged, at each place, over a window about it; beyond an end
/// the line is turned about its end point, so that an even slope stays as it is and the ends keep their elevation. The gradient
/// of a piece is the rise of the averaged elevation over its length.
/// </remarks>
public static class TrackRoad
{
    /// <summary>Window over which elevation is smoothed (m) unless told: gradients shorter than that a rider rolls over.</summary>
    public const double UsualWindowM = 100;

    /// <summary>Shortest window (m): a mean over less than that is no mean.</summary>
    public const double LeastWindowM = 1;

    /// <summary>Longest window (m).</summary>
    public const double MostWindowM = 5000;

    // Nearer than that two points are one place (m).
    private const double SamePlaceM = 0.001;

    // A leap from point to point is a gap when it is longer than that (m) and so many times the usual distance.
    private const double LeapM = 500;
    private const double LeapFactor = 50;

    // Beyond these an elevation is a device's way of saying that it has none (m).
    private const double LowestM = -500;
    private const double HighestM = 9000;

    // A single elevation is a spike when it stands that much (m) above or below both neighbours, those differ by less than half, and
    // both flanks are steeper than a road that goes up and at once down again (common practice): a pass between the far points of a
    // planned way is none.
    private const double SpikeM = 20;
    private const double SpikeGradient = 0.3;

    /// <summary>The road along a track.</summary>
    /// <param name="track">The track.</param>
    /// <param name="windowM">Window over which elevation is smoothed (m, 1 to 5000), or 0 to leave it as recorded.</param>
    /// <exception cref="ImpossibleInputException">There is no elevation or no way, it is longer than <see cref="Route.MostLengthM"/>, or the window is out of range.</exception>
    public static Route Of(Track track, double windowM = UsualWindowM)
    {
        ArgumentNullException.ThrowIfNull(track);
        if (windowM != 0)
        {
            Demand.Between(windowM, LeastWindowM, MostWindowM, "window", "track.window");
        }
        var made = new Making(track, windowM);
        return made.Made();
    }

    private sealed class Making(Track track, double windowM)
    {
        private readonly ImmutableArray<double>.Builder lengths =
            ImmutableArray.CreateBuilder<double>(track.Count);
        private readonly ImmutableArray<double>.Builder gradients =
            ImmutableArray.CreateBuilder<double>(track.Count);
        private readonly ImmutableArray<double>.Builder courses =
            ImmutableArray.CreateBuilder<double>(track.Count);
        private readonly ImmutableArray<int>.Builder starts = ImmutableArray.CreateBuilder<int>();
        private readonly int[] counts = new int[Enum.GetValues<RouteNoteKind>().Length];

        // One stretch: distance and elevation of its nodes, and the course from each to the next.
        private readonly List<double> at = [];
        private readonly List<double> elevation = [];
        private readonly List<double> course = [];
        private double ridden;
        private double recordedAscent;
        private double lastKnown = double.NaN;

        internal Route Made()
        {
            FirstKnown();
            var leap = Math.Max(LeapM, LeapFactor * UsualDistanceM());
            for (var stretch = 0; stretch < track.StretchStarts.Length; stretch++)
            {
                var from = track.StretchStarts[stretch];
                var end =
                    stretch + 1 < track.StretchStarts.Length
                        ? track.StretchStarts[stretch + 1]
                        : track.Count;
                if (stretch > 0)
                {
                    counts[(int)RouteNoteKind.Gap]++;
                }
                Begin(from);
                for (var i = from + 1; i < end; i++)
                {
                    var (distance, bearing) = Geodesic.Line(
                        track.LatitudesDeg[i - 1],
                        track.LongitudesDeg[i - 1],
                        track.LatitudesDeg[i],
                        track.LongitudesDeg[i]
                    );
                    if (distance > leap)
                    {
                        counts[(int)RouteNoteKind.Gap]++;
                        End();
                        Begin(i);
                    }
                    else if (distance < SamePlaceM)
                    {
                        counts[(int)RouteNoteKind.PointRepeated]++;
                    }
                    else
                    {
                        Add(i, distance, bearing);
                    }
                }
                End();
            }
            if (lengths.Count == 0)
            {
                throw new ImpossibleInputException("track", Texts.Get("track.nothing"));
            }
            return new()
            {
                Name = track.Name,
                LengthsM = lengths.ToImmutable(),
                Gradients = gradients.ToImmutable(),
                CoursesRad = courses.ToImmutable(),
                StretchStarts = starts.ToImmutable(),
                WindowM = windowM > 0 ? windowM : null,
                RecordedAscentM = recordedAscent,
                Notes =
                [
                    .. Enum.GetValues<RouteNoteKind>()
                        .Where(kind => counts[(int)kind] > 0)
                        .Select(kind => new RouteNote(
                            kind,
                            counts[(int)kind],
                            Texts.Get($"note.{kind}", counts[(int)kind])
                        )),
                ],
            };
        }

        private static bool IsKnown(double elevationM) => elevationM is >= LowestM and <= HighestM;

        private void FirstKnown()
        {
            foreach (var each in track.ElevationsM)
            {
                if (IsKnown(each))
                {
                    lastKnown = each;
                    return;
                }
            }
            throw new ImpossibleInputException("track", Texts.Get("track.noElevation"));
        }

        /// <summary>The median distance from point to point (m), of at most some thousand points.</summary>
        private double UsualDistanceM()
        {
            var every = Math.Max(1, track.Count / 4001);
            var some = new List<double>();
            for (var i = every; i < track.Count; i += every)
            {
                some.Add(
                    Geodesic.DistanceM(
                        track.LatitudesDeg[i - 1],
                        track.LongitudesDeg[i - 1],
                        track.LatitudesDeg[i],
                        track.LongitudesDeg[i]
                    )
                );
            }
            some.Sort();
            return some[some.Count / 2];
        }

        private void Begin(int point)
        {
            at.Clear();
            elevation.Clear();
            course.Clear();
            at.Add(0);
            elevation.Add(track.ElevationsM[point]);
        }

        private void Add(int point, double distance, double bearing)
        {
            // Told before the pieces are made: a few points that leap to and fro would be millions of them.
            ridden += distance;
            if (ridden > Route.MostLengthM)
            {
                throw new ImpossibleInputException(
                    "track",
                    Texts.Get("track.tooLong", Route.MostLengthM / 1000)
                );
            }
            at.Add(at[^1] + distance);
            elevation.Add(track.ElevationsM[point]);
            course.Add(bearing);
        }

        private void End()
        {
            if (at.Count < 2)
            {
                return;
            }
            Fill();
            RemoveSpikes();
            for (var i = 1; i < elevation.Count; i++)
            {
                recordedAscent += Math.Max(0, elevation[i] - elevation[i - 1]);
            }
            starts.Add(lengths.Count);
            Smooth();
        }

        private void Fill()
        {
            var known = -1;
            for (var i = 0; i < elevation.Count; i++)
            {
                if (!IsKnown(elevation[i]))
                {
                    counts[(int)RouteNoteKind.ElevationFilled]++;
                    continue;
                }
                for (var j = known + 1; j < i; j++)
                {
                    elevation[j] =
                        known < 0
                            ? elevation[i]
                            : elevation[known]
                                + (
                                    (elevation[i] - elevation[known])
                                    * (at[j] - at[known])
                                    / (at[i] - at[known])
                                );
                }
                known = i;
            }
            for (var j = known + 1; j < elevation.Count; j++)
            {
                elevation[j] = known < 0 ? lastKnown : elevation[known];
            }
            lastKnown = elevation[^1];
        }

        private void RemoveSpikes()
        {
            for (var i = 1; i + 1 < elevation.Count; i++)
            {
                var before = elevation[i] - elevation[i - 1];
                var after = elevation[i] - elevation[i + 1];
                if (
                    before * after > 0
                    && Math.Min(Math.Abs(before), Math.Abs(after)) > SpikeM
                    && Math.Abs(before - after) < 0.5 * Math.Min(Math.Abs(before), Math.Abs(after))
                    && Math.Abs(before) > SpikeGradient * (at[i] - at[i - 1])
                    && Math.Abs(after) > SpikeGradient * (at[i + 1] - at[i])
                )
                {
                    counts[(int)RouteNoteKind.SpikeRemoved]++;
                    elevation[i] =
                        elevation[i - 1]
                        + (
                            (elevation[i + 1] - elevation[i - 1])
                            * (at[i] - at[i - 1])
                            / (at[i + 1] - at[i - 1])
                        );
                }
            }
        }

        private void Smooth()
        {
            var mean = new WindowMean([.. at], [.. elevation], windowM);
            var last = mean.At(0);
            for (var i = 0; i + 1 < at.Count; i++)
            {
                var span = at[i + 1] - at[i];
                var parts = (int)Math.Ceiling(span / Route.LongestPieceM);
                for (var part = 1; part <= parts; part++)
                {
                    var next = mean.At(part == parts ? at[i + 1] : at[i] + (span * part / parts));
                    var run = span / parts;
                    var gradient = (next - last) / run;
                    last = next;
                    if (Math.Abs(gradient) > RoadPower.SteepestGradient)
                    {
                        counts[(int)RouteNoteKind.GradientLimited]++;
                        gradient = Math.CopySign(RoadPower.SteepestGradient, gradient);
                    }
                    lengths.Add(run * Math.Sqrt(1 + (gradient * gradient)));
                    gradients.Add(gradient);
                    courses.Add(course[i]);
                }
            }
        }
    }
}
