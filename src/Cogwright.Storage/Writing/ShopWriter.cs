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
    private readonly ChangeFeed feed;
    private readonly TimeProvider clock;
    private readonly Channel<WriteWork> queue = Channel.CreateBounded<WriteWork>(
        new BoundedChannelOptions(QueueLength) { SingleReader = true }
    );
    private readonly Task loop;
    private DbConnection? connection;
    private CommandSet? commands;
    private bool hasToPurge;

    internal ShopWriter(ShopDatabase database, ChangeFeed feed, TimeProvider clock)
    {
        this.database = database;
        this.feed = feed;
        this.clock = clock;
        loop = Task.Run(RunAsync);
    }

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
                batch.Count < MostWorks && bytes < MostBytes && queue.Reader.TryRead(out var work)
            )
            {
                batch.Add(work);
                bytes += work.SizeBytes;
            }
            await WriteAsync([.. batch.OrderBy(work => work.Log)]).ConfigureAwait(false);
        }
    }

    /// <summary>Waits for work; meanwhile, erased bytes that could not be cleared away are tried again.</summary>
    private async Task<bool> HasWorkAsync()
    {
        var hasWork = queue.Reader.WaitToReadAsync().AsTask();
        while (hasToPurge && connection is not null)
        {
            var pause = Task.Delay(PurgePause);
            if (await Task.WhenAny(hasWork, pause).ConfigureAwait(false) == hasWork)
            {
                break;
            }
            hasToPurge = !await PurgedAsync(connection).ConfigureAwait(false);
        }
        return await hasWork.ConfigureAwait(false);
    }

    private async Task WriteAsync(WriteWork[] batch)
    {
        try
        {
            await CommitAsync(batch).ConfigureAwait(false);
        }
#pragma warning disable CA1031 // Whatever it was, each caller gets it; the writer itself goes on.
        catch (Exception e)
#pragma warning restore CA1031
        {
            await CloseAsync().ConfigureAwait(false);
            var fault = database.AnyFaultOf(e);
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
        connection ??= await database
            .OpenForWritingAsync(CancellationToken.None)
            .ConfigureAwait(false);
        commands ??= new CommandSet(database, connection);
        WriteTransaction writing;
        await using (
            var transaction = await database.BeginWritingAsync(connection).ConfigureAwait(false)
        )
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
            await transaction.CommitAsync().ConfigureAwait(false);
        }
        hasToPurge |= batch.Any(work => work.Purges);
        hasToPurge = hasToPurge && !await PurgedAsync(connection).ConfigureAwait(false);
        foreach (var work in batch)
        {
            work.Succeed(!hasToPurge);
        }
        foreach (var (log, receipt) in writing.Grown)
        {
            feed.Publish(log, receipt);
        }
    }

    /// <summary>Purges after the commit; that it cannot is an answer and undoes nothing.</summary>
    private async Task<bool> PurgedAsync(DbConnection open)
    {
        try
        {
            return await database.PurgeAsync(open).ConfigureAwait(false);
        }
        catch (DbException)
        {
            return false;
        }
    }

    private async Task CloseAsync()
    {
        commands?.Dispose();
        commands = null;
        if (connection is not null)
        {
            await connection.DisposeAsync().ConfigureAwait(false);
            connection = null;
        }
    }

    private static bool IsOfDatabase(StoreFaultKind kind) =>
        kind
            is StoreFaultKind.Locked
                or StoreFaultKind.Unreachable
                or StoreFaultKind.Full
                or StoreFaultKind.Inaccessible;
}
