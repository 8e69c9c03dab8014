namespace Cogwright.Drivetrain;

/// <summary>
/// What one gear asks of a chain over the whole travel of the rear end: the most that it needs at its foremost cage
/// angle, and the least that it takes at the rear stop, each with the travel that sets it.
/// </summary>
/// <param name="NeedsPitches">Greatest need over the travel (pitches); NaN when there is no pose somewhere.</param>
/// <param name="NeedsAtTravelMm">Travel that sets it (mm).</param>
/// <param name="TakesPitches">Least that the rear stop takes over the travel (pitches); NaN like the need.</param>
/// <param name="TakesAtTravelMm">Travel that sets it (mm).</param>
internal readonly record struct GearDemand(
    double NeedsPitches,
    double NeedsAtTravelMm,
    double TakesPitches,
    double TakesAtTravelMm
)
{
    /// <summary>The demand of a gear; NaN throughout without derailleur.</summary>
    /// <param name="spec">The spec, without problems.</param>
    /// <param name="rearEnd">The rear end of its frame.</param>
    /// <param name="ring">Index of the ring.</param>
    /// <param name="cog">Index of the cog.</param>
    /// <param name="bodyAngleRad">Body angle (rad).</param>
    internal static GearDemand Of(
        DrivetrainSpec spec,
        RearEnd rearEnd,
        int ring,
        int cog,
        double bodyAngleRad
    )
    {
        if (spec.RearDerailleur is not { } derailleur)
        {
            return new(double.NaN, 0, double.NaN, 0);
        }
        var needs = TravelExtremes.Greatest(
            rearEnd.TravelMm,
            travel =>
                GearTableSolver.Needs(
                    spec,
                    derailleur,
                    RearPlace.At(spec, rearEnd, travel),
                    ring,
                    cog,
                    bodyAngleRad
                )
        );
        var takes = TravelExtremes.Greatest(
            rearEnd.TravelMm,
            travel =>
                -GearTableSolver.Takes(
                    spec,
                    derailleur,
                    RearPlace.At(spec, rearEnd, travel),
                    ring,
                    cog,
                    bodyAngleRad
                )
        );
        return new(needs.Value, needs.TravelMm, -takes.Value, takes.TravelMm);
    }
}
