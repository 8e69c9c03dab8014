using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>
/// What a job of a bike has come to, as the shop's overview lists it. All times are by the clocks of the devices. Immutable.
/// </summary>
/// <param name="Log">The log of the bike.</param>
/// <param name="Job">The job's id; empty for a bike on which no job was begun.</param>
/// <param name="Bike">The bike's name.</param>
public sealed record ListedJob(LogId Log, string Job, string Bike)
{
    /// <summary>How many stages a job has.</summary>
    public const int Stages = 7;

    /// <summary>What the job is, in the mechanic's words.</summary>
    public string Title { get; init; } = "";

    /// <summary>The kind of work, by its stable name; empty when nobody said.</summary>
    public string Kind { get; init; } = "";

    /// <summary>The stage, by its stable name; empty without a job.</summary>
    public string Stage { get; init; } = "";

    /// <summary>Who has it in hand, by their sign; empty: nobody.</summary>
    public string InHandsOf { get; init; } = "";

    /// <summary>What it waits for, by its stable name; empty when it is over.</summary>
    public string Waits { get; init; } = "";

    /// <summary>When it was begun: 100 ns since the year 1, UTC.</summary>
    public long BegunTicks { get; init; }

    /// <summary>When something was last entered about it: 100 ns since the year 1, UTC.</summary>
    public long LastTicks { get; init; }

    /// <summary>When it was over: 100 ns since the year 1, UTC; null while it is open.</summary>
    public long? ClosedTicks { get; init; }

    /// <summary>The day on which something is due on the bike; null: nothing.</summary>
    public DateOnly? DueOn { get; init; }

    /// <summary>What is due then, by its stable name; empty: nothing.</summary>
    public string Due { get; init; } = "";

    /// <summary>Why it came back, by the cause's stable name; empty when it is no comeback.</summary>
    public string Cause { get; init; } = "";

    /// <summary>The id of the job that it is a comeback of; empty when it is none or nobody knows.</summary>
    public string ComebackOf { get; init; } = "";

    /// <summary>Time worked at each stage (s), in the order of the stages; <see cref="Stages"/> of them.</summary>
    public ImmutableArray<long> StageSeconds { get; init; } = [.. new long[Stages]];

    /// <summary>Time of pauses between entries (s): what was not worked.</summary>
    public long PauseSeconds { get; init; }

    /// <summary>Time worked at all stages together (s).</summary>
    public long WorkedSeconds => StageSeconds.Sum();
}

/// <summary>A job with the words by which it is found. Immutable.</summary>
/// <param name="Job">The job.</param>
/// <param name="Words">By <see cref="SearchWords"/>; nothing that a customer said.</param>
/// <param name="Said">What a customer said, by <see cref="SearchWords"/>.</param>
public sealed record FoundByWords(
    ListedJob Job,
    ImmutableArray<string> Words,
    ImmutableArray<string> Said
);

/// <summary>What a whole log was worked out to. Immutable.</summary>
/// <param name="Log">The log.</param>
/// <param name="Receipt">The receipt number of its last entry that was taken into account.</param>
/// <param name="Version">The version of the code that did it, from 1.</param>
/// <param name="Jobs">Its jobs, oldest first; none for a log that is no bike's.</param>
public sealed record FoldedLog(
    LogId Log,
    long Receipt,
    int Version,
    ImmutableArray<FoundByWords> Jobs
)
{
    /// <summary>The personal data whose words are in <see cref="FoundByWords.Said"/>.</summary>
    public ImmutableArray<Digest> SaidHere { get; init; } = [];

    /// <summary>The personal data that the log names and that were not here.</summary>
    public ImmutableArray<Digest> SaidElsewhere { get; init; } = [];
}
