namespace Cogwright.Drivetrain;

/// <summary>Which of the rear derailleur's two stops.</summary>
public enum RearStop
{
    /// <summary>The stop towards the smallest cog.</summary>
    Outboard,

    /// <summary>The stop towards the largest cog and the spokes.</summary>
    Inboard,
}

/// <summary>How far a rear stop lets the guide pulley go. Immutable.</summary>
/// <param name="Stop">The stop.</param>
/// <param name="SwingRad">Swing φ at which it holds (rad).</param>
/// <param name="GuideLateralMm">Lateral position of the guide pulley there (mm, outboard).</param>
/// <param name="OvershootMm">How far beyond the end cog that is (mm); negative when the stop holds before the cog.</param>
/// <param name="CogTeeth">Teeth of the end cog.</param>
public sealed record StopReach(
    RearStop Stop,
    double SwingRad,
    double GuideLateralMm,
    double OvershootMm,
    int CogTeeth
)
{
    /// <summary>
    /// Overshoot beyond which a stop is worth a look (mm): a pulley that stands straight under the end cog is the
    /// trade's rule; this much is told as loose. A choice of this program.
    /// </summary>
    public const double MostOvershootMm = 1.5;

    /// <summary>Whether it is no stop but the last programmed position of a derailleur on the axle, which has no stop screws.</summary>
    public bool IsProgrammed { get; init; }

    /// <summary>Whether the stop lets the pulley further than it should.</summary>
    public bool IsLoose => OvershootMm > MostOvershootMm;

    /// <summary>The reach of a stop, or null when the spec does not give it or has no rear derailleur.</summary>
    public static StopReach? Of(DrivetrainSpec spec, RearStop stop)
    {
        ArgumentNullException.ThrowIfNull(spec);
        if (spec.RearDerailleur is not { } derailleur)
        {
            return null;
        }
        var inboard = stop == RearStop.Inboard;
        var atEnd = derailleur.Coaxial is null
            ? inboard
                ? derailleur.InboardStopRad
                : derailleur.OutboardStopRad
            : ProgrammedEndRad(spec, derailleur, inboard);
        if (atEnd is not { } swing)
        {
            return null;
        }
        var cog = inboard ? spec.Cogs.Teeth.Length - 1 : 0;
        var lateral = GuideLateralMmAt(derailleur, swing);
        var beyond = lateral - spec.Cogs.LateralMm(cog);
        return new(stop, swing, lateral, inboard ? -beyond : beyond, spec.Cogs.Teeth[cog])
        {
            IsProgrammed = derailleur.Coaxial is not null,
        };
    }

    /// <summary>The swing at the last programmed position (rad): a derailleur on the axle has no stop that ends it before.</summary>
    private static double? ProgrammedEndRad(
        DrivetrainSpec spec,
        RearDerailleur derailleur,
        bool inboard
    ) =>
        spec.Shifting is { IsProgrammed: true } shifting
            ? SwingRadAt(
                derailleur.GuideLateralAtZeroMm,
                derailleur.LinkLengthMm,
                derailleur.SlantRad,
                inboard ? shifting.PositionsMm[^1] : shifting.PositionsMm[0]
            )
            : null;

    /// <summary>Lateral position of the guide pulley at a swing: guideLateralAtZero − L sin φ cos σ (mm).</summary>
    public static double GuideLateralMmAt(RearDerailleur derailleur, double swingRad)
    {
        ArgumentNullException.ThrowIfNull(derailleur);
        return derailleur.GuideLateralAtZeroMm
            - (derailleur.LinkLengthMm * Math.Sin(swingRad) * Math.Cos(derailleur.SlantRad));
    }

    /// <summary>The swing that brings the guide pulley to a lateral position (rad), or null beyond the parallelogram.</summary>
    public static double? SwingRadAt(
        double guideLateralAtZeroMm,
        double linkLengthMm,
        double slantRad,
        double lateralMm
    )
    {
        var sine = (guideLateralAtZeroMm - lateralMm) / (linkLengthMm * Math.Cos(slantRad));
        return Math.Abs(sine) <= 1 ? Math.Asin(sine) : null;
    }
}
