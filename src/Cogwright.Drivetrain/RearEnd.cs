namespace Cogwright.Drivetrain;

/// <summary>Where the rear axle stands, and how far the member that carries it has turned.</summary>
/// <param name="Axle">The rear axle (mm, from the bottom-bracket axis).</param>
/// <param name="RotationRad">
/// Turn of the member since full extension (rad, anticlockwise seen from the drive side). A swingarm whose pivot lies in
/// front of the axle turns clockwise as the wheel rises: negative.
/// </param>
public readonly record struct AxlePose(Point Axle, double RotationRad)
{
    /// <summary>Distance bottom-bracket axis to rear axle (mm).</summary>
    public double AxleToBracketMm => Axle.Length;

    /// <summary>Where a point of the axle's member stands that is given from the axle, as measured with the member unturned (mm).</summary>
    public Point Carry(Point offsetMm) => Axle + offsetMm.Turned(RotationRad);
}

/// <summary>A rear end ready to be asked for its pose at any travel. Made by <see cref="Of"/>; allocates nothing.</summary>
/// <remarks>
/// Symbols as in docs/theory/rear-ends.md. A linkage is driven by the turn q of its swingarm or lower link; the travel
/// s(q) is the rise of the axle or the shock's stroke, and q is found by Newton's method inside a bracket on which s
/// rises. The frame's suspension must be without <see cref="SpecCheck.Problems"/>.
/// </remarks>
public readonly record struct RearEnd
{
    /// <summary>The turn q is found within this (rad): the axle then lies within a picometre or so.</summary>
    private const double WithinRad = 1e-14;

    private readonly LinkageMotion motion;
    private readonly TabulatedPath? table;
    private readonly double fullTurnRad;

    private RearEnd(in AxlePose extended, double travelMm)
    {
        Extended = extended;
        TravelMm = travelMm;
    }

    private RearEnd(in AxlePose extended, double travelMm, TabulatedPath table)
        : this(extended, travelMm) => this.table = table;

    private RearEnd(
        in AxlePose extended,
        double travelMm,
        in LinkageMotion motion,
        double fullTurnRad
    )
        : this(extended, travelMm)
    {
        this.motion = motion;
        this.fullTurnRad = fullTurnRad;
    }

    /// <summary>The pose with the suspension fully extended; of a rigid frame its only one.</summary>
    public AxlePose Extended { get; }

    /// <summary>Total travel (mm); 0 for a rigid frame.</summary>
    public double TravelMm { get; }

    /// <summary>The rear end of a frame.</summary>
    public static RearEnd Of(Frame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        var extended = new AxlePose(frame.Axle, 0);
        if (frame.Suspension is not { } suspension)
        {
            return new(extended, 0);
        }
        if (suspension.Linkage is TabulatedPath table)
        {
            return new(extended, suspension.TravelMm, table);
        }
        var motion = LinkageMotion.Of(frame, suspension);
        var range = LinkageRange.Of(motion, suspension.TravelMm);
        return new(extended, suspension.TravelMm, motion, range.FullTurnRad);
    }

    /// <summary>The pose at a travel.</summary>
    /// <param name="travelMm">Travel (mm, 0 is fully extended), in the meaning that the suspension states.</param>
    /// <exception cref="ArgumentOutOfRangeException">The travel lies outside 0 to <see cref="TravelMm"/>: nothing is extrapolated.</exception>
    public AxlePose At(double travelMm)
    {
        if (!(travelMm >= 0 && travelMm <= TravelMm))
        {
            throw new ArgumentOutOfRangeException(
                nameof(travelMm),
                Texts.Get("rearEnd.travel", travelMm, TravelMm)
            );
        }
        if (travelMm == 0)
        {
            return Extended;
        }
        if (table is not null)
        {
            return PathInterpolation.At(table.Points, Extended.Axle, travelMm);
        }
        var state = motion.At(TurnAt(travelMm));
        return new(state.Axle, state.RotationRad);
    }

    /// <summary>Chain growth at a travel: how much farther axle and bottom bracket stand apart than fully extended (mm).</summary>
    public double GrowthMm(double travelMm) => GrowthMm(At(travelMm));

    /// <summary>The same at a pose that is known already (mm).</summary>
    internal double GrowthMm(in AxlePose pose) => pose.AxleToBracketMm - Extended.AxleToBracketMm;

    /// <summary>Where a point fixed to the member that carries the axle has gone.</summary>
    /// <param name="atExtended">The point with the suspension fully extended (mm).</param>
    /// <param name="pose">The pose.</param>
    public Point Carried(Point atExtended, in AxlePose pose) =>
        pose.Axle + (atExtended - Extended.Axle).Turned(pose.RotationRad);

    /// <summary>
    /// Where the rear ends of a four-bar's two links stand at a pose of its axle: for drawings.
    /// </summary>
    /// <param name="links">The four-bar.</param>
    /// <param name="pose">The pose.</param>
    public (Point Lower, Point Upper) LinkEnds(FourBar links, in AxlePose pose)
    {
        ArgumentNullException.ThrowIfNull(links);
        if (links.Carries == LinkageMember.Coupler)
        {
            return (Carried(links.LowerRearMm, pose), Carried(links.UpperRearMm, pose));
        }
        var lower =
            links.LowerFrameMm + (links.LowerRearMm - links.LowerFrameMm).Turned(pose.RotationRad);
        return (lower, motion.At(pose.RotationRad).UpperRear);
    }

    private double TurnAt(double travelMm)
    {
        var low = 0.0;
        var high = 1.0;
        // Travel goes nearly linearly with the turn: this start is within a few percent.
        var part = travelMm / TravelMm;
        for (var i = 0; i < 100; i++)
        {
            var state = motion.At(part * fullTurnRad);
            var error = state.TravelMm - travelMm;
            if (error > 0)
            {
                high = part;
            }
            else
            {
                low = part;
            }
            var rate = state.TravelPerRadMm * fullTurnRad;
            var next = part - (error / rate);
            if (!(next > low && next < high))
            {
                // Newton's step left the bracket, or sits on its end because it has converged there.
                next = Math.Abs(error) <= WithinRad * Math.Abs(rate) ? part : 0.5 * (low + high);
            }
            if (Math.Abs(next - part) * Math.Abs(fullTurnRad) <= WithinRad)
            {
                return next * fullTurnRad;
            }
            part = next;
        }
        return part * fullTurnRad;
    }
}
