namespace Cogwright.Gearing;

/// <summary>Between what a cadence lies. Immutable.</summary>
/// <param name="LeastRpm">The least (rpm).</param>
/// <param name="MostRpm">The most (rpm).</param>
public sealed record RpmSpread(double LeastRpm, double MostRpm);

/// <summary>How far an answer hangs on what nobody measured.</summary>
public static class RideSpread
{
    /// <summary>
    /// Cadence of the lowest gear there is now at the slowest speed on the steepest minute: between a ride that goes easier on the
    /// least wheel and one that goes harder on the greatest. Null when that minute is not pedalled.
    /// </summary>
    /// <remarks>The gear is held, so that this tells of what is not known and not of a choice. The minute is each ride's own steepest.</remarks>
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
        var most = Rpm(easier, question.Tyre.LeastM);
        var least = Rpm(harder, question.Tyre.MostM);
        return least is not null && most is not null ? new(least.Value, most.Value) : null;

        double? Rpm(RoadLoad load, double circumferenceM) =>
            RideStudy
                .Of(
                    question with
                    {
                        Candidates = [],
                        Rider = question.Rider with { Load = load },
                        Tyre = question.Tyre with { CircumferenceM = circumferenceM },
                    },
                    null,
                    cancellation
                )
                .Present.SteepestInLowestGearRpm;
    }
}
