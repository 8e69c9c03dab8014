namespace Cogwright.Drivetrain;

/// <summary>
/// The chain from cog to ring, over an idler if there is one: the part of the path that the cage does not move.
/// </summary>
/// <param name="CogRunMm">Free length of the run that leaves the cog (mm); NaN when two sprockets overlap.</param>
/// <param name="RingRunMm">Free length of the run from idler to ring (mm), 0 without idler.</param>
/// <param name="CogDirectionRad">Direction in which the chain leaves the cog (rad).</param>
/// <param name="RingDirectionRad">Direction in which it meets the ring (rad).</param>
/// <param name="IdlerWrapRad">Wrap on the idler (rad), 0 without.</param>
/// <param name="IdlerTeethInMesh">Teeth of the idler in mesh, 0 without.</param>
internal readonly record struct UpperRun(
    double CogRunMm,
    double RingRunMm,
    double CogDirectionRad,
    double RingDirectionRad,
    double IdlerWrapRad,
    double IdlerTeethInMesh
)
{
    /// <summary>Whether it can be: no two sprockets overlap and the chain lies on the idler.</summary>
    internal bool IsPossible => CogRunMm > 0 && RingRunMm >= 0 && !HasLeftIdler;

    /// <summary>Whether the chain would run past the idler: arithmetic then shows nearly a full turn on it.</summary>
    internal bool HasLeftIdler => IdlerWrapRad >= CageClosure.MostPulleyWrapRad;

    internal static UpperRun Of(
        Point axle,
        in SprocketSize cog,
        in SprocketSize ring,
        OrientedSprocket? idler,
        double pitchMm
    )
    {
        if (idler is not { } over)
        {
            var (length, direction) = Run(-axle.X, -axle.Y, cog.RadiusMm - ring.RadiusMm);
            return new(length, 0, direction, direction, 0, 0);
        }
        var radius = over.Sense * Sprocket.PitchRadiusMm(over.Teeth, pitchMm);
        var (toIdler, leaves) = Run(
            over.Centre.X - axle.X,
            over.Centre.Y - axle.Y,
            cog.RadiusMm - radius
        );
        var (toRing, meets) = Run(-over.Centre.X, -over.Centre.Y, radius - ring.RadiusMm);
        var wrap = TurnFraction.Wrapped(over.Sense * (leaves - meets));
        return new(toIdler, toRing, leaves, meets, wrap, wrap * over.Teeth / Math.Tau);
    }

    /// <summary>Length and direction of the run over (x, y) between circles whose oriented radii differ by that much.</summary>
    private static (double LengthMm, double DirectionRad) Run(double x, double y, double difference)
    {
        var length = Math.Sqrt((x * x) + (y * y) - (difference * difference));
        return (length, CageClosure.Direction(x, y, difference, length));
    }
}
