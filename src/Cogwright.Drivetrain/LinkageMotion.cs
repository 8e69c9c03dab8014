namespace Cogwright.Drivetrain;

/// <summary>A linkage at one turn of its driving link.</summary>
/// <param name="Axle">The rear axle (mm).</param>
/// <param name="RotationRad">Turn of the member that carries it (rad).</param>
/// <param name="TravelMm">Travel in the suspension's meaning (mm).</param>
/// <param name="TravelPerRadMm">Change of the travel with the driving turn (mm/rad).</param>
/// <param name="UpperRear">The upper link's pivot on the coupler (mm); without links, nowhere.</param>
/// <param name="Opens">Whether the loop cannot be closed there; nothing else is then meant.</param>
internal readonly record struct LinkageState(
    Point Axle,
    double RotationRad,
    double TravelMm,
    double TravelPerRadMm,
    Point UpperRear,
    bool Opens
)
{
    internal static LinkageState Open => new(default, 0, 0, 0, default, true);
}

/// <summary>
/// A swingarm, or a four-bar, as a function of the turn q of its swingarm or lower link from full extension.
/// </summary>
/// <remarks>
/// Lower link A→B, coupler B→C, upper link D→C. With B = A + R(q)(B₀ − A), C is where the circles about B (radius BC)
/// and about D (radius DC) meet, on the side on which it lies when extended. Angular rates from the loop's velocities:
/// ω_BC = −(ẑ×(B−A))·(C−D) / (ẑ×(C−B))·(C−D) per unit of dq, and v_C = ω_DC ẑ×(C−D). Source: any text on planar
/// mechanisms; derivation in docs/theory/rear-ends.md.
/// </remarks>
internal readonly record struct LinkageMotion
{
    private readonly Point a;
    private readonly Point b0;
    private readonly Point c0;
    private readonly Point d;
    private readonly bool hasLoop;
    private readonly double couplerMm;
    private readonly double upperMm;
    private readonly double side;
    private readonly bool onCoupler;
    private readonly Point axle0;
    private readonly bool byShock;
    private readonly Point frameEye;
    private readonly Point memberEye0;
    private readonly LinkageMember eyeOn;
    private readonly double shock0;

    private LinkageMotion(Frame frame, Suspension suspension)
    {
        axle0 = frame.Axle;
        if (suspension.Linkage is FourBar fourBar)
        {
            a = fourBar.LowerFrameMm;
            b0 = fourBar.LowerRearMm;
            c0 = fourBar.UpperRearMm;
            d = fourBar.UpperFrameMm;
            hasLoop = true;
            couplerMm = (c0 - b0).Length;
            upperMm = (c0 - d).Length;
            side = Math.Sign(Cross(d - b0, c0 - b0));
            onCoupler = fourBar.Carries == LinkageMember.Coupler;
        }
        else
        {
            a = ((SinglePivot)suspension.Linkage).PivotMm;
            b0 = axle0;
        }
        if (suspension is { TravelMeans: TravelMeaning.ShockStroke, Shock: { } shock })
        {
            byShock = true;
            frameEye = shock.FrameEyeMm;
            memberEye0 = shock.MemberEyeMm;
            eyeOn = shock.On;
            shock0 = (memberEye0 - frameEye).Length;
        }
    }

    internal static LinkageMotion Of(Frame frame, Suspension suspension) => new(frame, suspension);

    /// <summary>Distance of the coupler's rear pivot on the lower link to the upper link's pivot on the frame at a turn (mm).</summary>
    internal double LoopSpanMm(double turnRad) => (d - (a + (b0 - a).Turned(turnRad))).Length;

    /// <summary>The linkage at a driving turn (rad, anticlockwise).</summary>
    internal LinkageState At(double turnRad)
    {
        var arm = (b0 - a).Turned(turnRad);
        var b = a + arm;
        var c = default(Point);
        var couplerTurn = 0.0;
        var couplerRate = 0.0;
        var upperTurn = 0.0;
        var upperRate = 0.0;
        if (hasLoop)
        {
            var span = d - b;
            var square = (span.X * span.X) + (span.Y * span.Y);
            // Foot of C on the line B–D, and its height over it, both as parts of that line.
            var along = 0.5 * (1 + (((couplerMm * couplerMm) - (upperMm * upperMm)) / square));
            var height = (couplerMm * couplerMm / square) - (along * along);
            if (!(height > 0))
            {
                return LinkageState.Open;
            }
            var across = side * Math.Sqrt(height);
            c = new(
                b.X + (along * span.X) - (across * span.Y),
                b.Y + (along * span.Y) + (across * span.X)
            );
            couplerTurn = Turn(c0 - b0, c - b);
            upperTurn = Turn(c0 - d, c - d);
            var upper = c - d;
            couplerRate = -Dot(Left(arm), upper) / Dot(Left(c - b), upper);
            var speed = Left(arm) + Times(Left(c - b), couplerRate);
            upperRate = Dot(speed, Left(upper)) / (upperMm * upperMm);
        }

        Point axle;
        Point axleSpeed;
        if (onCoupler)
        {
            var fromB = (axle0 - b0).Turned(couplerTurn);
            axle = b + fromB;
            axleSpeed = Left(arm) + Times(Left(fromB), couplerRate);
        }
        else
        {
            var fromA = (axle0 - a).Turned(turnRad);
            axle = a + fromA;
            axleSpeed = Left(fromA);
        }
        var rotation = onCoupler ? couplerTurn : turnRad;
        if (!byShock)
        {
            return new(axle, rotation, axle.Y - axle0.Y, axleSpeed.Y, c, false);
        }
        var (eye, eyeSpeed) = eyeOn switch
        {
            LinkageMember.Coupler => Moved(b, memberEye0 - b0, couplerTurn, couplerRate, Left(arm)),
            LinkageMember.UpperLink => Moved(d, memberEye0 - d, upperTurn, upperRate, default),
            _ => Moved(a, memberEye0 - a, turnRad, 1, default),
        };
        var shock = eye - frameEye;
        var length = shock.Length;
        return new(axle, rotation, shock0 - length, -Dot(shock, eyeSpeed) / length, c, false);
    }

    /// <summary>How fast the axle rises with the driving turn when extended (mm/rad): its sign is that of compression.</summary>
    internal double RisePerRadMm()
    {
        const double h = 1e-6;
        var (up, down) = (At(h), At(-h));
        return up.Opens || down.Opens ? double.NaN : (up.Axle.Y - down.Axle.Y) / (2 * h);
    }

    private static (Point At, Point Speed) Moved(
        Point centre,
        Point offset,
        double turnRad,
        double rate,
        Point centreSpeed
    )
    {
        var turned = offset.Turned(turnRad);
        return (centre + turned, centreSpeed + Times(Left(turned), rate));
    }

    private static double Turn(Point from, Point to) => Math.Atan2(Cross(from, to), Dot(from, to));

    private static Point Left(Point p) => new(-p.Y, p.X);

    private static Point Times(Point p, double factor) => new(p.X * factor, p.Y * factor);

    private static double Dot(Point p, Point q) => (p.X * q.X) + (p.Y * q.Y);

    private static double Cross(Point p, Point q) => (p.X * q.Y) - (p.Y * q.X);
}
