using System.Data;
using System.Data.Common;
using System.Globalization;
using Cogwright.Log;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage;

/// <summary>SQLite in the data folder: write-ahead log, every commit on the disk before it is acknowledged.</summary>
internal sealed class SqliteDatabase : ShopDatabase
{
    /// <summary>"CWST" in the file's header: tells our file from another program's.</summary>
    internal const int ApplicationId = 0x43575354;

    // Some 64 MB: as much as a restart reads in a second.
    private const int WalBytes = 64 * 1024 * 1024;

    /// <summary>What a backup calls this database.</summary>
    internal const string Kind = "sqlite";

    private const int PurgeWaitMilliseconds = 20;
    private const string CopyName = "before-";

    private readonly string pooled;
    private readonly string unpooled;
    private readonly FileStream? owner;
    private readonly bool isCopy;
    private bool hasLooked;

    private SqliteDatabase(StoreOptions options, string path, bool isCopy, FileStream? owner)
        : base(options)
    {
        var builder = new SqliteConnectionStringBuilder
        {
            // Immutable: not even a lock or a file beside it is made.
            DataSource = isCopy ? new Uri(path).AbsoluteUri + "?immutable=1" : path,
            DefaultTimeout = options.LockWaitSeconds,
            Mode =
                isCopy ? SqliteOpenMode.ReadOnly
                : owner is null ? SqliteOpenMode.ReadWrite
                : SqliteOpenMode.ReadWriteCreate,
            Pooling = owner is not null,
        };
        pooled = builder.ConnectionString;
        builder.Pooling = false;
        unpooled = builder.ConnectionString;
        Place = path;
        this.isCopy = isCopy;
        this.owner = owner;
    }

    /// <summary>The database of a data folder, which becomes this process's own.</summary>
    internal static SqliteDatabase Owned(StoreOptions options) =>
        new(options, options.DatabasePath, false, SqliteFile.Own(options.DataFolder));

    /// <summary>The database of a data folder, which may be another process's.</summary>
    internal static SqliteDatabase Unowned(StoreOptions options) =>
        new(options, options.DatabasePath, false, null);

    /// <summary>A finished copy, in which nothing may be changed.</summary>
    internal static SqliteDatabase OfCopy(StoreOptions options, string path) =>
        new(options, path, true, null);

    /// <summary>A copy on its way to a data folder.</summary>
    internal static SqliteDatabase Arriving(StoreOptions options, string path) =>
        new(options, path, false, null);

    internal override string Place { get; }

    protected override async Task PrepareAsync(
        DbConnection connection,
        CancellationToken cancellation
    )
    {
        using var commands = new CommandSet(this, connection);
        // No page: also a file whose first write was cut short, and taken back by SQLite just now.
        if (await commands.ScalarAsync("PRAGMA page_count").ConfigureAwait(false) is 0L)
        {
            await commands
                .RunAsync(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"PRAGMA application_id = {ApplicationId}"
                    )
                )
                .ConfigureAwait(false);
        }
        else if (
            await commands.ScalarAsync("PRAGMA application_id").ConfigureAwait(false)
            is not (long)ApplicationId
        )
        {
            throw StoreFaultException.Of(
                StoreFaultKind.NotOurs,
                Texts.Get("sqlite.notOurs", Place)
            );
        }
        var mode = await commands.ScalarAsync("PRAGMA journal_mode = WAL").ConfigureAwait(false);
        if (mode is not "wal")
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Unsafe,
                Texts.Get("sqlite.noWal", Place, mode)
            );
        }
        var applied = new List<string>();
        var hasHistory = await commands
            .ScalarAsync(
                """SELECT 1 FROM sqlite_master WHERE name = '__EFMigrationsHistory' AND type = 'table'"""
            )
            .ConfigureAwait(false);
        if (hasHistory is not null)
        {
            using var reader = await commands
                .ReadAsync("""SELECT "MigrationId" FROM "__EFMigrationsHistory" """)
                .ConfigureAwait(false);
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                applied.Add(reader.GetString(0));
            }
        }
        var missing = MigrationList.Missing(MigrationList.Sqlite, applied, Place);
        if (missing.Count == 0)
        {
            return;
        }
        if (applied.Count > 0)
        {
            // A change of the tables is the one moment at which a fault of ours could spoil everything.
            await KeepCopyAsync((SqliteConnection)connection, missing[0]).ConfigureAwait(false);
        }
        // Entity Framework locks by a row, which a process that was killed meanwhile leaves, and waits for it without end. The
        // folder is this process's own: whoever wrote that row lives no more.
        await commands
            .RunAsync("""DROP TABLE IF EXISTS "__EFMigrationsLock" """)
            .ConfigureAwait(false);
        await MigrateAsync(cancellation).ConfigureAwait(false);
    }

    internal override Task<DbConnection> OpenAsync(CancellationToken cancellation) =>
        OpenAsync(pooled, cancellation);

    internal override Task<DbConnection> OpenForWritingAsync(CancellationToken cancellation)
    {
        // Only before the first connection: on Unix, to close a file that SQLite has open lets go of its locks.
        if (owner is not null && !hasLooked)
        {
            SqliteFile.Look(Place);
            hasLooked = true;
        }
        return OpenAsync(unpooled, cancellation);
    }

    // Not deferred: a transaction that begins as a reader could find at its first write that somebody was faster.
    internal override Task<DbTransaction> BeginWritingAsync(DbConnection connection) =>
        Task.FromResult<DbTransaction>(
            ((SqliteConnection)connection).BeginTransaction(
                IsolationLevel.Serializable,
                deferred: false
            )
        );

    internal override Task<DbTransaction> BeginReadingAsync(
        DbConnection connection,
        CancellationToken cancellation
    ) =>
        Task.FromResult<DbTransaction>(
            ((SqliteConnection)connection).BeginTransaction(
                IsolationLevel.Serializable,
                deferred: true
            )
        );

    internal override StoreContext NewContext() =>
        new SqliteStoreContext(
            new DbContextOptionsBuilder<SqliteStoreContext>()
                .UseSqlite(pooled)
                .AddInterceptors(new SqliteSettings(Pragmas))
                .Options
        );

    internal override object Value(Guid id) => id.ToByteArray(bigEndian: true);

    internal override Guid GuidAt(DbDataReader reader, int column) =>
        new(reader.GetFieldValue<byte[]>(column), bigEndian: true);

    internal override Task LockShopAsync(CommandSet commands) => Task.CompletedTask;

    internal override Task LookAheadAsync(
        WriteTransaction transaction,
        IReadOnlyList<WriteWork> works
    ) => Task.CompletedTask;

    internal override Task AnnounceAsync(CommandSet commands, LogId log, long receipt) =>
        Task.CompletedTask;

    internal override void DropCopies()
    {
        foreach (var copy in Copies())
        {
            File.Delete(copy);
        }
    }

    internal override async Task<ErasedBytes> PurgeAsync(
        DbConnection connection,
        bool hasErasedMore
    )
    {
        // secure_delete has put zeros into the pages; until they are in the file, the old ones are in the write-ahead log. A
        // reader can be in the way for as long as an export takes, and others want to write meanwhile: little waiting, tried again.
        using var commands = new CommandSet(this, connection);
        await commands
            .RunAsync($"PRAGMA busy_timeout = {PurgeWaitMilliseconds}")
            .ConfigureAwait(false);
        try
        {
            return
                await commands.ScalarAsync("PRAGMA wal_checkpoint(TRUNCATE)").ConfigureAwait(false)
                    is 0L
                ? ErasedBytes.Gone
                : ErasedBytes.Waiting;
        }
        finally
        {
            await commands
                .RunAsync(
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"PRAGMA busy_timeout = {Options.LockWaitSeconds * 1000}"
                    )
                )
                .ConfigureAwait(false);
        }
    }

    internal override JobIndexSql JobIndex => JobIndexSql.Sqlite;

    internal override IAsyncDisposable? Listen(ChangeFeed feed) => null;

    internal override async Task<IReadOnlyList<string>> CheckAsync(CancellationToken cancellation)
    {
        var found = new List<string>();
        await using var connection = await OpenAsync(cancellation).ConfigureAwait(false);
        foreach (var pragma in (string[])["PRAGMA integrity_check", "PRAGMA foreign_key_check"])
        {
            await using var command = connection.CreateCommand();
#pragma warning disable CA2100 // Two constants.
            command.CommandText = pragma;
#pragma warning restore CA2100
            await using var reader = await command
                .ExecuteReaderAsync(cancellation)
                .ConfigureAwait(false);
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                if (reader.GetString(0) is not "ok" and var said)
                {
                    found.Add(said);
                }
            }
        }
        return found;
    }

    internal override async Task<bool> HasTableAsync(CommandSet commands, string table) =>
        await commands
            .ScalarAsync(
                """SELECT 1 FROM sqlite_master WHERE name = @name AND type = 'table'""",
                ("name", table)
            )
            .ConfigureAwait(false)
            is not null;

    internal override async Task<BackupManifest> BackUpAsync(
        string folder,
        long nowTicks,
        CancellationToken cancellation
    )
    {
        var path = Path.Combine(folder, StoreOptions.DatabaseFileName);
        await using (var from = await OpenAsync(cancellation).ConfigureAwait(false))
        {
            await SqliteFile.CopyAsync((SqliteConnection)from, path).ConfigureAwait(false);
        }
        await using var copy = OfCopy(Options, path);
        await using var connection = await copy.OpenAsync(cancellation).ConfigureAwait(false);
        var described = await Backup
            .DescribeAsync(copy, connection, null, (Kind, nowTicks))
            .ConfigureAwait(false);
        return await Backup.SealAsync(described, path, cancellation).ConfigureAwait(false);
    }

    internal override StoreFaultException? FaultOf(Exception exception) =>
        SqliteFile.FaultOf(exception, Place);

    public override async ValueTask DisposeAsync()
    {
        if (owner is null)
        {
            return;
        }
        using (var connection = new SqliteConnection(pooled))
        {
            SqliteConnection.ClearPool(connection);
        }
        await owner.DisposeAsync().ConfigureAwait(false);
    }

    /// <summary>Copies the database as it is before a change of the tables; the copy takes the place of older ones.</summary>
    private async Task KeepCopyAsync(SqliteConnection connection, string change)
    {
        var copy = Path.Combine(Options.DataFolder, $"{CopyName}{change}.db");
        var part = copy + ".part";
        File.Delete(part);
        await SqliteFile.CopyAsync(connection, part).ConfigureAwait(false);
        File.Move(part, copy, overwrite: true);
        FolderSync.Folder(Options.DataFolder);
        foreach (var older in Copies().Where(each => each != copy))
        {
            File.Delete(older);
        }
    }

    private IEnumerable<string> Copies() =>
        Directory.EnumerateFiles(Options.DataFolder, CopyName + "*");

    private string Pragmas =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"""
            PRAGMA busy_timeout = {Options.LockWaitSeconds * 1000};
            {(isCopy ? "PRAGMA query_only = ON;" : "")}
            PRAGMA synchronous = {Options.SqliteSynchronous};
            PRAGMA foreign_keys = ON;
            PRAGMA secure_delete = ON;
            PRAGMA journal_size_limit = {WalBytes};
            {(Options.SqliteMostPages is { } pages ? $"PRAGMA max_page_count = {pages};" : "")}
            """
        );

    private async Task<DbConnection> OpenAsync(string connection, CancellationToken cancellation)
    {
        var open = new SqliteConnection(connection);
        try
        {
            await open.OpenAsync(cancellation).ConfigureAwait(false);
            await using var command = open.CreateCommand();
#pragma warning disable CA2100 // Made of constants and numbers.
            command.CommandText = Pragmas;
#pragma warning restore CA2100
            await command.ExecuteNonQueryAsync(cancellation).ConfigureAwait(false);
            return open;
        }
        catch
        {
            await open.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }
}
