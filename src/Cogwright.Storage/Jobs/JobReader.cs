using System.Collections.Immutable;
using System.Data.Common;
using System.Runtime.CompilerServices;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Reads what logs were worked out to, each call over a connection of its own.</summary>
internal sealed class JobReader(ShopDatabase database)
{
    private const string Columns = """
        "Log", "Job", "Bike", "Title", "Kind", "Stage", "InHandsOf", "Waits", "BegunTicks", "LastTicks", "ClosedTicks", "DueDay",
        "Due", "Cause", "ComebackOf", "IntakeSeconds", "CompatibilitySeconds", "TargetsSeconds", "SetUpSeconds", "TestSeconds",
        "HandoverSeconds", "AftercareSeconds", "PauseSeconds"
        """;

    private const int NumberAfterColumns = 23;

    private const string IsStale = """
        "l"."LastReceipt" > 0 AND ("f"."Log" IS NULL OR "f"."Receipt" < "l"."LastReceipt" OR "f"."Version" < @version)
        """;

    /// <summary>Logs that are to be worked out (anew), those that came first first.</summary>
    internal async Task<ImmutableArray<LogId>> StaleAsync(
        int version,
        int most,
        CancellationToken cancellation
    )
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        using var reader = await commands
            .ReadAsync(
                $"""
                SELECT "l"."Id" FROM "Logs" AS "l" LEFT JOIN "FoldedLogs" AS "f" ON "f"."Log" = "l"."Id"
                WHERE {IsStale} ORDER BY "l"."CreatedTicks", "l"."Id" LIMIT @most
                """,
                ("version", version),
                ("most", (long)most)
            )
            .ConfigureAwait(false);
        return await AllAsync(reader, row => new LogId(database.GuidAt(row, 0)), cancellation)
            .ConfigureAwait(false);
    }

    /// <summary>Whether a log is to be worked out (anew).</summary>
    internal async Task<bool> IsStaleAsync(LogId log, int version, CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        return await commands
            .ScalarAsync(
                $"""
                SELECT 1 FROM "Logs" AS "l" LEFT JOIN "FoldedLogs" AS "f" ON "f"."Log" = "l"."Id"
                WHERE "l"."Id" = @log AND {IsStale}
                """,
                ("version", version),
                ("log", log.Value)
            )
            .ConfigureAwait(false)
            is not null;
    }

    internal async Task<StoredOverview> OverviewAsync(
        OverviewQuestion asked,
        int version,
        CancellationToken cancellation
    )
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        await using var transaction = await database
            .BeginReadingAsync(connection, cancellation)
            .ConfigureAwait(false);
        using var commands = new CommandSet(database, connection) { Transaction = transaction };
        return new StoredOverview(
            await StandingAsync(commands, cancellation).ConfigureAwait(false),
            await JobsAsync(
                    commands,
                    """WHERE "ClosedTicks" IS NULL AND "Job" <> '' ORDER BY "LastTicks", "Number" """,
                    asked.Most,
                    cancellation
                )
                .ConfigureAwait(false),
            await JobsAsync(
                    commands,
                    """WHERE "DueDay" <= @day ORDER BY "DueDay", "Number" """,
                    asked.Most,
                    cancellation,
                    ("day", asked.DueUntil.DayNumber)
                )
                .ConfigureAwait(false),
            await ComebacksAsync(commands, asked.SinceTicks, cancellation).ConfigureAwait(false),
            await JobsAsync(
                    commands,
                    """WHERE "Cause" > '' AND "BegunTicks" >= @since ORDER BY "BegunTicks" DESC, "Number" """,
                    asked.Most,
                    cancellation,
                    ("since", asked.SinceTicks)
                )
                .ConfigureAwait(false),
            await TimesAsync(commands, asked.SinceTicks, cancellation).ConfigureAwait(false),
            await CountAsync(
                    commands,
                    """SELECT COUNT(*) FROM "Jobs" WHERE "ClosedTicks" >= @since""",
                    ("since", asked.SinceTicks)
                )
                .ConfigureAwait(false),
            await CountAsync(
                    commands,
                    $"""
                    SELECT COUNT(*) FROM "Logs" AS "l" LEFT JOIN "FoldedLogs" AS "f" ON "f"."Log" = "l"."Id" WHERE {IsStale}
                    """,
                    ("version", version)
                )
                .ConfigureAwait(false)
        );
    }

    /// <summary>Jobs and bikes that have a word beginning with each of the asked ones.</summary>
    internal async Task<FoundJobs> FindAsync(
        string question,
        bool withSaid,
        int most,
        CancellationToken cancellation
    )
    {
        var asked = SearchWords.Asked(question);
        if (asked.IsEmpty)
        {
            return new FoundJobs([], false);
        }
        var index = database.JobIndex;
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        await using var transaction = await database
            .BeginReadingAsync(connection, cancellation)
            .ConfigureAwait(false);
        using var commands = new CommandSet(database, connection) { Transaction = transaction };
        await database.PlanByValuesAsync(commands).ConfigureAwait(false);
        var found = new SortedDictionary<long, ListedJob>();
        foreach (var find in withSaid ? (string[])[index.Find, index.FindSaid] : [index.Find])
        {
            using var reader = await commands
                .ReadAsync(
                    $"""SELECT {Columns}, "Number" FROM "Jobs" WHERE "Number" IN ({find})""",
                    ("query", index.Query(asked)),
                    ("most", most + 1L)
                )
                .ConfigureAwait(false);
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                found[reader.GetInt64(NumberAfterColumns)] = JobAt(reader);
            }
        }
        return new FoundJobs([.. found.Values.Reverse().Take(most)], found.Count > most);
    }

    /// <summary>All jobs, oldest first, as of one moment, one after the other.</summary>
    internal async IAsyncEnumerable<ListedJob> EveryAsync(
        [EnumeratorCancellation] CancellationToken cancellation
    )
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        using var reader = await commands
            .ReadAsync(
                $"""SELECT {Columns} FROM "Jobs" WHERE "Job" <> '' ORDER BY "BegunTicks", "Number" """
            )
            .ConfigureAwait(false);
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            yield return JobAt(reader);
        }
    }

    private static Task<ImmutableArray<StandingJobs>> StandingAsync(
        CommandSet commands,
        CancellationToken cancellation
    ) =>
        RowsAsync(
            commands,
            """
            SELECT "Stage", "InHandsOf", COUNT(*) FROM "Jobs" WHERE "ClosedTicks" IS NULL AND "Job" <> ''
            GROUP BY "Stage", "InHandsOf" ORDER BY "Stage", "InHandsOf"
            """,
            row => new StandingJobs(row.GetString(0), row.GetString(1), row.GetInt64(2)),
            cancellation
        );

    private static Task<ImmutableArray<ComebackCount>> ComebacksAsync(
        CommandSet commands,
        long sinceTicks,
        CancellationToken cancellation
    ) =>
        RowsAsync(
            commands,
            """
            SELECT "Cause", COUNT(*) FROM "Jobs" WHERE "Cause" > '' AND "BegunTicks" >= @since
            GROUP BY "Cause" ORDER BY COUNT(*) DESC, "Cause"
            """,
            row => new ComebackCount(row.GetString(0), row.GetInt64(1)),
            cancellation,
            ("since", sinceTicks)
        );

    private static Task<ImmutableArray<KindTimes>> TimesAsync(
        CommandSet commands,
        long sinceTicks,
        CancellationToken cancellation
    ) =>
        RowsAsync(
            commands,
            """
            SELECT "Kind", COUNT(*), CAST(SUM("IntakeSeconds") AS BIGINT), CAST(SUM("CompatibilitySeconds") AS BIGINT),
                CAST(SUM("TargetsSeconds") AS BIGINT), CAST(SUM("SetUpSeconds") AS BIGINT), CAST(SUM("TestSeconds") AS BIGINT),
                CAST(SUM("HandoverSeconds") AS BIGINT), CAST(SUM("AftercareSeconds") AS BIGINT),
                CAST(SUM("PauseSeconds") AS BIGINT)
            FROM "Jobs" WHERE "ClosedTicks" >= @since GROUP BY "Kind" ORDER BY "Kind"
            """,
            row => new KindTimes(
                row.GetString(0),
                row.GetInt64(1),
                SecondsAt(row, 2),
                row.GetInt64(9)
            ),
            cancellation,
            ("since", sinceTicks)
        );

    private Task<ImmutableArray<ListedJob>> JobsAsync(
        CommandSet commands,
        string which,
        int most,
        CancellationToken cancellation,
        params (string Name, object? Value)[] values
    ) =>
        RowsAsync(
            commands,
            $"""SELECT {Columns} FROM "Jobs" {which} LIMIT @most""",
            JobAt,
            cancellation,
            [.. values, ("most", (long)most)]
        );

    private static async Task<ImmutableArray<T>> RowsAsync<T>(
        CommandSet commands,
        string sql,
        Func<DbDataReader, T> row,
        CancellationToken cancellation,
        params (string Name, object? Value)[] values
    )
    {
        using var reader = await commands.ReadAsync(sql, values).ConfigureAwait(false);
        return await AllAsync(reader, row, cancellation).ConfigureAwait(false);
    }

    private static async Task<ImmutableArray<T>> AllAsync<T>(
        DbDataReader reader,
        Func<DbDataReader, T> row,
        CancellationToken cancellation
    )
    {
        var rows = ImmutableArray.CreateBuilder<T>();
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            rows.Add(row(reader));
        }
        return rows.ToImmutable();
    }

    private static async Task<long> CountAsync(
        CommandSet commands,
        string sql,
        params (string Name, object? Value)[] values
    ) => (long)(await commands.ScalarAsync(sql, values).ConfigureAwait(false))!;

    private ListedJob JobAt(DbDataReader row) =>
        new(new LogId(database.GuidAt(row, 0)), row.GetString(1), row.GetString(2))
        {
            Title = row.GetString(3),
            Kind = row.GetString(4),
            Stage = row.GetString(5),
            InHandsOf = row.GetString(6),
            Waits = row.GetString(7),
            BegunTicks = row.GetInt64(8),
            LastTicks = row.GetInt64(9),
            ClosedTicks = row.IsDBNull(10) ? null : row.GetInt64(10),
            DueOn = row.IsDBNull(11) ? null : DateOnly.FromDayNumber(row.GetInt32(11)),
            Due = row.GetString(12),
            Cause = row.GetString(13),
            ComebackOf = row.GetString(14),
            StageSeconds = SecondsAt(row, 15),
            PauseSeconds = row.GetInt64(22),
        };

    private static ImmutableArray<long> SecondsAt(DbDataReader row, int first) =>
        [.. Enumerable.Range(first, ListedJob.Stages).Select(row.GetInt64)];
}
