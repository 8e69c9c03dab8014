using System.Collections.Immutable;
using System.Text;
using Cogwright.Care;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>
/// Works the logs of bikes out into the rows of the overview, after they are in the store and never before: nobody who sends
/// entries waits for a fold. Where it was is in the store, so whatever was left by a kill, by another server or by an earlier
/// version is found at the start and done.
/// </summary>
internal sealed class JobFolding(ShopStore store, TimeProvider time, ILogger<JobFolding> log)
    : BackgroundService
{
    /// <summary>
    /// Higher with each change of what a log comes to (<see cref="JobListings"/>, <see cref="SearchWords"/>): every log is worked
    /// out anew then.
    /// </summary>
    internal const int Version = 2;

    private const int HeldLogs = 64;
    private const int Block = 64;
    private const int Tries = 3;

    // The limits and intervals by which the bikes were worked out.
    private const string TableSetting = "overview.care";

    // Entries come in bursts, and what is read at a glance need not be of this very moment.
    private static readonly TimeSpan Breath = TimeSpan.FromMilliseconds(100);

    // What another server took in and did not get to.
    private static readonly TimeSpan Round = TimeSpan.FromMinutes(5);

    private readonly Lock guard = new();
    private readonly Dictionary<LogId, Held> held = [];
    private readonly Held shop = new(new JobListings(ShopLog.Id));
    private readonly HashSet<LogId> due = [];
    private List<TaskCompletionSource> waiting = [];
    private TaskCompletionSource woken = New();
    private long uses;

    /// <summary>Something beside a log has changed: it is worked out again.</summary>
    internal void Nudge(LogId changed)
    {
        lock (guard)
        {
            due.Add(changed);
            woken.TrySetResult();
        }
    }

    /// <summary>Everything is worked out again, as far as the store says that it is to be.</summary>
    internal void NudgeAll() => _ = SettledAsync();

    /// <summary>Ends when everything that is in the store now is worked out.</summary>
    internal Task SettledAsync()
    {
        var settled = New();
        lock (guard)
        {
            waiting.Add(settled);
            woken.TrySetResult();
        }
        return settled.Task;
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // First heard, then looked: between the two nothing can fall through.
        using var watch = store.Watch();
        var hearing = HearAsync(watch, stoppingToken);
        try
        {
            await RoundAsync(stoppingToken).ConfigureAwait(false);
            while (!stoppingToken.IsCancellationRequested)
            {
                await WaitAsync(stoppingToken).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            // The server stops. What is left is found at the next start.
        }
        finally
        {
            watch.Dispose();
            await hearing.ConfigureAwait(false);
            lock (guard)
            {
                waiting.ForEach(each => each.TrySetCanceled(CancellationToken.None));
            }
        }
    }

    private async Task HearAsync(ChangeWatch watch, CancellationToken stopping)
    {
        try
        {
            await foreach (var change in watch.WithCancellation(stopping).ConfigureAwait(false))
            {
                Nudge(change.Log);
            }
        }
        catch (OperationCanceledException) when (stopping.IsCancellationRequested)
        {
            // As above.
        }
    }

    private async Task WaitAsync(CancellationToken stopping)
    {
        await Task.WhenAny(woken.Task, Task.Delay(Round, stopping)).ConfigureAwait(false);
        stopping.ThrowIfCancellationRequested();
        LogId[] changed;
        List<TaskCompletionSource> settling;
        bool isHeard;
        lock (guard)
        {
            isHeard = woken.Task.IsCompleted;
            woken = New();
            changed = [.. due];
            due.Clear();
            (settling, waiting) = (waiting, []);
        }
        foreach (var some in changed.Chunk(Block))
        {
            await Task.WhenAll(some.Select(each => TryAsync(each, holds: true, stopping)))
                .ConfigureAwait(false);
        }
        if (settling.Count > 0 || !isHeard)
        {
            await RoundAsync(stopping).ConfigureAwait(false);
            settling.ForEach(each => each.TrySetResult());
        }
        else
        {
            await Task.Delay(Breath, stopping).ConfigureAwait(false);
        }
    }

    /// <summary>Everything that is not worked out.</summary>
    private async Task RoundAsync(CancellationToken stopping)
    {
        var failed = new HashSet<LogId>();
        while (true)
        {
            ImmutableArray<LogId> stale;
            try
            {
                stale = await store
                    .UnfoldedAsync(Version, Block + failed.Count, stopping)
                    .ConfigureAwait(false);
            }
            catch (StoreFaultException e)
            {
                Telling.StoreFailed(log, e.Fault.Kind);
                return;
            }
            var some = stale.Where(each => !failed.Contains(each)).ToList();
            if (some.Count == 0)
            {
                return;
            }
            foreach (var each in some)
            {
                if (!await TryAsync(each, holds: false, stopping).ConfigureAwait(false))
                {
                    failed.Add(each);
                }
            }
        }
    }

    private async Task<bool> TryAsync(LogId each, bool holds, CancellationToken stopping)
    {
        try
        {
            // Another server on this database was faster.
            return !await store.IsUnfoldedAsync(each, Version, stopping).ConfigureAwait(false)
                || await FoldAsync(each, holds, stopping).ConfigureAwait(false);
        }
        catch (StoreFaultException e)
        {
            Telling.StoreFailed(log, e.Fault.Kind);
        }
#pragma warning disable CA1031 // One log that cannot be worked out keeps the others from nothing; the overview says how many lack.
        catch (Exception e)
            when (e is not OperationCanceledException || !stopping.IsCancellationRequested)
#pragma warning restore CA1031
        {
            Telling.NotFolded(log, each.Value, e.GetType().FullName);
        }
        lock (guard)
        {
            held.Remove(each);
        }
        return false;
    }

    private async Task<bool> FoldAsync(LogId each, bool holds, CancellationToken stopping)
    {
        var bike = HeldOf(each, holds);
        await bike.Turn.WaitAsync(stopping).ConfigureAwait(false);
        try
        {
            for (var i = 0; i < Tries; i++)
            {
                await PullAsync(each, bike, stopping).ConfigureAwait(false);
                var folded = await FoldedAsync(
                        each,
                        bike,
                        await TableAsync(isOfShop: each == ShopLog.Id, stopping)
                            .ConfigureAwait(false),
                        stopping
                    )
                    .ConfigureAwait(false);
                var status = await store.PutFoldedAsync(folded, stopping).ConfigureAwait(false);
                if (status != FoldStatus.Overtaken)
                {
                    return true;
                }
            }
            return false;
        }
        finally
        {
            bike.Turn.Release();
        }
    }

    /// <summary>The shop's limits and intervals as they stand in the store now: they decide about the wear of every bike.</summary>
    private async Task<CareTable> TableAsync(bool isOfShop, CancellationToken stopping)
    {
        await shop.Turn.WaitAsync(stopping).ConfigureAwait(false);
        try
        {
            await PullAsync(ShopLog.Id, shop, stopping).ConfigureAwait(false);
            var table = shop.Listings.CareTable;
            if (isOfShop)
            {
                await UnfoldForAsync(table, stopping).ConfigureAwait(false);
            }
            return table;
        }
        finally
        {
            shop.Turn.Release();
        }
    }

    // Before the shop's own log counts as worked out, so that no kill in between leaves a bike as it was.
    private async Task UnfoldForAsync(CareTable table, CancellationToken stopping)
    {
        var text = TextOf(table);
        if (
            text
            == (
                await Settings.FindAsync(store, TableSetting).ConfigureAwait(false)
                ?? TextOf(CareTable.CommonPractice)
            )
        )
        {
            return;
        }
        await store.UnfoldAllAsync(stopping).ConfigureAwait(false);
        await Settings
            .SetAsync(store, TableSetting, text, time.GetUtcNow().UtcTicks)
            .ConfigureAwait(false);
        NudgeAll();
    }

    private static string TextOf(CareTable table) =>
        Encoding.UTF8.GetString(CareEntry.Draft(table).Body.Span);

    private async Task PullAsync(LogId each, Held bike, CancellationToken stopping)
    {
        bool hasMore;
        do
        {
            var page = await store
                .PullAsync(each, new PullCursor(store.Epoch, bike.Receipt), cancellation: stopping)
                .ConfigureAwait(false);
            foreach (var entry in page.Entries)
            {
                bike.Listings.Log.Add(entry);
            }
            bike.Receipt = page.Last;
            hasMore = page.HasMore;
        } while (hasMore);
    }

    private async Task<FoldedLog> FoldedAsync(
        LogId each,
        Held bike,
        CareTable table,
        CancellationToken stopping
    )
    {
        var here = ImmutableArray.CreateBuilder<Digest>();
        var elsewhere = ImmutableArray.CreateBuilder<Digest>();
        var jobs = ImmutableArray.CreateBuilder<FoundByWords>();
        foreach (var job in bike.Listings.Jobs(table))
        {
            var said = new List<string>();
            foreach (var text in job.Said)
            {
                var digest = new Digest(Convert.FromHexString(text));
                if (
                    await store.FindPersonalAsync(digest, stopping).ConfigureAwait(false)
                    is not { } found
                )
                {
                    elsewhere.Add(digest);
                }
                // What lies under another log is erased there, and its words would stay here.
                else if (found.Log == each)
                {
                    here.Add(digest);
                    said.Add(Encoding.UTF8.GetString(found.Datum.Data.Span));
                }
            }
            jobs.Add(
                new FoundByWords(Listed(each, job), SearchWords.Of(job.Texts), SearchWords.Of(said))
            );
        }
        return new FoldedLog(each, bike.Receipt, Version, jobs.ToImmutable())
        {
            SaidHere = here.ToImmutable(),
            SaidElsewhere = elsewhere.ToImmutable(),
        };
    }

    internal static ListedJob Listed(LogId each, JobListing job) =>
        new(each, job.Job, job.Bike)
        {
            Title = job.Title,
            Kind = job.Kind,
            Stage = job.Job.Length > 0 ? JobNames.Of(job.Stage) : "",
            InHandsOf = job.InHandsOf,
            Waits = job.Waits,
            BegunTicks = job.BegunTicks,
            LastTicks = job.LastTicks,
            ClosedTicks = job.ClosedTicks,
            DueOn = job.DueOn,
            Due = job.Due is { } due ? JobNames.Of(due) : "",
            Cause = job.Cause,
            ComebackOf = job.ComebackOf,
            StageSeconds = job.StageSeconds,
            PauseSeconds = job.PauseSeconds,
        };

    private Held HeldOf(LogId each, bool holds)
    {
        lock (guard)
        {
            if (!held.TryGetValue(each, out var bike))
            {
                bike = new Held(new JobListings(each));
                if (!holds)
                {
                    return bike;
                }
                if (held.Count == HeldLogs)
                {
                    held.Remove(held.MinBy(pair => pair.Value.Used).Key);
                }
                held.Add(each, bike);
            }
            bike.Used = ++uses;
            return bike;
        }
    }

    private static TaskCompletionSource New() =>
        new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>A log that grew lately, as far as it was read: the next entry alone is to be taken in.</summary>
    private sealed class Held(JobListings listings)
    {
        internal JobListings Listings => listings;

        internal SemaphoreSlim Turn { get; } = new(1);

        internal long Receipt { get; set; }

        internal long Used { get; set; }
    }
}
