using System.Collections.Immutable;
using Cogwright.Care;

namespace Cogwright.Facts;

/// <summary>What falls due on a bike, from its log alone: for lists of many bikes.</summary>
public static class BikeCare
{
    /// <summary>
    /// What is known of a bike's wear, without the first check of a handover when a job says of the same handover when the check is
    /// or that it was done: that is told with the job.
    /// </summary>
    /// <param name="bike">What its log comes to.</param>
    public static CareFacts WithoutChecked(BikeState bike)
    {
        ArgumentNullException.ThrowIfNull(bike);
        var told = bike
            .Work.Jobs.SelectMany(job =>
                job.Checks.Select(check => DayOf(check.From.UtcTicks))
                    .Concat(
                        job is { FirstCheck: not null, ClosedUtcTicks: { } closed }
                            ? [DayOf(closed)]
                            : []
                    )
            )
            .DefaultIfEmpty(DateOnly.MinValue)
            .Max();
        return bike.Care.Parts.Any(part => part.Kind == CareKind.FirstCheck && part.On <= told)
            ? bike.Care with
            {
                Parts = bike.Care.Parts.RemoveAll(part =>
                    part.Kind == CareKind.FirstCheck && part.On <= told
                ),
            }
            : bike.Care;
    }

    /// <summary>
    /// What is known of a bike's wear, with the number of cogs that its spec itself says; a spec that names a cassette of the library
    /// says none here, and then the strictest limit holds.
    /// </summary>
    /// <param name="bike">What its log comes to.</param>
    public static CareFacts FactsOf(BikeState bike)
    {
        ArgumentNullException.ThrowIfNull(bike);
        return WithoutChecked(bike) with
        {
            Cogs = bike.History.Sheet["cogs.teeth"] is { } teeth ? CogsIn(teeth) : null,
        };
    }

    /// <summary>Everything that falls due on it, the most urgent first: the day, what to do and why.</summary>
    /// <param name="bike">What its log comes to.</param>
    /// <param name="shop">What the shop's log comes to: its limits and intervals; null for common practice.</param>
    /// <param name="today">The day on which it is asked.</param>
    public static ImmutableArray<DueItem> DueOf(BikeState bike, BikeState? shop, DateOnly today) =>
        CareDue.Of(FactsOf(bike), shop?.CareTable ?? CareTable.CommonPractice, today);

    private static DateOnly DayOf(long utcTicks) =>
        DateOnly.FromDateTime(new DateTime(utcTicks, DateTimeKind.Utc));

    // 11-13-15 or [11, 13, 15]: as many cogs as numbers; a text that gives no cogs of a bicycle gives none.
    private static int? CogsIn(string teeth)
    {
        var count = 0;
        for (var i = 0; i < teeth.Length; i++)
        {
            count +=
                char.IsAsciiDigit(teeth[i]) && (i == 0 || !char.IsAsciiDigit(teeth[i - 1])) ? 1 : 0;
        }
        return count is >= WearLimits.FewestCogs and <= WearLimits.MostCogs ? count : null;
    }
}
