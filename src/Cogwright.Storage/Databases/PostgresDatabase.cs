using System.Data;
using System.Data.Common;
using System.Globalization;
using System.Net.Sockets;
using Cogwright.Log;
using Microsoft.EntityFrameworkCore;
using Npgsql;

namespace Cogwright.Storage;

/// <summary>PostgreSQL, in a schema of its own. Any number of servers may share it.</summary>
internal sealed class PostgresDatabase : ShopDatabase
{
    /// <summary>The name under which servers tell one another that a log has grown.</summary>
    internal const string Channel = "cogwright_log";

    /// <summary>What a backup calls this database.</summary>
    internal const string Kind = "postgresql";

    private const string DumpFileName = "shop.pgdump";

    // Any number that nobody else on this database locks: the letters "CWST", and which lock it is.
    private const long TablesLock = 0x4357535400000001;
    private const long ShopLock = 0x4357535400000002;
    private const long HereLock = 0x4357535400000003;

    private const int PurgeWaitMilliseconds = 200;
    private const int PreparedStatements = 40;
    private const int KeepAliveSeconds = 5;

    private readonly NpgsqlDataSource source;
    private string? erasedBefore;

    internal PostgresDatabase(StoreOptions options)
        : base(options)
    {
        NpgsqlConnectionStringBuilder builder;
        try
        {
            builder = new NpgsqlConnectionStringBuilder(options.ConnectionString);
        }
        catch (Exception e) when (e is ArgumentException or FormatException)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Unreachable,
                Texts.Get("postgres.connectionString", e.Message),
                e
            );
        }
        builder.SearchPath = PostgresStoreContext.Schema;
        builder.MaxAutoPrepare = PreparedStatements;
        if (builder.KeepAlive is 0 or > KeepAliveSeconds)
        {
            builder.KeepAlive = KeepAliveSeconds;
        }
        // What one user of a connection has set must not meet the next one, nor locks be left in the pool.
        builder.NoResetOnClose = false;
        builder.Multiplexing = false;
        builder.ApplicationName ??= "cogwright";
        // Whatever the server's default is or the connection string says, for of two settings the last one counts: an answer is
        // given only for what is on its disk.
        builder.Options = string.Create(
                CultureInfo.InvariantCulture,
                $"{builder.Options} -c synchronous_commit=on -c lock_timeout={options.LockWaitSeconds}s"
            )
            .Trim();
        Place = $"{builder.Host}:{builder.Port}/{builder.Database}";
        source = NpgsqlDataSource.Create(builder);
    }

    internal override string Place { get; }

    protected override async Task PrepareAsync(
        DbConnection connection,
        CancellationToken cancellation
    )
    {
        using var commands = new CommandSet(this, connection);
        var sync = await commands.ScalarAsync("SHOW fsync").ConfigureAwait(false);
        if (sync is not "on")
        {
            throw StoreFaultException.Of(
                StoreFaultKind.Unsafe,
                Texts.Get("postgres.noSync", Place)
            );
        }
        if (await MissingAsync(commands, cancellation).ConfigureAwait(false) == 0)
        {
            return;
        }
        // Several servers may begin at once: one brings the tables up, the others wait and find it done.
        await commands
            .RunAsync("SELECT pg_advisory_lock(@lock)", ("lock", TablesLock))
            .ConfigureAwait(false);
        try
        {
            if (await MissingAsync(commands, cancellation).ConfigureAwait(false) > 0)
            {
                await MigrateAsync(cancellation).ConfigureAwait(false);
            }
        }
        finally
        {
            await commands
                .RunAsync("SELECT pg_advisory_unlock(@lock)", ("lock", TablesLock))
                .ConfigureAwait(false);
        }
    }

    internal override async Task<DbConnection> OpenAsync(CancellationToken cancellation) =>
        await source.OpenConnectionAsync(cancellation).ConfigureAwait(false);

    /// <summary>The same, for as long as it lives known to whoever wants to restore.</summary>
    internal override async Task<DbConnection> OpenForWritingAsync(CancellationToken cancellation)
    {
        var connection = await OpenAsync(cancellation).ConfigureAwait(false);
        try
        {
            using var commands = new CommandSet(this, connection);
            await commands
                .RunAsync("SELECT pg_advisory_lock_shared(@lock)", ("lock", HereLock))
                .ConfigureAwait(false);
            return connection;
        }
        catch
        {
            await connection.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <summary>Keeps every server out for as long as the connection lives, if none is here.</summary>
    /// <returns>How many are here; 0: they are kept out.</returns>
    internal static async Task<long> KeepOthersOutAsync(CommandSet commands)
    {
        var isAlone = await commands
            .ScalarAsync("SELECT pg_try_advisory_lock(@lock)", ("lock", HereLock))
            .ConfigureAwait(false);
        return isAlone is true
            ? 0
            : Math.Max(
                1,
                (long)
                    (
                        await commands
                            .ScalarAsync(
                                """
                                SELECT COUNT(*) FROM pg_locks
                                WHERE "locktype" = 'advisory' AND "granted" AND "objsubid" = 1
                                AND "database" = (SELECT "oid" FROM pg_database WHERE "datname" = current_database())
                                AND "classid" = @high::oid AND "objid" = @low::oid
                                """,
                                ("high", HereLock >> 32),
                                ("low", HereLock & uint.MaxValue)
                            )
                            .ConfigureAwait(false)
                    )!
            );
    }

    internal override async Task<DbTransaction> BeginWritingAsync(DbConnection connection) =>
        await connection.BeginTransactionAsync(IsolationLevel.ReadCommitted).ConfigureAwait(false);

    internal override async Task<DbTransaction> BeginReadingAsync(
        DbConnection connection,
        CancellationToken cancellation
    ) =>
        await connection
            .BeginTransactionAsync(IsolationLevel.RepeatableRead, cancellation)
            .ConfigureAwait(false);

    internal override StoreContext NewContext() =>
        new PostgresStoreContext(
            new DbContextOptionsBuilder<PostgresStoreContext>()
                .UseNpgsql(
                    source,
                    npgsql =>
                        npgsql.MigrationsHistoryTable(
                            "__EFMigrationsHistory",
                            PostgresStoreContext.Schema
                        )
                )
                .Options
        );

    internal override object Value(Guid id) => id;

    internal override Guid GuidAt(DbDataReader reader, int column) => reader.GetGuid(column);

    internal override Task LockShopAsync(CommandSet commands) =>
        commands.RunAsync("SELECT pg_advisory_xact_lock(@lock)", ("lock", ShopLock));

    internal override Task LookAheadAsync(
        WriteTransaction transaction,
        IReadOnlyList<WriteWork> works
    ) => PostgresLookAhead.RunAsync(transaction, works);

    internal override Task AnnounceAsync(CommandSet commands, LogId log, long receipt) =>
        commands.LaterAsync(
            "SELECT pg_notify(@channel, @said)",
            ("channel", Channel),
            ("said", string.Create(CultureInfo.InvariantCulture, $"{log} {receipt}"))
        );

    internal override async Task<ErasedBytes> PurgeAsync(
        DbConnection connection,
        bool hasErasedMore
    )
    {
        using var commands = new CommandSet(this, connection);
        if (hasErasedMore || erasedBefore is null)
        {
            erasedBefore = (string)
                (
                    await commands
                        .ScalarAsync("SELECT pg_snapshot_xmax(pg_current_snapshot())::text")
                        .ConfigureAwait(false)
                )!;
        }
        // VACUUM leaves what somebody can still see, and does not say so: a backup, an export, a forgotten transaction.
        var isSeen = await commands
            .ScalarAsync(
                """
                SELECT EXISTS (
                    SELECT 1 FROM pg_stat_activity
                    WHERE datname = current_database() AND pid <> pg_backend_pid() AND backend_type = 'client backend'
                    AND age(backend_xmin) > age((@before::bigint & 4294967295)::text::xid))
                """,
                ("before", erasedBefore)
            )
            .ConfigureAwait(false);
        if (isSeen is true)
        {
            return ErasedBytes.Waiting;
        }
        // Another server may be at it; others want to write meanwhile: little waiting, tried again.
        await commands
            .RunAsync($"SET lock_timeout = {PurgeWaitMilliseconds}")
            .ConfigureAwait(false);
        await commands.RunAsync("""VACUUM "Personal" """).ConfigureAwait(false);
        await commands.RunAsync("""VACUUM "JobSaid" """).ConfigureAwait(false);
        // An index of words keeps a word that no row has any more, for good: only a new one is without it. So do the planner's
        // statistics, of a table that is empty even when they are made again: a change of type, here to the same one, drops them
        // and rewrites nothing. Search wants new ones at once.
        foreach (
            var renewal in (string[])
                [
                    """ALTER TABLE "JobSaid" ALTER "Words" TYPE tsvector""",
                    """REINDEX INDEX "IX_JobSaid_Words" """,
                    """ANALYZE "JobSaid" """,
                ]
        )
        {
            await commands.RunAsync(renewal).ConfigureAwait(false);
        }
        await commands.RunAsync("RESET lock_timeout").ConfigureAwait(false);
        return ErasedBytes.InDatabaseLog;
    }

    internal override JobIndexSql JobIndex => JobIndexSql.Postgres;

    internal override Task PlanByValuesAsync(CommandSet commands) =>
        commands.RunAsync("SET LOCAL plan_cache_mode = force_custom_plan");

    internal override IAsyncDisposable? Listen(ChangeFeed feed) =>
        new PostgresListener(source, feed);

    internal override Task<IReadOnlyList<string>> CheckAsync(CancellationToken cancellation) =>
        Task.FromResult<IReadOnlyList<string>>([]);

    internal override async Task<bool> HasTableAsync(CommandSet commands, string table) =>
        await commands
            .ScalarAsync(
                "SELECT to_regclass(@name)::text",
                ("name", $"{PostgresStoreContext.Schema}.\"{table}\"")
            )
            .ConfigureAwait(false) is string;

    internal override async Task<BackupManifest> BackUpAsync(
        string folder,
        long nowTicks,
        CancellationToken cancellation
    )
    {
        await using var connection = await OpenAsync(cancellation).ConfigureAwait(false);
        await using var transaction = await BeginReadingAsync(connection, cancellation)
            .ConfigureAwait(false);
        using var commands = new CommandSet(this, connection) { Transaction = transaction };
        // pg_dump sees the very moment that is described.
        var snapshot = (string)
            (await commands.ScalarAsync("SELECT pg_export_snapshot()").ConfigureAwait(false))!;
        var described = await Backup
            .DescribeAsync(this, connection, transaction, (Kind, nowTicks))
            .ConfigureAwait(false);
        var path = Path.Combine(folder, DumpFileName);
        await PostgresPrograms
            .DumpAsync(
                Options.ConnectionString!,
                [
                    "--format=custom",
                    "--schema=" + PostgresStoreContext.Schema,
                    // Worked out from the logs, and again where it is restored.
                    .. Projection.Tables.Select(table =>
                        $"--exclude-table-data={PostgresStoreContext.Schema}.\"{table}\""
                    ),
                    "--snapshot=" + snapshot,
                    "--file=" + path,
                ],
                cancellation
            )
            .ConfigureAwait(false);
        return await Backup.SealAsync(described, path, cancellation).ConfigureAwait(false);
    }

    internal override StoreFaultException? FaultOf(Exception exception)
    {
        for (var e = exception; e is not null; e = e.InnerException)
        {
            if (e is PostgresException postgres)
            {
                return Of(postgres);
            }
            if (e is NpgsqlException or SocketException)
            {
                return StoreFaultException.Of(
                    StoreFaultKind.Unreachable,
                    Texts.Get("postgres.unreachable", Place, e.Message),
                    e
                );
            }
        }
        return null;
    }

    public override async ValueTask DisposeAsync() =>
        await source.DisposeAsync().ConfigureAwait(false);

    private async Task<int> MissingAsync(CommandSet commands, CancellationToken cancellation)
    {
        var applied = new List<string>();
        var history = await commands
            .ScalarAsync(
                "SELECT to_regclass(@name)::text",
                ("name", $"{PostgresStoreContext.Schema}.\"__EFMigrationsHistory\"")
            )
            .ConfigureAwait(false);
        if (history is string)
        {
            using var reader = await commands
                .ReadAsync("""SELECT "MigrationId" FROM "__EFMigrationsHistory" """)
                .ConfigureAwait(false);
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                applied.Add(reader.GetString(0));
            }
        }
        return MigrationList.Missing(MigrationList.Postgres, applied, Place).Count;
    }

    // The codes are PostgreSQL's (its manual, appendix A).
    private StoreFaultException Of(PostgresException e)
    {
        var (kind, text) = e.SqlState switch
        {
            PostgresErrorCodes.LockNotAvailable or PostgresErrorCodes.DeadlockDetected => (
                StoreFaultKind.Locked,
                Texts.Get("postgres.locked", Place, e.MessageText)
            ),
            PostgresErrorCodes.DiskFull => (
                StoreFaultKind.Full,
                Texts.Get("postgres.full", Place, e.MessageText)
            ),
            PostgresErrorCodes.DataCorrupted or PostgresErrorCodes.IndexCorrupted => (
                StoreFaultKind.Damaged,
                Texts.Get("postgres.damaged", Place, e.MessageText)
            ),
            ['2', '8', ..] or ['3', 'D', ..] or ['4', '2', '5', '0', '1'] => (
                StoreFaultKind.Inaccessible,
                Texts.Get("postgres.refused", Place, e.MessageText)
            ),
            ['0', '8', ..] or ['5', '7', 'P', ..] or ['5', '3', '3', ..] => (
                StoreFaultKind.Unreachable,
                Texts.Get("postgres.unreachable", Place, e.MessageText)
            ),
            _ => (StoreFaultKind.Unforeseen, Texts.Get("store.unforeseen", Place, e.MessageText)),
        };
        return StoreFaultException.Of(kind, text, e);
    }
}
