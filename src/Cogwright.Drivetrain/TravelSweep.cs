namespace Cogwright.Drivetrain;

/// <summary>
/// What becomes of some gears over the whole travel of the rear end, in flat arrays: figure of gear g at position p
/// stands at g · <see cref="Positions"/> + p. A figure that does not exist there is NaN; <see cref="State"/> says why.
/// </summary>
public sealed class TravelSweep
{
    /// <summary>Most gears that one sweep follows: every gear a bike may have here.</summary>
    public const int MostGears = SpecCheck.MostSprockets * SpecCheck.MostSprockets;

    private readonly double[] travelMm;
    private readonly double[] growthMm;
    private readonly double[] axleX;
    private readonly double[] axleY;
    private readonly double[] rotationRad;
    private readonly Gear[] gears;
    private readonly GearState[] states;
    private readonly double[] cageAngleRad;
    private readonly double[] gapMm;
    private readonly double[] tightMarginMm;
    private readonly double[] looseMarginMm;
    private readonly double[] bodyAngleRad;

    private TravelSweep(int pitches, ReadOnlySpan<Gear> gears, int positions, bool isSprung)
    {
        Pitches = pitches;
        Positions = positions;
        this.gears = gears.ToArray();
        travelMm = new double[positions];
        growthMm = new double[positions];
        axleX = new double[positions];
        axleY = new double[positions];
        rotationRad = new double[positions];
        var figures = gears.Length * positions;
        states = new GearState[figures];
        cageAngleRad = new double[figures];
        gapMm = new double[figures];
        tightMarginMm = new double[figures];
        looseMarginMm = new double[figures];
        bodyAngleRad = isSprung ? new double[figures] : [];
    }

    /// <summary>The chain it was made with (pitches).</summary>
    public int Pitches { get; }

    /// <summary>Number of positions of the axle, full extension and full travel included.</summary>
    public int Positions { get; }

    /// <summary>The gears, in the order asked for.</summary>
    public ReadOnlySpan<Gear> Gears => gears;

    /// <summary>Travel of each position (mm).</summary>
    public ReadOnlySpan<double> TravelMm => travelMm;

    /// <summary>Chain growth at each position (mm): axle to bottom bracket, less the same fully extended.</summary>
    public ReadOnlySpan<double> GrowthMm => growthMm;

    /// <summary>The axle at each position, forward of the bottom bracket (mm; negative).</summary>
    public ReadOnlySpan<double> AxleX => axleX;

    /// <summary>The axle at each position, above the bottom bracket (mm).</summary>
    public ReadOnlySpan<double> AxleY => axleY;

    /// <summary>Turn of the member that carries axle and hanger at each position (rad, anticlockwise).</summary>
    public ReadOnlySpan<double> RotationRad => rotationRad;

    /// <summary>State of each gear at each position.</summary>
    public ReadOnlySpan<GearState> State => states;

    /// <summary>Cage angle (rad, against the frame).</summary>
    public ReadOnlySpan<double> CageAngleRad => cageAngleRad;

    /// <summary>Pulley-to-cog gap (mm, tooth tip to tooth tip, to the cog in use).</summary>
    public ReadOnlySpan<double> GapMm => gapMm;

    /// <summary>Reserve before the chain is too short (mm of chain).</summary>
    public ReadOnlySpan<double> TightMarginMm => tightMarginMm;

    /// <summary>Reserve before the chain hangs (mm of chain).</summary>
    public ReadOnlySpan<double> LooseMarginMm => looseMarginMm;

    /// <summary>Body angle (rad, against the hanger); empty unless the mount is sprung, since it then never changes.</summary>
    public ReadOnlySpan<double> BodyAngleRad => bodyAngleRad;

    /// <summary>Sweeps the travel in equal steps.</summary>
    /// <param name="spec">The spec, without problems and with a rear derailleur.</param>
    /// <param name="gears">The gears to follow.</param>
    /// <param name="pitches">Length of the chain (pitches).</param>
    /// <param name="steps">Number of steps, at least 1; there is one position more. A rigid frame has one position.</param>
    /// <param name="bodyAngleRad">Body angle (rad); the spec's own when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">No step, or more than <see cref="MostGears"/> gears.</exception>
    /// <exception cref="ArgumentException">The bike has no derailleur, or no such gear.</exception>
    public static TravelSweep Of(
        DrivetrainSpec spec,
        ReadOnlySpan<Gear> gears,
        int pitches,
        int steps,
        double? bodyAngleRad = null
    )
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentOutOfRangeException.ThrowIfLessThan(steps, 1);
        var derailleur =
            spec.RearDerailleur
            ?? throw new ArgumentException(Texts.Get("sweep.derailleur"), nameof(spec));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(gears.Length, MostGears);
        var rearEnd = RearEnd.Of(spec.Frame);
        var positions = rearEnd.TravelMm == 0 ? 1 : steps + 1;
        var sweep = new TravelSweep(pitches, gears, positions, derailleur.Sprung is not null);
        var body = bodyAngleRad ?? CoaxialSetUp.BodyAngleRad(spec, pitches);
        var swept = new SweptDerailleur(spec, derailleur, pitches);
        Span<SweptGear> ready = stackalloc SweptGear[gears.Length];
        for (var g = 0; g < gears.Length; g++)
        {
            var (ring, cog) =
                spec.IndicesOf(gears[g])
                ?? throw new ArgumentException(
                    Texts.Get("check.noSuchGear", gears[g].RingTeeth, gears[g].CogTeeth),
                    nameof(gears)
                );
            ready[g] = swept.Ready(ring, cog);
        }
        for (var p = 0; p < positions; p++)
        {
            sweep.travelMm[p] =
                p == 0 ? 0
                : p == positions - 1 ? rearEnd.TravelMm
                : p * rearEnd.TravelMm / steps;
            var place = RearPlace.At(spec, rearEnd, sweep.travelMm[p]);
            sweep.growthMm[p] = rearEnd.GrowthMm(place.Pose);
            sweep.axleX[p] = place.Pose.Axle.X;
            sweep.axleY[p] = place.Pose.Axle.Y;
            sweep.rotationRad[p] = place.Pose.RotationRad;
            var swing = swept.SwingAt(place, body);
            for (var g = 0; g < gears.Length; g++)
            {
                var at = (g * positions) + p;
                var figures = swept.Solve(place, swing, body, ready[g]);
                sweep.states[at] = figures.State;
                sweep.cageAngleRad[at] = figures.CageAngleRad;
                sweep.gapMm[at] = figures.GapMm;
                sweep.tightMarginMm[at] = figures.TightMarginMm;
                sweep.looseMarginMm[at] = figures.LooseMarginMm;
                if (derailleur.Sprung is not null)
                {
                    sweep.bodyAngleRad[at] = figures.BodyAngleRad;
                }
            }
        }
        return sweep;
    }
}
