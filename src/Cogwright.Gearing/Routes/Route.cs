using System.Collections.Immutable;

namespace Cogwright.Gearing;

/// <summary>What had to be done to make a road of a track.</summary>
public enum RouteNoteKind
{
    /// <summary>Points without elevation were filled between their neighbours.</summary>
    ElevationFilled,

    /// <summary>Single elevations far off their neighbours were replaced.</summary>
    SpikeRemoved,

    /// <summary>Points on the place of the one before were left out.</summary>
    PointRepeated,

    /// <summary>The recording leaps; what lies between is not ridden.</summary>
    Gap,

    /// <summary>Pieces steeper than can be ridden were flattened.</summary>
    GradientLimited,
}

/// <summary>Something that had to be done to make a road of a track. Immutable.</summary>
/// <param name="Kind">What.</param>
/// <param name="Count">How often.</param>
/// <param name="Message">In a sentence.</param>
public sealed record RouteNote(RouteNoteKind Kind, int Count, string Message);

/// <summary>One piece of a typed profile. Immutable.</summary>
/// <param name="LengthM">Length along the road (m, more than 0).</param>
/// <param name="Gradient">Gradient, rise over run (−0.6 to 0.6).</param>
public readonly record struct ProfilePiece(double LengthM, double Gradient);

/// <summary>A road to ride: short pieces, each with one gradient, in their order. Immutable.</summary>
public sealed record Route
{
    /// <summary>Longest road (m).</summary>
    public const double MostLengthM = 5_000_000;

    /// <summary>Longest piece of a road (m): a speed is worked out for each.</summary>
    public const double LongestPieceM = 50;

    /// <summary>Most pieces of a road.</summary>
    public const int MostPieces = 2_500_000;

    internal Route() { }

    /// <summary>What it is called.</summary>
    public required string Name { get; init; }

    /// <summary>Length of each piece along the road (m).</summary>
    public required ImmutableArray<double> LengthsM { get; init; }

    /// <summary>Gradient of each piece (rise over run).</summary>
    public required ImmutableArray<double> Gradients { get; init; }

    /// <summary>Course of each piece (rad, clockwise from north); empty when the road has none: wind is then from ahead.</summary>
    public ImmutableArray<double> CoursesRad { get; init; } = [];

    /// <summary>Index of the first piece of each stretch; between two stretches nothing is known and nothing ridden.</summary>
    public ImmutableArray<int> StretchStarts { get; init; } = [0];

    /// <summary>What had to be done to make it.</summary>
    public ImmutableArray<RouteNote> Notes { get; init; } = [];

    /// <summary>Length of the window over which elevation was smoothed (m), or null when nothing was.</summary>
    public double? WindowM { get; init; }

    /// <summary>Sum of all rises of the elevations as recorded (m), or null of a typed road. There is no agreed definition of it.</summary>
    public double? RecordedAscentM { get; init; }

    /// <summary>How many pieces it has.</summary>
    public int Count => LengthsM.Length;

    /// <summary>Length along the road (m).</summary>
    public double LengthM => LengthsM.Sum();

    /// <summary>Sum of all rises as ridden (m): of the smoothed elevations.</summary>
    public double AscentM => Rises().Where(rise => rise > 0).Sum();

    /// <summary>Sum of all falls as ridden (m, not negative).</summary>
    public double DescentM => Rises().Where(rise => rise < 0).Sum(rise => -rise);

    /// <summary>A road of one gradient.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="gradient">Gradient, rise over run (−0.6 to 0.6).</param>
    /// <param name="lengthM">Length along the road (m, 1 to 5 000 000).</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    public static Route OfGradient(string name, double gradient, double lengthM) =>
        OfProfile(name, [new(lengthM, gradient)]);

    /// <summary>A road of typed pieces.</summary>
    /// <param name="name">What it is called.</param>
    /// <param name="pieces">Its pieces in their order; 1 to 5 000 000 m together.</param>
    /// <exception cref="ImpossibleInputException">There is none, or a number is out of range; the message counts the piece.</exception>
    public static Route OfProfile(string name, IEnumerable<ProfilePiece> pieces)
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(pieces);
        var lengths = ImmutableArray.CreateBuilder<double>();
        var gradients = ImmutableArray.CreateBuilder<double>();
        var total = 0.0;
        var count = 0;
        foreach (var piece in pieces)
        {
            count++;
            if (!(piece.LengthM > 0 && piece.LengthM <= MostLengthM))
            {
                throw new ImpossibleInputException(
                    "profile",
                    Texts.Get("route.piece", count, piece.LengthM, MostLengthM)
                );
            }
            RoadPower.CheckRoad(piece.Gradient, 0);
            total += piece.LengthM;
            if (total > MostLengthM)
            {
                break;
            }
            var parts = (int)Math.Ceiling(piece.LengthM / LongestPieceM);
            for (var i = 0; i < parts; i++)
            {
                lengths.Add(piece.LengthM / parts);
                gradients.Add(piece.Gradient);
            }
        }
        if (count == 0)
        {
            throw new ImpossibleInputException("profile", Texts.Get("route.none"));
        }
        Demand.Between(total, 1, MostLengthM, "profile", "route.length");
        return new()
        {
            Name = name,
            LengthsM = lengths.ToImmutable(),
            Gradients = gradients.ToImmutable(),
        };
    }

    private IEnumerable<double> Rises()
    {
        for (var i = 0; i < LengthsM.Length; i++)
        {
            yield return Gradients[i] * LengthsM[i] / Math.Sqrt(1 + (Gradients[i] * Gradients[i]));
        }
    }
}
