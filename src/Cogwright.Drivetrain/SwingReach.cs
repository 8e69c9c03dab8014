namespace Cogwright.Drivetrain;

/// <summary>Where the parallelogram brings the lower knuckle for each cog.</summary>
/// <remarks>
/// P = H + R(β)[upperPivot + L(cos φ · e + sin φ · sin σ · m)], with e = (cos κ, sin κ) and m = (sin κ, −cos κ);
/// the guide pulley stands at guideLateralAtZero − L sin φ cos σ.
/// </remarks>
internal readonly struct SwingReach
{
    private readonly RearDerailleur derailleur;
    private readonly Point bolt;
    private readonly Point upperPivot;
    private readonly Point alongLink;
    private readonly Point acrossLink;
    private readonly double lateralPerSine;

    internal SwingReach(RearDerailleur derailleur, Point bolt, double bodyAngleRad)
    {
        this.derailleur = derailleur;
        this.bolt = bolt;
        var (sinKappa, cosKappa) = Math.SinCos(derailleur.LinkAngleRad);
        var (sinSigma, cosSigma) = Math.SinCos(derailleur.SlantRad);
        var length = derailleur.LinkLengthMm;
        upperPivot = derailleur.UpperPivotMm.Turned(bodyAngleRad);
        alongLink = new Point(length * cosKappa, length * sinKappa).Turned(bodyAngleRad);
        acrossLink = new Point(length * sinSigma * sinKappa, -length * sinSigma * cosKappa).Turned(
            bodyAngleRad
        );
        lateralPerSine = length * cosSigma;
    }

    /// <summary>The lower knuckle at a swing given by its sine and cosine.</summary>
    internal Point Knuckle(double sin, double cos) =>
        new(
            bolt.X + upperPivot.X + (cos * alongLink.X) + (sin * acrossLink.X),
            bolt.Y + upperPivot.Y + (cos * alongLink.Y) + (sin * acrossLink.Y)
        );

    /// <summary>Swing that brings the guide pulley to a lateral position, and who stops it.</summary>
    /// <param name="lateralMm">Wanted lateral position (mm, outboard).</param>
    /// <param name="sine">sin φ, kept within ±1.</param>
    /// <param name="swingRad">φ (rad), at the limit when it cannot be reached.</param>
    /// <param name="shortfallMm">How far short of the position the limit leaves it (mm), 0 when reached.</param>
    internal Blame Reach(
        double lateralMm,
        out double sine,
        out double swingRad,
        out double shortfallMm
    )
    {
        sine = (derailleur.GuideLateralAtZeroMm - lateralMm) / lateralPerSine;
        shortfallMm = 0;
        if (Math.Abs(sine) > 1)
        {
            shortfallMm = (Math.Abs(sine) - 1) * lateralPerSine;
            sine = Math.Sign(sine);
            swingRad = sine * Math.PI / 2;
            // A stop that holds even earlier is the one to name.
            return Limit(ref sine, ref swingRad, ref shortfallMm) is var stop && stop == Blame.None
                ? Blame.Parallelogram
                : stop;
        }
        swingRad = Math.Asin(sine);
        return Limit(ref sine, ref swingRad, ref shortfallMm);
    }

    private Blame Limit(ref double sine, ref double swingRad, ref double shortfallMm)
    {
        if (derailleur.InboardStopRad is { } inboard && swingRad > inboard)
        {
            var atStop = Math.Sin(inboard);
            shortfallMm += (sine - atStop) * lateralPerSine;
            (sine, swingRad) = (atStop, inboard);
            return Blame.InboardStop;
        }
        if (derailleur.OutboardStopRad is { } outboard && swingRad < outboard)
        {
            var atStop = Math.Sin(outboard);
            shortfallMm += (atStop - sine) * lateralPerSine;
            (sine, swingRad) = (atStop, outboard);
            return Blame.OutboardStop;
        }
        return Blame.None;
    }
}
