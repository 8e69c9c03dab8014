namespace Cogwright.Drivetrain;

/// <summary>
/// Finds the body angle that comes out when a derailleur on the axle is pulled rearward, with the chain on the set-up cog,
/// until its cage stands at the part's mark. Allocates nothing.
/// </summary>
/// <remarks>
/// With the cage held at its mark the whole derailleur is one rigid body that turns about the axle, so the path in the
/// set-up gear is a function N(β) of the body angle alone and the outcome is the root of N(β) = pitches: the same β as
/// the root of the closure's cage angle, without solving the closure at every step. The body comes from the front, so the
/// first root from the foremost body angle counts, and the closure must agree that the cage stands there.
/// </remarks>
public static class CoaxialSetUp
{
    /// <summary>
    /// How far a body is taken to turn either way of the spec's body angle when the part does not say (rad): 45 degrees;
    /// further round, a derailleur stands under the chainstay or behind the wheel.
    /// </summary>
    public const double UsualRangeRad = Math.PI / 4;

    /// <summary>Steps of the search (rad); within one, the path of a rigid derailleur is as good as straight.</summary>
    private const double StepRad = 0.5 * Math.PI / 180;

    /// <summary>The body angle is found within this (rad).</summary>
    private const double WithinRad = 1e-13;

    /// <summary>The closure's cage angle must be the mark's within this (rad): far above rounding, far below a degree.</summary>
    private const double SameCageRad = 1e-6;

    /// <summary>What comes out of the set-up with a chain; null when the derailleur is not on the axle.</summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="pitches">Length of the chain (pitches).</param>
    public static BodySetUp? Of(DrivetrainSpec spec, int pitches)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return spec.RearDerailleur is { Coaxial: { } mount } derailleur
            ? Find(spec, derailleur, mount, pitches)
            : null;
    }

    /// <summary>Where the body stands with a chain (rad): the outcome of the set-up, else what the spec says; 0 without derailleur.</summary>
    internal static double BodyAngleRad(DrivetrainSpec spec, int pitches) =>
        Of(spec, pitches)?.BodyAngleRad ?? spec.RearDerailleur?.BodyAngleRad ?? 0;

    /// <summary>How far the body can be turned.</summary>
    internal static BodyRange RangeOf(RearDerailleur derailleur, CoaxialMount mount) =>
        mount.BodyRange
        ?? new(derailleur.BodyAngleRad - UsualRangeRad, derailleur.BodyAngleRad + UsualRangeRad);

    /// <summary>The even lengths (pitches) with which the body can be set, shortest first, each with its outcome (rad).</summary>
    internal static List<(int Pitches, double BodyAngleRad)> EachLength(DrivetrainSpec spec)
    {
        var set = new List<(int, double)>();
        if (
            spec.RearDerailleur is not { Coaxial: { } mount } derailleur
            || MarkedPath.Of(spec, derailleur, mount) is not { } path
        )
        {
            return set;
        }
        var range = RangeOf(derailleur, mount);
        var steps = Steps(range);
        // The path does not depend on the chain: one scan serves every length.
        var scan = new double[steps + 1];
        var (least, most) = (double.PositiveInfinity, double.NegativeInfinity);
        for (var i = 0; i <= steps; i++)
        {
            scan[i] = path.Pitches(At(range, i, steps));
            if (double.IsFinite(scan[i]))
            {
                least = Math.Min(least, scan[i]);
                most = Math.Max(most, scan[i]);
            }
        }
        if (!(least <= most))
        {
            return set;
        }
        for (
            var pitches = ChainChooser.EvenAtLeast(least);
            pitches <= Math.Min(most, SpecCheck.MostPitches);
            pitches += 2
        )
        {
            if (Find(spec, derailleur, mount, pitches, scan) is { IsSet: true } found)
            {
                set.Add((pitches, found.BodyAngleRad));
            }
        }
        return set;
    }

    /// <param name="spec">The spec.</param>
    /// <param name="derailleur">Its derailleur.</param>
    /// <param name="mount">Its mount.</param>
    /// <param name="pitches">Length of the chain.</param>
    /// <param name="scan">The path at every step of the search (pitches) when it is known already, else nothing.</param>
    private static BodySetUp Find(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        CoaxialMount mount,
        int pitches,
        ReadOnlySpan<double> scan = default
    )
    {
        var gear = mount.SetUpGear(spec);
        var range = RangeOf(derailleur, mount);
        if (MarkedPath.Of(spec, derailleur, mount) is not { } path)
        {
            return new(BodySetUpStatus.NoPose, gear, derailleur.BodyAngleRad, 0);
        }
        var pitch = spec.Chain.PitchMm;
        var steps = Steps(range);
        var previous = (Angle: double.NaN, Error: double.NaN);
        var nearest = (Angle: derailleur.BodyAngleRad, Error: double.NaN);
        for (var i = 0; i <= steps; i++)
        {
            var angle = At(range, i, steps);
            var error = (scan.IsEmpty ? path.Pitches(angle) : scan[i]) - pitches;
            if (double.IsFinite(error))
            {
                if (
                    (error == 0 || (previous.Error < 0 && error > 0))
                    && path.Root(previous.Angle, angle, pitches) is var root
                    && path.IsFirstClosure(root, pitches)
                )
                {
                    return new(BodySetUpStatus.Set, gear, root, 0);
                }
                if (!(Math.Abs(error) >= Math.Abs(nearest.Error)))
                {
                    nearest = (angle, error);
                }
            }
            previous = (angle, error);
        }
        return double.IsNaN(nearest.Error) ? new(BodySetUpStatus.NoPose, gear, nearest.Angle, 0)
            : nearest.Error > 0
                ? new(BodySetUpStatus.ChainTooShort, gear, nearest.Angle, -nearest.Error * pitch)
            : new(BodySetUpStatus.ChainTooLong, gear, nearest.Angle, -nearest.Error * pitch);
    }

    private static int Steps(BodyRange range) =>
        Math.Max(1, (int)Math.Ceiling((range.MostRad - range.LeastRad) / StepRad));

    /// <summary>The body comes from the front: step 0 is the foremost angle.</summary>
    private static double At(BodyRange range, int step, int steps) =>
        step == steps
            ? range.LeastRad
            : range.MostRad - (step * (range.MostRad - range.LeastRad) / steps);

    /// <summary>The path in the set-up gear with the cage at its mark, as a function of the body angle.</summary>
    private readonly struct MarkedPath
    {
        private readonly DrivetrainSpec spec;
        private readonly RearDerailleur derailleur;
        private readonly double markRad;
        private readonly RearPlace place;
        private readonly int ring;
        private readonly int cog;

        private MarkedPath(
            DrivetrainSpec spec,
            RearDerailleur derailleur,
            double markRad,
            int ring,
            int cog
        )
        {
            this.spec = spec;
            this.derailleur = derailleur;
            this.markRad = markRad;
            this.ring = ring;
            this.cog = cog;
            // The body is set where gaps are set; the axle's clamp then keeps its angle through the travel.
            place = RearPlace.At(spec, RearEnd.Of(spec.Frame), spec.Frame.SetUpTravelMm);
        }

        internal static MarkedPath? Of(
            DrivetrainSpec spec,
            RearDerailleur derailleur,
            CoaxialMount mount
        )
        {
            return spec.IndicesOf(mount.SetUpGear(spec)) is var (ring, cog)
                ? new MarkedPath(spec, derailleur, mount.CageAtSetUpRad, ring, cog)
                : null;
        }

        /// <summary>The path (pitches), or NaN where the chain has none.</summary>
        internal double Pitches(double bodyAngleRad) =>
            GearTableSolver.PathAt(
                spec,
                derailleur,
                place,
                ring,
                cog,
                bodyAngleRad,
                CageAngleRad(bodyAngleRad)
            );

        /// <summary>Whether the closure, walked from the front stop, ends with the cage at its mark.</summary>
        internal bool IsFirstClosure(double bodyAngleRad, int pitches)
        {
            var gear = GearTableSolver.SolveGear(spec, place, ring, cog, pitches, bodyAngleRad);
            return Math.Abs(gear.CageAngleRad - CageAngleRad(bodyAngleRad)) < SameCageRad;
        }

        /// <summary>The root between a body angle whose path is below the chain and one where it is not (rad).</summary>
        internal double Root(double below, double above, int pitches)
        {
            if (double.IsNaN(below))
            {
                return above;
            }
            while (Math.Abs(above - below) > WithinRad)
            {
                var middle = 0.5 * (below + above);
                if (middle == below || middle == above)
                {
                    break;
                }
                if (Pitches(middle) < pitches)
                {
                    below = middle;
                }
                else
                {
                    above = middle;
                }
            }
            return 0.5 * (below + above);
        }

        private double CageAngleRad(double bodyAngleRad) =>
            markRad + bodyAngleRad - derailleur.BodyAngleRad + place.Pose.RotationRad;
    }
}
