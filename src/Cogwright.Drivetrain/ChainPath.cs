using System.Collections.Immutable;

namespace Cogwright.Drivetrain;

/// <summary>A sprocket with the sense in which the chain turns it.</summary>
/// <param name="Centre">Its centre (mm, side view).</param>
/// <param name="Teeth">Number of teeth.</param>
/// <param name="Sense">+1 clockwise, −1 anticlockwise, seen from the drive side.</param>
public readonly record struct OrientedSprocket(Point Centre, int Teeth, int Sense);

/// <summary>A free run of chain between two sprockets.</summary>
/// <param name="From">Index of the sprocket it leaves.</param>
/// <param name="To">Index of the sprocket it meets.</param>
/// <param name="Start">Where it leaves the first pitch circle (mm).</param>
/// <param name="End">Where it meets the second pitch circle (mm).</param>
/// <param name="LengthMm">Its free length ℓ (mm).</param>
/// <param name="DirectionRad">Its direction ψ in the sense of motion (rad, anticlockwise from +x).</param>
public readonly record struct ChainRun(
    int From,
    int To,
    Point Start,
    Point End,
    double LengthMm,
    double DirectionRad
);

/// <summary>The part of a sprocket on which chain lies.</summary>
/// <param name="Sprocket">Index of the sprocket.</param>
/// <param name="StartRad">Angle at the sprocket's centre where the chain arrives (rad, anticlockwise from +x).</param>
/// <param name="AngleRad">Wrap: how far the chain lies on it (rad, never negative), in the sense of the sprocket.</param>
/// <param name="Teeth">Teeth in mesh: wrap · z / 2π.</param>
public readonly record struct ChainWrap(
    int Sprocket,
    double StartRad,
    double AngleRad,
    double Teeth
);

/// <summary>
/// The closed path of a chain round any number of oriented sprockets, in the order in which the chain meets them.
/// </summary>
/// <remarks>
/// The length is counted in teeth on the sprockets, not in arc: a chain lies on a sprocket as a polygon.
/// Immutable.
/// </remarks>
public sealed record ChainPath
{
    private ChainPath() { }

    /// <summary>Whether such a path exists.</summary>
    public bool IsPossible { get; private init; }

    /// <summary>When impossible: indices of the two neighbours that overlap, else (−1, −1).</summary>
    public (int First, int Second) Overlapping { get; private init; } = (-1, -1);

    /// <summary>By how much they overlap (mm), 0 when the path exists.</summary>
    public double OverlapMm { get; private init; }

    /// <summary>Length of the path (pitches), 0 when impossible.</summary>
    public double Pitches { get; private init; }

    /// <summary>The free runs; the run with index i leaves sprocket i.</summary>
    public ImmutableArray<ChainRun> Runs { get; private init; } = [];

    /// <summary>The wraps, one per sprocket.</summary>
    public ImmutableArray<ChainWrap> Wraps { get; private init; } = [];

    /// <summary>The path round these sprockets.</summary>
    /// <param name="sprockets">At least two, in the order of the moving chain.</param>
    /// <param name="pitchMm">Pitch of the chain (mm); a worn chain rides on larger pitch circles.</param>
    /// <exception cref="ArgumentException">Fewer than two sprockets, or a sense that is neither +1 nor −1.</exception>
    public static ChainPath Round(
        ReadOnlySpan<OrientedSprocket> sprockets,
        double pitchMm = Sprocket.PitchMm
    )
    {
        if (sprockets.Length < 2)
        {
            throw new ArgumentException(Texts.Get("path.twoSprockets"), nameof(sprockets));
        }
        var count = sprockets.Length;
        var runs = ImmutableArray.CreateBuilder<ChainRun>(count);
        var pitches = 0.0;
        for (var i = 0; i < count; i++)
        {
            var j = (i + 1) % count;
            var from = sprockets[i];
            var to = sprockets[j];
            if (from.Sense is not (1 or -1))
            {
                throw new ArgumentException(Texts.Get("path.sense", from.Sense), nameof(sprockets));
            }
            var fromRadius = Sprocket.PitchRadiusMm(from.Teeth, pitchMm);
            var toRadius = Sprocket.PitchRadiusMm(to.Teeth, pitchMm);
            var between = to.Centre - from.Centre;
            var distance = between.Length;
            var difference = (from.Sense * fromRadius) - (to.Sense * toRadius);
            if (!(Math.Abs(difference) < distance))
            {
                return new() { Overlapping = (i, j), OverlapMm = Math.Abs(difference) - distance };
            }
            var length = Math.Sqrt((distance * distance) - (difference * difference));
            var direction = Math.Atan2(between.Y, between.X) - Math.Asin(difference / distance);
            // Clockwise, the sprocket lies to the right of the moving chain: its contact is to the left of the centre.
            var (sin, cos) = Math.SinCos(direction);
            var left = new Point(-sin, cos);
            runs.Add(
                new(
                    i,
                    j,
                    new(
                        from.Centre.X + (from.Sense * fromRadius * left.X),
                        from.Centre.Y + (from.Sense * fromRadius * left.Y)
                    ),
                    new(
                        to.Centre.X + (to.Sense * toRadius * left.X),
                        to.Centre.Y + (to.Sense * toRadius * left.Y)
                    ),
                    length,
                    direction
                )
            );
            pitches += length / pitchMm;
        }
        var wraps = ImmutableArray.CreateBuilder<ChainWrap>(count);
        for (var j = 0; j < count; j++)
        {
            var arriving = runs[(j + count - 1) % count];
            var sense = sprockets[j].Sense;
            var wrap = TurnFraction.Wrapped(sense * (arriving.DirectionRad - runs[j].DirectionRad));
            var teeth = wrap * sprockets[j].Teeth / Math.Tau;
            wraps.Add(new(j, arriving.DirectionRad + (sense * Math.PI / 2), wrap, teeth));
            pitches += teeth;
        }
        return new()
        {
            IsPossible = true,
            Pitches = pitches,
            Runs = runs.MoveToImmutable(),
            Wraps = wraps.MoveToImmutable(),
        };
    }
}
