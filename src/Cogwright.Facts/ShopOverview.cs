using System.Collections.Immutable;
using Cogwright.Care;
using Cogwright.Log;

namespace Cogwright.Facts;

/// <summary>A job of a bike, or the bike itself, among many. Immutable.</summary>
/// <param name="Log">The log of the bike.</param>
/// <param name="Job">The job.</param>
public sealed record ListedJobOf(LogId Log, JobListing Job);

/// <summary>How many open jobs one person has at one stage. Immutable.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="InHandsOf">The person's sign; empty: nobody.</param>
/// <param name="Jobs">How many.</param>
public sealed record StandingCount(Setup.Jobs.JobStage Stage, string InHandsOf, int Jobs);

/// <summary>The time worked on finished jobs of one kind. Immutable.</summary>
/// <param name="Kind">The kind of work, by its stable name; empty: nobody said.</param>
/// <param name="Jobs">How many jobs.</param>
/// <param name="StageHours">Time at each stage (h, mean of the jobs), in the order of the stages.</param>
/// <param name="PauseHours">Pauses (h, mean of the jobs).</param>
public sealed record WorkedTimes(
    string Kind,
    int Jobs,
    ImmutableArray<double> StageHours,
    double PauseHours
);

/// <summary>
/// A shop at one moment, from the logs of its bikes: what the server's overview tells from its rows, worked out without them.
/// Immutable.
/// </summary>
/// <param name="Standing">Open jobs by stage and person.</param>
/// <param name="Waiting">Open jobs, the one longest untouched first.</param>
/// <param name="Due">Bikes on which something is due, the earliest first.</param>
/// <param name="Comebacks">Comebacks by cause, the most first.</param>
/// <param name="CameBack">The comebacks, the latest first.</param>
/// <param name="Times">Times of finished jobs by kind of work.</param>
/// <param name="Over">How many jobs were over since the time asked for.</param>
public sealed record ShopOverview(
    ImmutableArray<StandingCount> Standing,
    ImmutableArray<ListedJobOf> Waiting,
    ImmutableArray<ListedJobOf> Due,
    ImmutableArray<(string Cause, int Jobs)> Comebacks,
    ImmutableArray<ListedJobOf> CameBack,
    ImmutableArray<WorkedTimes> Times,
    int Over
)
{
    /// <summary>Every job of a shop, bike by bike.</summary>
    /// <param name="logs">The logs; the shop's own among them sets the limits of wear.</param>
    public static ImmutableArray<ListedJobOf> JobsOf(IEnumerable<EntryLog> logs)
    {
        ArgumentNullException.ThrowIfNull(logs);
        var listings = logs.Select(log =>
            {
                var listing = new JobListings(log.Id);
                listing.Log.Merge(log.Ordered);
                return listing;
            })
            .ToList();
        var table =
            listings.Find(each => each.Log.Id == ShopLog.Id)?.CareTable ?? CareTable.CommonPractice;
        return
        [
            .. listings.SelectMany(each =>
                each.Jobs(table).Select(job => new ListedJobOf(each.Log.Id, job))
            ),
        ];
    }

    /// <summary>The overview of jobs.</summary>
    /// <param name="jobs">All of them.</param>
    /// <param name="sinceTicks">Comebacks that were begun and jobs that were over since then (ticks, UTC).</param>
    /// <param name="dueUntil">What is due until this day.</param>
    public static ShopOverview Of(
        ImmutableArray<ListedJobOf> jobs,
        long sinceTicks,
        DateOnly dueUntil
    )
    {
        var open = jobs.Where(each => each.Job is { ClosedTicks: null, Job.Length: > 0 }).ToList();
        var over = jobs.Where(each => each.Job.ClosedTicks >= sinceTicks).ToList();
        var back = jobs.Where(each =>
                each.Job.Cause.Length > 0 && each.Job.BegunTicks >= sinceTicks
            )
            .ToList();
        return new(
            [
                .. open.GroupBy(each => (each.Job.Stage, each.Job.InHandsOf))
                    .Select(group => new StandingCount(
                        group.Key.Stage,
                        group.Key.InHandsOf,
                        group.Count()
                    ))
                    .OrderBy(each => each.Stage)
                    .ThenBy(each => each.InHandsOf, StringComparer.Ordinal),
            ],
            [.. open.OrderBy(each => each.Job.LastTicks)],
            [.. jobs.Where(each => each.Job.DueOn <= dueUntil).OrderBy(each => each.Job.DueOn)],
            [
                .. back.CountBy(each => each.Job.Cause, StringComparer.Ordinal)
                    .OrderByDescending(each => each.Value)
                    .ThenBy(each => each.Key, StringComparer.Ordinal)
                    .Select(each => (each.Key, each.Value)),
            ],
            [.. back.OrderByDescending(each => each.Job.BegunTicks)],
            [
                .. over.GroupBy(each => each.Job.Kind, StringComparer.Ordinal)
                    .OrderBy(group => group.Key, StringComparer.Ordinal)
                    .Select(group => TimesOf(group.Key, [.. group.Select(each => each.Job)])),
            ],
            over.Count
        );
    }

    private static WorkedTimes TimesOf(string kind, ImmutableArray<JobListing> jobs) =>
        new(
            kind,
            jobs.Length,
            [.. JobNames.Stages.Select((_, i) => Hours(jobs.Average(job => job.StageSeconds[i])))],
            Hours(jobs.Average(job => job.PauseSeconds))
        );

    private static double Hours(double seconds) => seconds / 3600;
}
