namespace Cogwright.Gearing;

/// <summary>Between what a cadence lies. Immutable.</summary>
/// <param name="LeastRpm">The least (rpm).</param>
/// <param name="MostRpm">The most (rpm).</param>
public sealed record RpmSpread(double LeastRpm, double MostRpm);

/// <summary>How far an answer hangs on what nobody measured.</summary>
public static class RideSpread
{
    /// <summary>
    /// Slowest cadence on the steepest minute with the gears there are now: between a ride that goes easier on the least wheel and
    /// one that goes harder on the greatest. Null when that minute is not pedalled.
    /// </summary>
    /// <remarks>
    /// With the easier ride another gear may be in, or another minute the steepest: all three rides are looked at, and the ends of
    /// what comes of them told.
    /// </remarks>
    /// <param name="question">The ride; candidates are left out.</param>
    /// <param name="easier">Bike, rider and air at their easiest.</param>
    /// <param name="harder">The same at their hardest.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="ImpossibleInputException">A number is out of range.</exception>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public static RpmSpread? OnSteepestMinute(
        RideQuestion question,
        RoadLoad easier,
        RoadLoad harder,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(question);
        var tyre = question.Tyre;
        double?[] cadences =
        [
            Lowest(question.Rider.Load, tyre.CircumferenceM),
            Lowest(easier, tyre.LeastM),
            Lowest(harder, tyre.MostM),
        ];
        return Array.TrueForAll(cadences, rpm => rpm is not null)
            ? new(cadences.Min()!.Value, cadences.Max()!.Value)
            : null;

        double? Lowest(RoadLoad load, double circumferenceM) =>
            RideStudy
                .Of(
                    question with
                    {
                        Candidates = [],
                        Rider = question.Rider with { Load = load },
                        Tyre = tyre with { CircumferenceM = circumferenceM },
                    },
                    null,
                    cancellation
                )
                .Present.SteepestLowestRpm;
    }
}
