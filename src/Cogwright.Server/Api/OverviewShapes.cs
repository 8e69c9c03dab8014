using System.Collections.Immutable;
using Cogwright.Facts;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>A job or a bike as the overview lists it.</summary>
/// <param name="Bike">The bike: its log.</param>
/// <param name="Name">The bike's name.</param>
/// <param name="Job">The job; empty for a bike on which none was begun.</param>
/// <param name="Title">What the job is.</param>
/// <param name="Kind">The kind of work, such as "gears"; empty when nobody said.</param>
/// <param name="Stage">"intake", "compatibility", "targets", "set-up", "test", "handover", "aftercare".</param>
/// <param name="InHandsOf">Who has it in hand; empty: nobody.</param>
/// <param name="Waits">"no-go", "hands", "work", "handover"; empty when it is over.</param>
/// <param name="Begun">When it was begun, by a device's clock.</param>
/// <param name="Last">The latest time of an entry about it, by the devices' clocks.</param>
/// <param name="Closed">When it was over, by a device's clock; null while it is open.</param>
/// <param name="DueOn">The day on which something is due; null: nothing.</param>
/// <param name="Due">What is due, such as "first-check".</param>
/// <param name="Cause">Why it came back, such as "cable-settling"; empty: it is no comeback.</param>
/// <param name="ComebackOf">The job that it is a comeback of; empty: none, or nobody knows.</param>
/// <param name="WorkedSeconds">Time worked on it (s).</param>
internal sealed record ListedAnswer(
    Guid Bike,
    string Name,
    string Job,
    string Title,
    string Kind,
    string Stage,
    string InHandsOf,
    string Waits,
    DateTimeOffset Begun,
    DateTimeOffset Last,
    DateTimeOffset? Closed,
    DateOnly? DueOn,
    string Due,
    string Cause,
    string ComebackOf,
    long WorkedSeconds
)
{
    internal static ListedAnswer Of(ListedJob job) =>
        new(
            job.Log.Value,
            job.Bike,
            job.Job,
            job.Title,
            job.Kind,
            job.Stage,
            job.InHandsOf,
            job.Waits,
            OverviewTimes.Of(job.BegunTicks),
            OverviewTimes.Of(job.LastTicks),
            job.ClosedTicks is { } closed ? OverviewTimes.Of(closed) : null,
            job.DueOn,
            job.Due,
            job.Cause,
            job.ComebackOf,
            job.WorkedSeconds
        );
}

/// <summary>Times as people read them.</summary>
internal static class OverviewTimes
{
    /// <summary>A device can claim any time: one that no calendar has becomes the nearest that one has.</summary>
    internal static DateTimeOffset Of(long ticks) =>
        new(Math.Clamp(ticks, 0, DateTime.MaxValue.Ticks), TimeSpan.Zero);
}

/// <summary>How many open jobs somebody has at a stage.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="InHandsOf">Who; empty: nobody.</param>
/// <param name="Jobs">How many.</param>
internal sealed record StandingAnswer(string Stage, string InHandsOf, long Jobs);

/// <summary>How many jobs came back for a cause.</summary>
/// <param name="Cause">The cause.</param>
/// <param name="Jobs">How many.</param>
internal sealed record CauseAnswer(string Cause, long Jobs);

/// <summary>What finished jobs of one kind took, beside the plan.</summary>
/// <param name="Kind">The kind of work; empty: nobody said.</param>
/// <param name="Jobs">How many jobs.</param>
/// <param name="StageHours">Time worked at each stage (h, mean of the jobs), in the order of the stages.</param>
/// <param name="PauseHours">Time of pauses (h, mean).</param>
/// <param name="PlannedHours">What is planned for all stages together (h); null without a kind.</param>
/// <param name="IsOwnPlan">Whether the shop has set that; if not, it is common practice.</param>
internal sealed record TimesAnswer(
    string Kind,
    long Jobs,
    ImmutableArray<double> StageHours,
    double PauseHours,
    double? PlannedHours,
    bool IsOwnPlan
);

/// <summary>The shop at one moment.</summary>
/// <param name="At">The server's time.</param>
/// <param name="Behind">How many bikes have entries that are not taken into account yet.</param>
/// <param name="Days">Comebacks and times are those of so many days.</param>
/// <param name="PauseMinutes">A longer gap between two entries (min) counts as a pause.</param>
/// <param name="Stages">The stages in their order.</param>
/// <param name="Standing">Open jobs by stage and person.</param>
/// <param name="Waiting">Open jobs, the one longest untouched first.</param>
/// <param name="Due">What is due, the earliest first.</param>
/// <param name="Comebacks">Comebacks by cause, the most first.</param>
/// <param name="CameBack">The comebacks, the latest first.</param>
/// <param name="Over">How many jobs were over in these days.</param>
/// <param name="Times">What they took.</param>
/// <param name="Plan">What is planned for each kind of work.</param>
internal sealed record OverviewAnswer(
    DateTimeOffset At,
    long Behind,
    int Days,
    double PauseMinutes,
    ImmutableArray<string> Stages,
    ImmutableArray<StandingAnswer> Standing,
    ImmutableArray<ListedAnswer> Waiting,
    ImmutableArray<ListedAnswer> Due,
    ImmutableArray<CauseAnswer> Comebacks,
    ImmutableArray<ListedAnswer> CameBack,
    long Over,
    ImmutableArray<TimesAnswer> Times,
    ImmutableArray<PlannedWork> Plan
)
{
    internal static OverviewAnswer Of(
        StoredOverview stored,
        ImmutableArray<PlannedWork> plan,
        DateTimeOffset at,
        int days
    ) =>
        new(
            at,
            stored.Behind,
            days,
            JobTimes.WorkingPause.TotalMinutes,
            JobNames.Stages,
            [
                .. stored.Standing.Select(each => new StandingAnswer(
                    each.Stage,
                    each.InHandsOf,
                    each.Jobs
                )),
            ],
            [.. stored.Waiting.Select(ListedAnswer.Of)],
            [.. stored.Due.Select(ListedAnswer.Of)],
            [.. stored.Comebacks.Select(each => new CauseAnswer(each.Cause, each.Jobs))],
            [.. stored.CameBack.Select(ListedAnswer.Of)],
            stored.Over,
            [
                .. stored.Times.Select(each =>
                {
                    var planned = plan.FirstOrDefault(one => one.Kind == each.Kind);
                    return new TimesAnswer(
                        each.Kind,
                        each.Jobs,
                        [.. each.StageSeconds.Select(seconds => Hours(seconds, each.Jobs))],
                        Hours(each.PauseSeconds, each.Jobs),
                        planned?.Hours,
                        planned?.IsOwn ?? false
                    );
                }),
            ],
            plan
        );

    private static double Hours(long seconds, long jobs) => seconds / 3600.0 / jobs;
}

/// <summary>What was found.</summary>
/// <param name="Jobs">Jobs and bikes, those that changed last first.</param>
/// <param name="HasMore">Whether there are more.</param>
internal sealed record FoundAnswer(ImmutableArray<ListedAnswer> Jobs, bool HasMore);

/// <summary>Hours to be planned for a kind of work.</summary>
/// <param name="Hours">Time at the bike (h), above 0; null: common practice again.</param>
internal sealed record NewPlan(double? Hours);
