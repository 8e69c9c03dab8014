using System.Collections.Immutable;
using Cogwright.Care;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts;

/// <summary>
/// What a job has come to, in the few words and times that a list of many jobs shows. All times are by the clocks of the
/// devices. Immutable.
/// </summary>
/// <param name="Job">The job's id; empty for the bike itself: when no job was begun on it, or for what its wear makes due.</param>
/// <param name="Bike">The bike's name; may be empty.</param>
public sealed record JobListing(string Job, string Bike)
{
    /// <summary>What the job is, in the mechanic's words.</summary>
    public string Title { get; init; } = "";

    /// <summary>One of <see cref="WorkKinds"/>; empty when nobody said.</summary>
    public string Kind { get; init; } = "";

    /// <summary>The stage; meaningless without a job.</summary>
    public JobStage Stage { get; init; }

    /// <summary>Who has it in hand, by their sign; empty: nobody.</summary>
    public string InHandsOf { get; init; } = "";

    /// <summary>What it waits for: one of <see cref="JobWaits"/>; empty when it is over.</summary>
    public string Waits { get; init; } = "";

    /// <summary>When it was begun (ticks, UTC).</summary>
    public long BegunTicks { get; init; }

    /// <summary>The latest time of an entry about it (ticks, UTC).</summary>
    public long LastTicks { get; init; }

    /// <summary>When it was over (ticks, UTC); null while it is open.</summary>
    public long? ClosedTicks { get; init; }

    /// <summary>
    /// The day on which the bike is to be looked at again: that agreed for a job, the first that wear and care make due for the bike;
    /// null: none, or it was looked at since.
    /// </summary>
    public DateOnly? DueOn { get; init; }

    /// <summary>What is due then; null: nothing.</summary>
    public CareKind? Due { get; init; }

    /// <summary>One of <see cref="ComebackCauses"/>; empty when it is no comeback.</summary>
    public string Cause { get; init; } = "";

    /// <summary>The id of the job that it is a comeback of; empty: none, or nobody knows.</summary>
    public string ComebackOf { get; init; } = "";

    /// <summary>Time worked at each stage (s), in the order of <see cref="JobStage"/>.</summary>
    public ImmutableArray<long> StageSeconds { get; init; } = [];

    /// <summary>Time of gaps longer than <see cref="JobTimes.WorkingPause"/> (s).</summary>
    public long PauseSeconds { get; init; }

    /// <summary>Texts by which it can be found: all that the shop wrote of it and of the bike.</summary>
    public ImmutableArray<string> Texts { get; init; } = [];

    /// <summary>Digests of what a customer said, which lies beside the log.</summary>
    public ImmutableArray<string> Said { get; init; } = [];
}

/// <summary>What an open job waits for. Names are stable: the overview's rows use them.</summary>
public static class JobWaits
{
    /// <summary>The bike was looked over and is not to be worked on: for the customer's word.</summary>
    public const string NoGo = "no-go";

    /// <summary>Nobody has it in hand.</summary>
    public const string Hands = "hands";

    /// <summary>Somebody has it in hand and there is something left to do.</summary>
    public const string Work = "work";

    /// <summary>Nothing is left to do but to hand the bike over.</summary>
    public const string Handover = "handover";

    /// <summary>All, as a list shows them.</summary>
    public static ImmutableArray<string> All { get; } = [NoGo, Hands, Work, Handover];
}
