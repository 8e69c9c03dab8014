using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>
/// What logs were worked out to: rows for the overview and for search. Who works it out is the caller; the store keeps it, knows
/// how far it is, and never takes it for a source. A backup need not have it.
/// </summary>
public sealed partial class ShopStore
{
    private const int NumberAttempts = 4;

    /// <summary>Logs of which something is not worked out yet, or by an earlier version; those that came first first.</summary>
    /// <param name="version">The version of the code that works them out.</param>
    /// <param name="most">At most so many, from 1.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<ImmutableArray<LogId>> UnfoldedAsync(
        int version,
        int most,
        CancellationToken cancellation = default
    ) => ToldAsync(() => jobs.StaleAsync(version, most, cancellation));

    /// <summary>Whether something of a log is not worked out yet, or by an earlier version.</summary>
    public Task<bool> IsUnfoldedAsync(
        LogId log,
        int version,
        CancellationToken cancellation = default
    ) => ToldAsync(() => jobs.IsStaleAsync(log, version, cancellation));

    /// <summary>Puts what a log was worked out to in the place of what was there, with the place that was reached.</summary>
    /// <param name="folded">The whole log.</param>
    /// <param name="cancellation">Counts only until it is in the queue.</param>
    public async Task<FoldStatus> PutFoldedAsync(
        FoldedLog folded,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(folded);
        for (var attempt = 0; ; attempt++)
        {
            try
            {
                return await writer
                    .WriteAsync(new PutJobsWork(folded, attempt), cancellation)
                    .ConfigureAwait(false);
            }
            catch (StoreFaultException e)
                when (e.Fault.Kind == StoreFaultKind.Unforeseen && attempt < NumberAttempts)
            {
                // Two logs of one millisecond had one number: the next attempt takes another. Any other fault comes again.
            }
        }
    }

    /// <summary>Has every log worked out again. What is there is told until it is.</summary>
    public Task UnfoldAllAsync(CancellationToken cancellation = default) =>
        writer.WriteAsync(new UnfoldWork(), cancellation);

    /// <summary>The shop at this moment, as far as its logs are worked out.</summary>
    /// <param name="asked">What is asked for.</param>
    /// <param name="version">The version of the code that works logs out.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<StoredOverview> OverviewAsync(
        OverviewQuestion asked,
        int version,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(asked);
        ArgumentOutOfRangeException.ThrowIfLessThan(asked.Most, 1);
        return ToldAsync(() => jobs.OverviewAsync(asked, version, cancellation));
    }

    /// <summary>The jobs and bikes that have, for each word of a question, a word that begins with it.</summary>
    /// <param name="question">Words; what <see cref="SearchWords"/> makes of them is looked for. None: nothing is found.</param>
    /// <param name="withSaid">Whether also in what customers said.</param>
    /// <param name="most">At most so many, from 1.</param>
    /// <param name="cancellation">Gives up.</param>
    public Task<FoundJobs> FindJobsAsync(
        string question,
        bool withSaid,
        int most,
        CancellationToken cancellation = default
    )
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 1);
        return ToldAsync(() => jobs.FindAsync(question, withSaid, most, cancellation));
    }

    /// <summary>Every job, by the time at which it was begun, read as it is asked for.</summary>
    public IAsyncEnumerable<ListedJob> ListedJobsAsync(CancellationToken cancellation = default) =>
        jobs.EveryAsync(cancellation);
}
