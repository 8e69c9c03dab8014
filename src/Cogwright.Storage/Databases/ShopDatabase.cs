using System.Data.Common;
using Cogwright.Log;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage;

/// <summary>One of the two databases: how it is opened, what it calls things, what its errors mean.</summary>
internal abstract class ShopDatabase(StoreOptions options) : IAsyncDisposable
{
    protected StoreOptions Options { get; } = options;

    /// <summary>A database to look at or copy, whoever else has it open.</summary>
    internal static ShopDatabase Beside(StoreOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        return options.ConnectionString is null
            ? SqliteDatabase.Unowned(options)
            : new PostgresDatabase(options);
    }

    /// <summary>What people are told of where the data lie; no password in it.</summary>
    internal abstract string Place { get; }

    /// <summary>Makes or checks the database, so that its tables are those of this version.</summary>
    /// <returns>The connection that was used, for the writer.</returns>
    internal async Task<DbConnection> PrepareAsync(CancellationToken cancellation)
    {
        var connection = await OpenForWritingAsync(cancellation).ConfigureAwait(false);
        try
        {
            await PrepareAsync(connection, cancellation).ConfigureAwait(false);
            return connection;
        }
        catch
        {
            await connection.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <summary>The same, over a connection.</summary>
    protected abstract Task PrepareAsync(DbConnection connection, CancellationToken cancellation);

    /// <summary>An open connection to read with.</summary>
    internal abstract Task<DbConnection> OpenAsync(CancellationToken cancellation);

    /// <summary>An open connection that the writer keeps.</summary>
    internal abstract Task<DbConnection> OpenForWritingAsync(CancellationToken cancellation);

    /// <summary>Begins to write; from here on a reader sees all of what follows or nothing.</summary>
    internal abstract Task<DbTransaction> BeginWritingAsync(DbConnection connection);

    /// <summary>Begins to read one state, whatever is written meanwhile.</summary>
    internal abstract Task<DbTransaction> BeginReadingAsync(
        DbConnection connection,
        CancellationToken cancellation
    );

    /// <summary>A context for accounts, sessions, links and settings.</summary>
    internal abstract StoreContext NewContext();

    /// <summary>An id as this database stores it.</summary>
    internal abstract object Value(Guid id);

    /// <summary>An id as it was stored.</summary>
    internal abstract Guid GuidAt(DbDataReader reader, int column);

    /// <summary>Lets nobody else take photos in until the transaction ends, for their sum is limited.</summary>
    internal abstract Task LockShopAsync(CommandSet commands);

    /// <summary>Locks and looks up together what a transaction will need, where each question costs a way over the network.</summary>
    internal abstract Task LookAheadAsync(
        WriteTransaction transaction,
        IReadOnlyList<WriteWork> works
    );

    /// <summary>Tells other servers on this database, when the transaction commits.</summary>
    internal abstract Task AnnounceAsync(CommandSet commands, LogId log, long receipt);

    /// <summary>Deletes copies that were made before a change of the tables: what is erased must not stay in them.</summary>
    internal virtual void DropCopies() { }

    /// <summary>Makes erased bytes vanish from the files, as far as the database can.</summary>
    /// <param name="connection">The writer's.</param>
    /// <param name="hasErasedMore">Whether something was erased since this was called last.</param>
    internal abstract Task<ErasedBytes> PurgeAsync(DbConnection connection, bool hasErasedMore);

    /// <summary>Watches for what other servers write; does nothing where there can be none.</summary>
    internal abstract IAsyncDisposable? Listen(ChangeFeed feed);

    /// <summary>How words of jobs are kept and found.</summary>
    internal abstract JobIndexSql JobIndex { get; }

    /// <summary>
    /// Has the statements of a transaction planned for what they are asked with: few words are rare and many are common, and no
    /// plan is good for both.
    /// </summary>
    internal virtual Task PlanByValuesAsync(CommandSet commands) => Task.CompletedTask;

    /// <summary>What the database's own check says; empty if all is well.</summary>
    internal abstract Task<IReadOnlyList<string>> CheckAsync(CancellationToken cancellation);

    /// <summary>Whether the tables are there.</summary>
    internal Task<bool> HasTablesAsync(CommandSet commands) => HasTableAsync(commands, "Epochs");

    /// <summary>Whether a table is there; one that a later version brought is missing in an older backup.</summary>
    internal abstract Task<bool> HasTableAsync(CommandSet commands, string table);

    /// <summary>Writes all data of one moment to a file in a folder.</summary>
    internal abstract Task<BackupManifest> BackUpAsync(
        string folder,
        long nowTicks,
        CancellationToken cancellation
    );

    /// <summary>What an exception means; null if it is none of the database's.</summary>
    internal abstract StoreFaultException? FaultOf(Exception exception);

    /// <summary>What an exception while reading means: also that a row holds what was never written there.</summary>
    internal StoreFaultException? ReadingFaultOf(Exception exception) =>
        exception as StoreFaultException
        ?? FaultOf(exception)
        ?? (
            exception
                is (InvalidOperationException and not ObjectDisposedException)
                    or InvalidCastException
                    or FormatException
                    or OverflowException
                    or ArgumentException
                ? StoreFaultException.Of(
                    StoreFaultKind.Damaged,
                    Texts.Get("store.row", Place, exception.Message),
                    exception
                )
                : null
        );

    /// <summary>What an exception while reading means, whatever it is.</summary>
    internal StoreFaultException AnyFaultOf(Exception exception) =>
        ReadingFaultOf(exception) ?? Unforeseen(exception);

    /// <summary>What an exception while writing means: there it says nothing of what lies in the rows.</summary>
    internal StoreFaultException WritingFaultOf(Exception exception) =>
        exception as StoreFaultException ?? FaultOf(exception) ?? Unforeseen(exception);

    public abstract ValueTask DisposeAsync();

    private StoreFaultException Unforeseen(Exception exception) =>
        StoreFaultException.Of(
            StoreFaultKind.Unforeseen,
            Texts.Get("store.unforeseen", Place, exception.Message),
            exception
        );

    /// <summary>Apart from where it is called, so that a start without it does not load the model of the tables.</summary>
    protected async Task MigrateAsync(CancellationToken cancellation)
    {
        await using var context = NewContext();
        await context.Database.MigrateAsync(cancellation).ConfigureAwait(false);
    }
}
