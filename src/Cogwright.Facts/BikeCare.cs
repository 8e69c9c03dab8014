using System.Collections.Immutable;
using Cogwright.Care;

namespace Cogwright.Facts;

/// <summary>What falls due on a bike, from its log alone: for lists of many bikes.</summary>
public static class BikeCare
{
    /// <summary>
    /// What is known of a bike's wear, with the number of cogs that its spec itself says; a spec that names a cassette of the library
    /// says none here, and then the strictest limit holds.
    /// </summary>
    /// <param name="bike">What its log comes to.</param>
    public static CareFacts FactsOf(BikeState bike)
    {
        ArgumentNullException.ThrowIfNull(bike);
        return bike.Care with
        {
            Cogs = bike.History.Sheet["cogs.teeth"] is { } teeth ? CogsIn(teeth) : null,
        };
    }

    /// <summary>Everything that falls due on it, the most urgent first: the day, what to do and why.</summary>
    /// <param name="bike">What its log comes to.</param>
    /// <param name="table">The shop's limits and intervals; null for common practice.</param>
    /// <param name="today">The day on which it is asked.</param>
    public static ImmutableArray<DueItem> DueOf(BikeState bike, CareTable? table, DateOnly today) =>
        WithJobs(CareDue.Of(FactsOf(bike), table ?? CareTable.CommonPractice, today), bike, today);

    /// <summary>
    /// What falls due by wear and care with what its jobs say of the first check: the day that was agreed at a handover stands in
    /// the place of what was entered beside the job for the same handover.
    /// </summary>
    /// <param name="due">What falls due by wear and care.</param>
    /// <param name="bike">What the bike's log comes to.</param>
    /// <param name="today">The day on which it is asked.</param>
    public static ImmutableArray<DueItem> WithJobs(
        ImmutableArray<DueItem> due,
        BikeState bike,
        DateOnly today
    )
    {
        ArgumentNullException.ThrowIfNull(bike);
        var left = WithoutTold(due, bike);
        // One that was entered for a later handover counts.
        if (
            bike.Work.Jobs.LastOrDefault(job => job.AwaitsCheck) is not { FirstCheck: { } agreed }
            || left.Any(item => item is { Kind: CareKind.FirstCheck, Place: CarePlace.Bike })
        )
        {
            return left;
        }
        return
        [
            .. left.Add(
                    new(
                        CareKind.FirstCheck,
                        CarePlace.Bike,
                        CareDue.StateOf(agreed, today),
                        Texts.Get("firstCheck.what"),
                        Texts.Get("firstCheck.why"),
                        Texts.Get("firstCheck.from")
                    )
                    {
                        Day = agreed,
                    }
                )
                .OrderBy(item => item.State)
                .ThenBy(item => item.Day ?? DateOnly.MaxValue),
        ];
    }

    /// <summary>What falls due by wear and care alone: without first checks of handovers of which a job tells, or that are done.</summary>
    /// <param name="due">What falls due by wear and care.</param>
    /// <param name="bike">What the bike's log comes to.</param>
    internal static ImmutableArray<DueItem> WithoutTold(
        ImmutableArray<DueItem> due,
        BikeState bike
    ) =>
        due.RemoveAll(item =>
            item.Kind == CareKind.FirstCheck
            && bike.Care.Parts.LastOrDefault(part =>
                part.Kind == CareKind.FirstCheck && part.Place == item.Place
            )
                is { } last
            && bike.Work.Jobs.Any(job =>
                job is { FirstCheck: not null, ClosedUtcTicks: { } closed }
                    && last.On <= DayOf(closed)
                // A bike may be looked at and go out again on one day, and that of the device's clock may be the one before.
                || job.Checks.Any(check => last.On < DayOf(check.From.UtcTicks).AddDays(-1))
            )
        );

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
