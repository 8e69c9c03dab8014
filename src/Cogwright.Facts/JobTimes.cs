using System.Collections.Immutable;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts;

/// <summary>
/// The times of one job as its entries tell them, one after the other in the order of the log. From one entry to the next the
/// job was worked on, at the stage at which it was then, if the gap is no longer than a working pause; a longer gap is a pause,
/// the whole of it. A device's clock that is behind the one before it adds nothing. Immutable.
/// </summary>
public sealed record JobTimes
{
    /// <summary>
    /// A longer gap between two entries is no work: at the stand something is entered with each step, and few steps take half
    /// an hour. Common practice knows no such figure; it is this program's own.
    /// </summary>
    public static readonly TimeSpan WorkingPause = TimeSpan.FromMinutes(30);

    /// <summary>Before the first entry.</summary>
    public static JobTimes None { get; } = new();

    /// <summary>Time worked at each stage (ticks), in the order of <see cref="JobStage"/>.</summary>
    public ImmutableArray<long> WorkedTicks { get; private init; } =
    [.. new long[Enum.GetValues<JobStage>().Length]];

    /// <summary>Time of longer gaps (ticks).</summary>
    public long PauseTicks { get; private init; }

    /// <summary>The latest time of all (ticks, UTC); 0 before the first.</summary>
    public long LastTicks { get; private init; }

    private long? Before { get; init; }

    /// <summary>The times after one more entry.</summary>
    /// <param name="stage">The stage at which the job was before it.</param>
    /// <param name="utcTicks">What the device's clock said (ticks, UTC).</param>
    public JobTimes With(JobStage stage, long utcTicks)
    {
        var gap = Before is { } before ? Math.Max(0, utcTicks - before) : 0;
        var isWork = gap <= WorkingPause.Ticks;
        return this with
        {
            Before = utcTicks,
            LastTicks = Math.Max(LastTicks, utcTicks),
            WorkedTicks = isWork
                ? WorkedTicks.SetItem((int)stage, WorkedTicks[(int)stage] + gap)
                : WorkedTicks,
            PauseTicks = isWork ? PauseTicks : PauseTicks + gap,
        };
    }
}
