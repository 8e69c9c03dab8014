namespace Cogwright.Drivetrain;

/// <summary>
/// What one gear asks of a chain over the whole travel of the rear end: the most that it needs at its foremost cage
/// angle, and the least that it takes at the rear stop, each with the travel that sets it.
/// </summary>
/// <param name="NeedsPitches">Greatest need over the travel (pitches); NaN when there is no pose somewhere.</param>
/// <param name="NeedsAtTravelMm">Travel that sets it (mm).</param>
/// <param name="TakesPitches">Least that the rear stop takes over the travel (pitches); NaN like the need.</param>
/// <param name="TakesAtTravelMm">Travel that sets it (mm).</param>
public readonly record struct GearDemand(
    double NeedsPitches,
    double NeedsAtTravelMm,
    double TakesPitches,
    double TakesAtTravelMm
)
{
    /// <summary>The demand of a gear; NaN throughout without derailleur.</summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="ring">Index of the ring.</param>
    /// <param name="cog">Index of the cog.</param>
    /// <param name="bodyAngleRad">Body angle (rad); the spec's own when null.</param>
    public static GearDemand Of(DrivetrainSpec spec, int ring, int cog, double? bodyAngleRad = null)
    {
        ArgumentNullException.ThrowIfNull(spec);
        return Of(spec, RearEnd.Of(spec.Frame), ring, cog, bodyAngleRad);
    }

    internal static GearDemand Of(
        DrivetrainSpec spec,
        RearEnd rearEnd,
        int ring,
        int cog,
        double? bodyAngleRad = null
    )
    {
        if (spec.RearDerailleur is not { } derailleur)
        {
            return new(double.NaN, 0, double.NaN, 0);
        }
        var needs = TravelExtremes.Greatest(rearEnd.TravelMm, travel => Ends(travel).Needs);
        var takes = TravelExtremes.Greatest(rearEnd.TravelMm, travel => -Ends(travel).Takes);
        return new(needs.Value, needs.TravelMm, -takes.Value, takes.TravelMm);

        (double Needs, double Takes) Ends(double travel) =>
            GearTableSolver.Ends(
                spec,
                derailleur,
                RearPlace.At(spec, rearEnd, travel),
                ring,
                cog,
                bodyAngleRad ?? derailleur.BodyAngleRad
            );
    }
}
