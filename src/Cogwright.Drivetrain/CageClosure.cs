namespace Cogwright.Drivetrain;

/// <summary>How the walk of the cage from the front stop rearward ended.</summary>
internal enum ClosureEnd
{
    /// <summary>A cage angle at which the path takes exactly the chain.</summary>
    Taut,

    /// <summary>The foremost possible pose already needs more chain.</summary>
    Short,

    /// <summary>The rear stop came first.</summary>
    Slack,

    /// <summary>The path outgrows the chain across a stretch of impossible poses: taut only against an overlap.</summary>
    Jammed,

    /// <summary>No cage angle between the stops gives a possible path.</summary>
    NoPose,
}

/// <summary>
/// The chain path of one gear as a function of the cage angle θ, and its first closure from the front stop rearward.
/// Scalars only: this is the hot path of the whole product and allocates nothing.
/// </summary>
/// <remarks>
/// <para>
/// Symbols as in docs/theory/closure.md. Runs: 1 cog→ring, over an idler if there is one (fixed), 2 ring→tension, 3 tension→guide (turns with the
/// cage), 4 guide→cog. L(θ) is the path in pitches, n the chain, F = L − n.
/// </para>
/// <para>
/// No closure can be missed. Over a step h rearward, F(θ − h) ≤ F − F'h + ½Mh² where M bounds |F''| over the step
/// (see <see cref="CurvatureBound"/>); the walk goes to the zero of that parabola and no further, so F stays
/// negative until a closure is reached, to which it converges quadratically. Where −F' stays positive over Newton's
/// longer step, because it exceeds Mh, F rises all the way and crosses zero at most once: that step is taken instead,
/// and if it went too far the one crossing lies inside it. Poses that cannot be (overlapping
/// pitch circles, a chain that has left a pulley) are stepped over by their own exact or bounded extent.
/// </para>
/// </remarks>
internal partial struct CageClosure
{
    /// <summary>
    /// The chain counts as taut when the path differs by less than this (pitches; 1e-10 of a pitch is about a
    /// nanometre, a thousand times the rounding of the sum).
    /// </summary>
    internal const double TautWithinPitches = 1e-10;

    /// <summary>
    /// A chain lies on a cage pulley by less than three quarters of a turn: beyond, its two runs would cross within
    /// one pitch radius. What arithmetic shows as more is a chain that has left the pulley on its other side.
    /// </summary>
    internal const double MostPulleyWrapRad = 1.5 * Math.PI;

    /// <summary>Step across the edge of a stretch of impossible poses (rad): far below any angle that matters.</summary>
    private const double EdgeRad = 1e-9;

    /// <summary>Least step (rad): one that arithmetic can see; it matters only at the very edges.</summary>
    private const double LeastStepRad = 1e-12;

    /// <summary>Bound on the walk's steps; the longest walk of the tests' random mechanisms takes 57.</summary>
    private const int MostSteps = 10_000;

    private readonly double pitch;
    private readonly double axleX;
    private readonly double axleY;
    private readonly double pivotX;
    private readonly double pivotY;
    private readonly double guideX;
    private readonly double guideY;
    private readonly double tensionX;
    private readonly double tensionY;
    private readonly double difference2;
    private readonly double difference4;
    private readonly double directionAtCog;
    private readonly double directionAtRing;
    private readonly double direction3AtZero;
    private readonly double fixedRuns;
    private readonly double cogTeeth;
    private readonly double ringTeeth;
    private readonly double tensionTeeth;
    private readonly double guideTeeth;
    private readonly double guideArm;
    private readonly double tensionArm;
    private readonly double bend2;
    private readonly double bend4;
    private readonly double excess2;
    private readonly double excess4;
    private readonly ForbiddenAngles gap2;
    private readonly ForbiddenAngles gap4;

    // State of the last evaluation.
    private double approach2;
    private double length2;
    private double direction2;
    private double approach4;
    private double length4;
    private double direction4;
    private double tensionWrap;
    private double guideWrap;
    private double wrapRate2;
    private double wrapRate4;
    private double slope;

    /// <summary>Sets the gear up; the cage pivot stands where the swing brings it.</summary>
    internal CageClosure(
        double pitchMm,
        Point axle,
        Point cagePivot,
        in SprocketSize cog,
        in SprocketSize ring,
        in SprocketSize tension,
        in SprocketSize guide,
        Point tensionOffset,
        Point guideOffset,
        OrientedSprocket? idler = null
    )
    {
        pitch = pitchMm;
        axleX = axle.X;
        axleY = axle.Y;
        pivotX = cagePivot.X;
        pivotY = cagePivot.Y;
        guideX = guideOffset.X;
        guideY = guideOffset.Y;
        tensionX = tensionOffset.X;
        tensionY = tensionOffset.Y;
        cogTeeth = cog.Teeth;
        ringTeeth = ring.Teeth;
        tensionTeeth = tension.Teeth;
        guideTeeth = guide.Teeth;
        guideArm = guideOffset.Length;
        tensionArm = tensionOffset.Length;
        bend2 = cagePivot.Length * tensionArm;
        bend4 = (cagePivot - axle).Length * guideArm;

        Upper = UpperRun.Of(axle, cog, ring, idler, pitchMm);
        directionAtCog = Upper.CogDirectionRad;
        directionAtRing = Upper.RingDirectionRad;

        var w = guideOffset - tensionOffset;
        var difference3 = tension.RadiusMm + guide.RadiusMm;
        var length3 = Math.Sqrt((w.X * w.X) + (w.Y * w.Y) - (difference3 * difference3));
        direction3AtZero = Direction(w.X, w.Y, difference3, length3);
        fixedRuns = ((Upper.CogRunMm + Upper.RingRunMm + length3) / pitch) + Upper.IdlerTeethInMesh;

        difference2 = ring.RadiusMm - tension.RadiusMm;
        difference4 = -(guide.RadiusMm + cog.RadiusMm);

        gap4 = ForbiddenArc(guideX, guideY, pivotX - axleX, pivotY - axleY, Math.Abs(difference4));
        gap2 = ForbiddenArc(tensionX, tensionY, pivotX, pivotY, Math.Abs(difference2));

        // By how much the pitch circle's arc exceeds the teeth counted along it, per radian of wrap (mm).
        excess2 = Math.Abs(tension.ArcExcessMm(pitch) - ring.ArcExcessMm(pitch));
        excess4 = cog.ArcExcessMm(pitch) + guide.ArcExcessMm(pitch);
    }

    /// <summary>The chain from cog to ring, which the cage does not move.</summary>
    internal UpperRun Upper { get; }

    /// <summary>Free length of the lower run at the last evaluation (mm).</summary>
    internal readonly double LowerRunMm => length2;

    /// <summary>Wrap on the cog at the last evaluation (rad).</summary>
    internal readonly double CogWrapRad => TurnFraction.Wrapped(direction4 - directionAtCog);

    /// <summary>Wrap on the ring at the last evaluation (rad).</summary>
    internal readonly double RingWrapRad => TurnFraction.Wrapped(directionAtRing - direction2);

    /// <summary>Cage angle of the last closure, or where the walk ended (rad).</summary>
    internal double CageAngleRad { get; private set; }

    /// <summary>Path less chain at <see cref="CageAngleRad"/> (pitches).</summary>
    internal double ResidualPitches { get; private set; }

    /// <summary>Foremost possible cage angle (rad); NaN when there is none.</summary>
    internal double ForemostRad { get; private set; }

    /// <summary>Path at the foremost possible angle (pitches); NaN when there is none.</summary>
    internal double NeedsPitches { get; private set; }

    /// <summary>Evaluations of the path since the gear was set up.</summary>
    internal int Evaluations { get; private set; }

    /// <summary>
    /// Path at a cage angle (pitches). The caller makes sure that the pitch circles do not overlap there.
    /// Fills the state that the other members speak of.
    /// </summary>
    internal double PathPitches(double cageAngleRad)
    {
        Evaluations++;
        var (sin, cos) = Math.SinCos(cageAngleRad);
        var tx = (cos * tensionX) - (sin * tensionY);
        var ty = (sin * tensionX) + (cos * tensionY);
        var gx = (cos * guideX) - (sin * guideY);
        var gy = (sin * guideX) + (cos * guideY);

        var x2 = pivotX + tx;
        var y2 = pivotY + ty;
        var square2 = (x2 * x2) + (y2 * y2);
        length2 = Math.Sqrt(Math.Max(0, square2 - (difference2 * difference2)));
        direction2 = Direction(x2, y2, difference2, length2);

        var x4 = axleX - pivotX - gx;
        var y4 = axleY - pivotY - gy;
        var square4 = (x4 * x4) + (y4 * y4);
        length4 = Math.Sqrt(Math.Max(0, square4 - (difference4 * difference4)));
        direction4 = Direction(x4, y4, difference4, length4);

        var direction3 = direction3AtZero + cageAngleRad;
        tensionWrap = TurnFraction.Wrapped(direction2 - direction3);
        guideWrap = TurnFraction.Wrapped(direction4 - direction3);

        // With the pulleys' velocities v = ẑ × offset: dℓ = D·v/ℓ and dψ = (D × v)/D² + c(D·v)/(D²ℓ).
        approach2 = (x2 * -ty) + (y2 * tx);
        approach4 = (x4 * gy) - (y4 * gx);
        var along2 = approach2 / length2;
        var across2 = ((x2 * tx) + (y2 * ty)) / square2;
        var along4 = approach4 / length4;
        var across4 = -((x4 * gx) + (y4 * gy)) / square4;
        var turn2 = across2 + (difference2 * along2 / square2);
        var turn4 = across4 + (difference4 * along4 / square4);
        wrapRate2 = turn2 - 1;
        wrapRate4 = turn4 - 1;
        slope =
            ((along2 + along4) / pitch)
            + (
                (
                    ((tensionTeeth - ringTeeth) * turn2)
                    + ((cogTeeth + guideTeeth) * turn4)
                    - (tensionTeeth + guideTeeth)
                ) / Math.Tau
            );

        var meshed =
            (cogTeeth * CogWrapRad)
            + (ringTeeth * RingWrapRad)
            + (tensionTeeth * tensionWrap)
            + (guideTeeth * guideWrap);
        return fixedRuns + ((length2 + length4) / pitch) + (meshed / Math.Tau);
    }

    /// <summary>dL/dθ at the last evaluation (pitches per rad).</summary>
    internal readonly double SlopePitchesPerRad => slope;

    /// <summary>
    /// Bound on |d²L/dθ²| (pitches/rad²) over every cage angle up to <paramref name="reach"/> (rad) rearward of the
    /// last evaluation; <paramref name="reach"/> must leave both moving runs a free length.
    /// </summary>
    /// <remarks>
    /// For the string of true arcs: |S''| ≤ R + R²/ℓ for each moving run (R the pulley's arm, ℓ the least free
    /// length over the step); the rigid run 3 gives nothing. The difference between arcs and teeth adds
    /// |ψ''| ≤ R/ℓ + R²/ℓ² + R²(1 + |c|/ℓ)/ℓ² times the arc's excess over the teeth. Derivation in
    /// docs/theory/closure.md; a test compares it with finite differences.
    /// </remarks>
    internal readonly double CurvatureBound(double reach) => BoundsWithin(reach, 1).Curvature;

    /// <summary>Walks from the front stop rearward to the first cage angle at which the path takes the chain.</summary>
    internal ClosureEnd Walk(double frontStopRad, double rearStopRad, double chainPitches)
    {
        ForemostRad = double.NaN;
        NeedsPitches = double.NaN;
        var theta = frontStopRad;
        var continuous = false;
        var risesFromLast = false;
        var lastAngle = double.NaN;
        var lastResidual = double.NaN;
        for (var step = 0; step < MostSteps && theta >= rearStopRad; step++)
        {
            var skip = Math.Max(gap2.RearwardTo(theta), gap4.RearwardTo(theta));
            if (skip > 0)
            {
                theta -= skip + EdgeRad;
                continuous = false;
                continue;
            }
            var f = PathPitches(theta) - chainPitches;
            var reach = Reach(theta - rearStopRad, 1);
            var bounds = BoundsWithin(reach, 1);
            if (HasLeftAPulley)
            {
                theta -= Math.Min(reach, StepStillLeft(bounds, 1)) + EdgeRad;
                continuous = false;
                continue;
            }
            if (risesFromLast && f > TautWithinPitches)
            {
                return Inside(theta, lastAngle, f, chainPitches);
            }
            if (double.IsNaN(ForemostRad))
            {
                ForemostRad = theta;
                NeedsPitches = f + chainPitches;
                if (f > TautWithinPitches)
                {
                    return End(ClosureEnd.Short, theta, f);
                }
            }
            else if (!continuous && f > TautWithinPitches)
            {
                return End(ClosureEnd.Jammed, lastAngle, lastResidual);
            }
            if (Math.Abs(f) <= TautWithinPitches)
            {
                return End(ClosureEnd.Taut, theta, f);
            }
            lastResidual = f;
            if (theta <= rearStopRad)
            {
                break;
            }
            continuous = true;
            lastAngle = theta;
            var newton = f / slope;
            risesFromLast =
                newton > LeastStepRad
                && newton < reach
                && newton * bounds.Curvature < -slope
                && StaysOn(bounds, newton);
            if (risesFromLast)
            {
                theta -= newton;
                continue;
            }
            var safe = StepToZero(-f, -slope, bounds.Curvature);
            var taken = Math.Min(safe, reach);
            if (!StaysOn(bounds, taken))
            {
                taken = Math.Min(taken, StepStillOn(bounds));
            }
            // The rear stop itself counts.
            theta = Math.Max(theta - Math.Max(taken, LeastStepRad), rearStopRad);
        }
        if (theta > rearStopRad)
        {
            throw new InvalidOperationException(Texts.Get("closure.steps", MostSteps));
        }
        return End(
            double.IsNaN(ForemostRad) ? ClosureEnd.NoPose : ClosureEnd.Slack,
            rearStopRad,
            lastResidual
        );
    }

    /// <summary>The one closure between two angles over which the path rises rearward: Newton's method, kept inside.</summary>
    private ClosureEnd Inside(double rear, double front, double residual, double chainPitches)
    {
        var theta = rear;
        for (var step = 0; step < MostSteps; step++)
        {
            var next = theta - (residual / slope);
            theta = next > rear && next < front ? next : 0.5 * (rear + front);
            residual = PathPitches(theta) - chainPitches;
            if (Math.Abs(residual) <= TautWithinPitches)
            {
                return End(ClosureEnd.Taut, theta, residual);
            }
            (rear, front) = residual > 0 ? (theta, front) : (rear, theta);
        }
        throw new InvalidOperationException(Texts.Get("closure.steps", MostSteps));
    }

    /// <summary>
    /// Path at the rear stop (pitches), or at the rearmost possible pose in front of it; NaN when there is none.
    /// Leaves the state of that evaluation.
    /// </summary>
    internal double TakesPitches(double frontStopRad, double rearStopRad)
    {
        var theta = rearStopRad;
        for (var step = 0; step < MostSteps && theta <= frontStopRad; step++)
        {
            var skip = Math.Max(gap2.ForwardTo(theta), gap4.ForwardTo(theta));
            if (skip > 0)
            {
                theta += skip + EdgeRad;
                continue;
            }
            var path = PathPitches(theta);
            if (!HasLeftAPulley)
            {
                return path;
            }
            var reach = Reach(frontStopRad - theta, -1);
            theta += Math.Min(reach, StepStillLeft(BoundsWithin(reach, -1), -1)) + EdgeRad;
        }
        return double.NaN;
    }

    /// <summary>
    /// Moment of a unit tension about the cage pivot (mm), positive when the chain pulls the cage forward: for each
    /// pulley the force is the difference of the directions of its two runs.
    /// </summary>
    internal readonly double TensionLeverMm(double cageAngleRad)
    {
        var t = new Point(tensionX, tensionY).Turned(cageAngleRad);
        var g = new Point(guideX, guideY).Turned(cageAngleRad);
        var (sin2, cos2) = Math.SinCos(direction2);
        var (sin3, cos3) = Math.SinCos(direction3AtZero + cageAngleRad);
        var (sin4, cos4) = Math.SinCos(direction4);
        // The chain pulls a pulley backward along the run that arrives and forward along the run that leaves.
        var onTension = (t.X * (sin3 - sin2)) - (t.Y * (cos3 - cos2));
        var onGuide = (g.X * (sin4 - sin3)) - (g.Y * (cos4 - cos3));
        return onTension + onGuide;
    }

    private ClosureEnd End(ClosureEnd end, double angle, double residual)
    {
        CageAngleRad = angle;
        ResidualPitches = residual;
        return end;
    }

    /// <summary>How far the cage may turn rearward (+1) or forward (−1) (rad): half as far as either moving run could lose its free length.</summary>
    private readonly double Reach(double remaining, int sense)
    {
        var room2 = 0.5 * StepToZero(length2 * length2, 2 * sense * approach2, 2 * bend2);
        var room4 = 0.5 * StepToZero(length4 * length4, 2 * sense * approach4, 2 * bend4);
        return Math.Max(Math.Min(remaining, Math.Min(room2, room4)), LeastStepRad);
    }

    /// <summary>
    /// Bounds over every cage angle up to <paramref name="reach"/> (rad) rearward (sense +1) or forward (−1) of the
    /// last evaluation.
    /// </summary>
    private readonly StepBounds BoundsWithin(double reach, int sense)
    {
        var least2 = LeastLength(length2, sense * approach2, bend2, reach);
        var least4 = LeastLength(length4, sense * approach4, bend4, reach);
        var swing2 = tensionArm / least2;
        var swing4 = guideArm / least4;
        var string2 = tensionArm * (1 + swing2);
        var string4 = guideArm * (1 + swing4);
        var turn2 = swing2 + (swing2 * swing2 * (2 + (Math.Abs(difference2) / least2)));
        var turn4 = swing4 + (swing4 * swing4 * (2 + (Math.Abs(difference4) / least4)));
        return new(
            turn2,
            turn4,
            (string2 + string4 + (excess2 * turn2) + (excess4 * turn4)) / pitch
        );
    }

    private readonly bool HasLeftAPulley =>
        tensionWrap >= MostPulleyWrapRad || guideWrap >= MostPulleyWrapRad;

    /// <summary>
    /// Whether both wraps surely keep their range over a step rearward (rad): the same parabolas as in
    /// <see cref="StepStillOn"/>, looked at without a root, which nearly every step of a common gear passes.
    /// </summary>
    private readonly bool StaysOn(in StepBounds bounds, double step) =>
        StaysWithin(tensionWrap, step * wrapRate2, 0.5 * step * step * bounds.Turn2)
        && StaysWithin(guideWrap, step * wrapRate4, 0.5 * step * step * bounds.Turn4);

    private static bool StaysWithin(double wrap, double falls, double bends) =>
        wrap - falls - bends > 0 && MostPulleyWrapRad - wrap + falls - bends > 0;

    /// <summary>How far rearward (rad) neither wrap can come to 0 or leave its range.</summary>
    private readonly double StepStillOn(in StepBounds bounds) =>
        Math.Min(
            StepWithin(tensionWrap, 0, MostPulleyWrapRad, wrapRate2, bounds.Turn2),
            StepWithin(guideWrap, 0, MostPulleyWrapRad, wrapRate4, bounds.Turn4)
        );

    /// <summary>How far rearward (sense +1) or forward (−1) the chain surely stays off the pulley it has left (rad).</summary>
    private readonly double StepStillLeft(in StepBounds bounds, int sense)
    {
        var step = 0.0;
        if (tensionWrap >= MostPulleyWrapRad)
        {
            step = StepWithin(
                tensionWrap,
                MostPulleyWrapRad,
                Math.Tau,
                sense * wrapRate2,
                bounds.Turn2
            );
        }
        if (guideWrap >= MostPulleyWrapRad)
        {
            // While either is off, the pose cannot be: the longer of the two steps is safe.
            step = Math.Max(
                step,
                StepWithin(guideWrap, MostPulleyWrapRad, Math.Tau, sense * wrapRate4, bounds.Turn4)
            );
        }
        return step;
    }

    private static double StepWithin(
        double value,
        double least,
        double most,
        double falling,
        double curvature
    ) =>
        Math.Min(
            StepToZero(value - least, falling, curvature),
            StepToZero(most - value, -falling, curvature)
        );

    /// <summary>
    /// Zero of room − closing·h − ½·curvature·h²: how far one may go before a positive room that closes at that
    /// rate, and whose second derivative is bounded, can have gone.
    /// </summary>
    private static double StepToZero(double room, double closing, double curvature)
    {
        if (closing <= 0 && curvature <= 0)
        {
            return double.PositiveInfinity;
        }
        var root = Math.Sqrt((closing * closing) + (2 * curvature * Math.Max(0, room)));
        // Two forms of one zero: neither subtracts numbers of the same size.
        return closing > 0 ? 2 * room / (closing + root) : (root - closing) / curvature;
    }

    /// <summary>
    /// Least free length over a step: ℓ² closes at 2D·D' now, and |(ℓ²)''| never exceeds twice the distance of the
    /// pivot from the fixed centre times the arm. Where the parabola rises first, it is least at one of its ends.
    /// </summary>
    private static double LeastLength(double length, double approach, double bend, double step)
    {
        var square = length * length;
        var atEnd = square - (((2 * approach) + (bend * step)) * step);
        return Math.Sqrt(Math.Max(1e-12, Math.Min(square, atEnd)));
    }

    /// <summary>Direction ψ = angle of D less asin(c/|D|), as one arctangent of the turned vector.</summary>
    internal static double Direction(double x, double y, double difference, double length) =>
        Math.Atan2((y * length) - (x * difference), (x * length) + (y * difference));

    /// <summary>
    /// The arc of cage angles at which a pulley's centre comes nearer to a sprocket's than their pitch circles
    /// allow: |from + R(θ)·offset| ≤ least, which is exact because the distance is a sinusoid of θ.
    /// </summary>
    private static ForbiddenAngles ForbiddenArc(
        double offsetX,
        double offsetY,
        double fromX,
        double fromY,
        double least
    )
    {
        var arm = Math.Sqrt((offsetX * offsetX) + (offsetY * offsetY));
        var from = Math.Sqrt((fromX * fromX) + (fromY * fromY));
        // |from|² + arm² + 2·|from|·arm·cos(θ − θ₀) ≤ least², with θ₀ the angle that points both the same way.
        var product = 2 * from * arm;
        var bound = (least * least) - (from * from) - (arm * arm);
        if (bound < -product || (product <= 0 && bound < 0))
        {
            return ForbiddenAngles.None;
        }
        if (bound >= product)
        {
            return ForbiddenAngles.All;
        }
        var opposite = Math.Atan2(fromY, fromX) - Math.Atan2(offsetY, offsetX) + Math.PI;
        return new(opposite, Math.Acos(-bound / product));
    }

    /// <summary>Bounds on |ψ''| of runs 2 and 4 (1/rad) and on |L''| (pitches/rad²).</summary>
    private readonly record struct StepBounds(double Turn2, double Turn4, double Curvature);

    /// <summary>Angles within <paramref name="HalfRad"/> of <paramref name="MiddleRad"/>, modulo a turn.</summary>
    private readonly record struct ForbiddenAngles(double MiddleRad, double HalfRad)
    {
        internal static ForbiddenAngles None => new(0, -1);

        internal static ForbiddenAngles All => new(0, 4 * Math.PI);

        /// <summary>How far rearward (rad) the arc reaches from an angle inside it, 0 outside.</summary>
        internal double RearwardTo(double angle) =>
            Inside(angle, out var from) ? from + HalfRad : 0;

        /// <summary>How far forward (rad) the arc reaches from an angle inside it, 0 outside.</summary>
        internal double ForwardTo(double angle) => Inside(angle, out var from) ? HalfRad - from : 0;

        private bool Inside(double angle, out double fromMiddle)
        {
            fromMiddle = 0;
            if (HalfRad < 0)
            {
                return false;
            }
            var off = angle - MiddleRad;
            fromMiddle = off - (Math.Tau * Math.Floor((off / Math.Tau) + 0.5));
            return Math.Abs(fromMiddle) <= HalfRad;
        }
    }
}

/// <summary>Teeth and pitch radius of a sprocket under a given chain.</summary>
internal readonly record struct SprocketSize(int Teeth, double RadiusMm)
{
    internal static SprocketSize Of(int teeth, double pitchMm) =>
        new(teeth, Sprocket.PitchRadiusMm(teeth, pitchMm));

    /// <summary>Pitch radius less the length of chain that lies on one radian of it (mm): never negative.</summary>
    internal double ArcExcessMm(double pitchMm) => RadiusMm - (Teeth * pitchMm / Math.Tau);
}
