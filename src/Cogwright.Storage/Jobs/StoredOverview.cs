using System.Collections.Immutable;

namespace Cogwright.Storage;

/// <summary>What the overview is asked for. Immutable.</summary>
/// <param name="SinceTicks">Comebacks and times of jobs that were over since then (100 ns since the year 1, UTC).</param>
/// <param name="DueUntil">What is due until this day.</param>
/// <param name="Most">At most so many jobs in each list, from 1.</param>
public sealed record OverviewQuestion(long SinceTicks, DateOnly DueUntil, int Most);

/// <summary>How many open jobs one person has at one stage. Immutable.</summary>
/// <param name="Stage">The stage, by its stable name.</param>
/// <param name="InHandsOf">The person's sign; empty: nobody.</param>
/// <param name="Jobs">How many.</param>
public sealed record StandingJobs(string Stage, string InHandsOf, long Jobs);

/// <summary>How many jobs came back for one cause. Immutable.</summary>
/// <param name="Cause">The cause, by its stable name.</param>
/// <param name="Jobs">How many.</param>
public sealed record ComebackCount(string Cause, long Jobs);

/// <summary>The time worked on finished jobs of one kind. Immutable.</summary>
/// <param name="Kind">The kind of work, by its stable name; empty: nobody said.</param>
/// <param name="Jobs">How many jobs.</param>
/// <param name="StageSeconds">All their time at each stage together (s), in the order of the stages.</param>
/// <param name="PauseSeconds">All their pauses together (s).</param>
public sealed record KindTimes(
    string Kind,
    long Jobs,
    ImmutableArray<long> StageSeconds,
    long PauseSeconds
);

/// <summary>The shop at one moment. Immutable.</summary>
/// <param name="Standing">Open jobs by stage and person.</param>
/// <param name="Waiting">Open jobs, the one longest untouched first.</param>
/// <param name="Due">What is due, the earliest first.</param>
/// <param name="Comebacks">Comebacks by cause, the most first.</param>
/// <param name="CameBack">The comebacks, the latest first.</param>
/// <param name="Times">Times of finished jobs by kind.</param>
/// <param name="Over">How many jobs were over since the time asked for.</param>
/// <param name="Behind">How many logs have entries that are not taken into account yet.</param>
public sealed record StoredOverview(
    ImmutableArray<StandingJobs> Standing,
    ImmutableArray<ListedJob> Waiting,
    ImmutableArray<ListedJob> Due,
    ImmutableArray<ComebackCount> Comebacks,
    ImmutableArray<ListedJob> CameBack,
    ImmutableArray<KindTimes> Times,
    long Over,
    long Behind
);

/// <summary>What was found. Immutable.</summary>
/// <param name="Jobs">The jobs and bikes, those whose log grew last first.</param>
/// <param name="HasMore">Whether there are more.</param>
public sealed record FoundJobs(ImmutableArray<ListedJob> Jobs, bool HasMore);
