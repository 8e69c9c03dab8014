using System.Data;
using System.Data.Common;
using System.Threading.Channels;

namespace Cogwright.Storage;

/// <summary>
/// The one that writes. What comes in while a commit is under way goes together into the next one, so that many callers share
/// one wait for the disk.
/// </summary>
internal sealed class ShopWriter : IAsyncDisposable
{
    private const int QueueLength = 4096;
    private const int MostWorks = 256;
    private const long MostBytes = 16 * 1024 * 1024;

    private static readonly TimeSpan PurgePause = TimeSpan.FromSeconds(1);

    private readonly ShopDatabase database;
    private readonly Guid epoch;
    private readonly ChangeFeed feed;
    private readonly TimeProvider clock;
    private readonly Channel<WriteWork> queue = Channel.CreateBounded<WriteWork>(
        new BoundedChannelOptions(QueueLength) { SingleReader = true }
    );
    private readonly Task loop;
    private DbConnection? connection;
    private CommandSet? commands;
    private bool isCommitting;
    private bool hasToPurge;
    private long nextPurge;

    /// <param name="database">The database.</param>
    /// <param name="epoch">The life of the store that callers are told.</param>
    /// <param name="feed">Is told what has grown.</param>
    /// <param name="clock">Tells when things were received.</param>
    /// <param name="begun">An open connection to begin with, and whether erased bytes may have been left in the files.</param>
    internal ShopWriter(
        ShopDatabase database,
        Guid epoch,
        ChangeFeed feed,
        TimeProvider clock,
        (DbConnection Connection, bool HasToPurge) begun
    )
    {
        this.database = database;
        this.epoch = epoch;
        this.feed = feed;
        this.clock = clock;
        (connection, hasToPurge) = begun;
        loop = Task.Run(RunAsync);
    }

    /// <summary>Whether the connection that it keeps is usable, as far as the driver knows; for tests.</summary>
    internal bool IsConnected => connection?.State == ConnectionState.Open;

    /// <summary>Hands something over, and waits until it is on the disk.</summary>
    /// <exception cref="StoreFaultException">It was not done.</exception>
    internal async Task<TAnswer> WriteAsync<TAnswer>(
        WriteWork<TAnswer> work,
        CancellationToken cancellation
    )
    {
        try
        {
            await queue.Writer.WriteAsync(work, cancellation).ConfigureAwait(false);
        }
        catch (ChannelClosedException e)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Closed,
                Texts.Get("store.closed", database.Place),
                e
            );
        }
        // From here on it will be written: to give up waiting would leave the caller without knowing.
        return await work.Done.ConfigureAwait(false);
    }

    public async ValueTask DisposeAsync()
    {
        queue.Writer.TryComplete();
        await loop.ConfigureAwait(false);
        await CloseAsync().ConfigureAwait(false);
    }

    private async Task RunAsync()
    {
        var batch = new List<WriteWork>();
        while (await HasWorkAsync().ConfigureAwait(false))
        {
            batch.Clear();
            long bytes = 0;
            while (
                batch.Count < MostWorks
                && bytes < MostBytes
                && queue.Reader.TryPeek(out var next)
                && !(batch.Count > 0 && (next.IsAlone || batch[0].IsAlone))
                && queue.Reader.TryRead(out var work)
            )
            {
                batch.Add(work);
                bytes += work.SizeBytes;
            }
            await WriteAsync([.. batch.OrderBy(work => work.Log)]).ConfigureAwait(false);
        }
    }

    /// <summary>Waits for work; erased bytes that could not be cleared away are tried again, at most once in a pause.</summary>
    private async Task<bool> HasWorkAsync()
    {
        var hasWork = queue.Reader.WaitToReadAsync().AsTask();
        while (hasToPurge)
        {
            var left = nextPurge - Environment.TickCount64;
            if (left > 0)
            {
                if (hasWork.IsCompleted)
                {
                    break;
                }
                await Task.WhenAny(hasWork, Task.Delay((int)left)).ConfigureAwait(false);
                continue;
            }
            await PurgeAsync(hasErasedMore: false).ConfigureAwait(false);
        }
        return await hasWork.ConfigureAwait(false);
    }

    private async Task WriteAsync(WriteWork[] batch)
    {
        var isKept = IsConnected;
        isCommitting = false;
        try
        {
            await CommitAsync(batch).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
            when (batch is [{ Cancellation.IsCancellationRequested: true }] && !isCommitting)
        {
            // What was put off to be sent together belongs to what was rolled back: the connection goes with it.
            await CloseAsync().ConfigureAwait(false);
            batch[0].End();
        }
#pragma warning disable CA1031 // Whatever it was, each caller gets it; the writer itself goes on.
        catch (Exception e)
#pragma warning restore CA1031
        {
            var isLost = !IsConnected;
            await CloseAsync().ConfigureAwait(false);
            var fault = database.WritingFaultOf(e);
            // The database was restarted while nothing was written, and the driver did not know. Before the commit is sent
            // nothing of this can be on the disk: it is done over another connection, in the same order.
            if (
                isKept
                && !isCommitting
                && (isLost || fault.Fault.Kind == StoreFaultKind.Unreachable)
            )
            {
                await WriteAsync(batch).ConfigureAwait(false);
                return;
            }
            if (batch.Length == 1 || IsOfDatabase(fault.Fault.Kind))
            {
                foreach (var work in batch)
                {
                    work.Fail(fault);
                }
                return;
            }
            // One of them is to blame: alone, each gets its own answer.
            foreach (var work in batch)
            {
                await WriteAsync([work]).ConfigureAwait(false);
            }
        }
    }

    private async Task CommitAsync(WriteWork[] batch)
    {
        var open = await ConnectedAsync().ConfigureAwait(false);
        commands ??= new CommandSet(database, open);
        WriteTransaction writing;
        await using (var transaction = await database.BeginWritingAsync(open).ConfigureAwait(false))
        {
            commands.Transaction = transaction;
            if (batch.Any(work => work.LocksShop))
            {
                await database.LockShopAsync(commands).ConfigureAwait(false);
            }
            writing = new WriteTransaction(database, commands, clock.GetUtcNow().UtcTicks);
            await database.LookAheadAsync(writing, batch).ConfigureAwait(false);
            foreach (var work in batch)
            {
                await work.RunAsync(writing).ConfigureAwait(false);
            }
            await writing.FlushAsync().ConfigureAwait(false);
            isCommitting = true;
            await transaction.CommitAsync().ConfigureAwait(false);
        }
        foreach (var work in batch.Where(work => !work.Purges))
        {
            work.Succeed(default);
        }
        foreach (var (log, receipt) in writing.Grown)
        {
            feed.Publish(log, receipt);
        }
        // Last: only those who erase wait for it.
        if (batch.Any(work => work.Purges))
        {
            var bytes = await PurgeAsync(hasErasedMore: true).ConfigureAwait(false);
            foreach (var work in batch.Where(work => work.Purges))
            {
                work.Succeed(bytes);
            }
        }
    }

    /// <summary>Purges after the commit; that it cannot is an answer and undoes nothing.</summary>
    private async Task<ErasedBytes> PurgeAsync(bool hasErasedMore)
    {
        var bytes = await PurgedAsync(hasErasedMore).ConfigureAwait(false);
        hasToPurge = bytes == ErasedBytes.Waiting;
        nextPurge = Environment.TickCount64 + (long)PurgePause.TotalMilliseconds;
        return bytes;
    }

    private async Task<ErasedBytes> PurgedAsync(bool hasErasedMore)
    {
        try
        {
            return await database
                .PurgeAsync(await ConnectedAsync().ConfigureAwait(false), hasErasedMore)
                .ConfigureAwait(false);
        }
#pragma warning disable CA1031 // Whatever it was, what was committed stays so and is answered; this is tried again.
        catch (Exception)
#pragma warning restore CA1031
        {
            await CloseAsync().ConfigureAwait(false);
            return ErasedBytes.Waiting;
        }
    }

    /// <summary>The writer's connection; one that was lost while nothing was written is made anew.</summary>
    private async Task<DbConnection> ConnectedAsync()
    {
        if (connection is not null && !IsConnected)
        {
            await CloseAsync().ConfigureAwait(false);
        }
        if (connection is null)
        {
            connection = await database
                .OpenForWritingAsync(CancellationToken.None)
                .ConfigureAwait(false);
            commands = new CommandSet(database, connection);
            // While it was away a backup may have been restored: what devices are told here would be of another life.
            if (await Epochs.ReadAsync(database, commands).ConfigureAwait(false) != epoch)
            {
                throw StoreFaultException.Of(
                    StoreFaultKind.Closed,
                    Texts.Get("store.otherLife", database.Place)
                );
            }
        }
        return connection;
    }

    private async Task CloseAsync()
    {
        var (used, compiled) = (connection, commands);
        connection = null;
        commands = null;
        try
        {
            compiled?.Dispose();
            if (used is not null)
            {
                await used.DisposeAsync().ConfigureAwait(false);
            }
        }
#pragma warning disable CA1031 // It is given up because of a failure that is told; that it cannot say goodbye is part of that.
        catch (Exception)
#pragma warning restore CA1031
        {
            // Nothing is left to be done with it.
        }
    }

    private static bool IsOfDatabase(StoreFaultKind kind) =>
        kind
            is StoreFaultKind.Locked
                or StoreFaultKind.Closed
                or StoreFaultKind.Unreachable
                or StoreFaultKind.Full
                or StoreFaultKind.Inaccessible;
}
