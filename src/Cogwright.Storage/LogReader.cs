using System.Collections.Immutable;
using System.Data.Common;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Reads logs, each call over a connection of its own.</summary>
internal sealed class LogReader(ShopDatabase database)
{
    internal async Task<PullPage> PullAsync(
        Guid epoch,
        LogId log,
        PullCursor cursor,
        int most,
        CancellationToken cancellation
    )
    {
        var after = cursor.Epoch == epoch ? cursor.Receipt : 0;
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        var entries = ImmutableArray.CreateBuilder<Entry>();
        var last = after;
        var hasMore = false;
        using (
            var reader = await commands
                .ReadAsync(
                    """
                    SELECT "Receipt", "Encoded" FROM "Entries"
                    WHERE "Log" = @log AND "Receipt" > @after ORDER BY "Receipt" LIMIT @most
                    """,
                    ("log", log.Value),
                    ("after", after),
                    ("most", most + 1L)
                )
                .ConfigureAwait(false)
        )
        {
            long bytes = 0;
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                var encoded = reader.GetFieldValue<byte[]>(1);
                bytes += encoded.Length;
                if (entries.Count == most || (entries.Count > 0 && bytes > EntryLimits.BatchBytes))
                {
                    hasMore = true;
                    break;
                }
                entries.Add(Read(log, reader.GetInt64(0), encoded));
                last = reader.GetInt64(0);
            }
        }
        return new PullPage(
            epoch,
            after,
            last,
            entries.ToImmutable(),
            await TipsAsync(commands, log, cancellation).ConfigureAwait(false),
            hasMore
        );
    }

    internal async Task<ImmutableArray<LogSummary>> LogsAsync(CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        using var reader = await commands
            .ReadAsync("""SELECT "Id", "LastReceipt", "CreatedTicks" FROM "Logs" ORDER BY "Id" """)
            .ConfigureAwait(false);
        var logs = ImmutableArray.CreateBuilder<LogSummary>();
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            logs.Add(
                new LogSummary(
                    new LogId(database.GuidAt(reader, 0)),
                    reader.GetInt64(1),
                    reader.GetInt64(2)
                )
            );
        }
        return logs.ToImmutable();
    }

    /// <summary>The whole log, as of one moment.</summary>
    internal async Task<EntryLog> LoadAsync(LogId log, CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        using var reader = await commands
            .ReadAsync(
                """SELECT "Receipt", "Encoded" FROM "Entries" WHERE "Log" = @log ORDER BY "Receipt" """,
                ("log", log.Value)
            )
            .ConfigureAwait(false);
        var loaded = new EntryLog(log);
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            loaded.Add(Read(log, reader.GetInt64(0), reader.GetFieldValue<byte[]>(1)));
        }
        return loaded;
    }

    internal async Task<ImmutableArray<Entry>> RefusedAsync(
        LogId log,
        CancellationToken cancellation
    )
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        using var reader = await commands
            .ReadAsync(
                """SELECT "ReceivedTicks", "Encoded" FROM "Refused" WHERE "Log" = @log ORDER BY "ReceivedTicks", "Hash" """,
                ("log", log.Value)
            )
            .ConfigureAwait(false);
        var refused = ImmutableArray.CreateBuilder<Entry>();
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            refused.Add(Read(log, 0, reader.GetFieldValue<byte[]>(1)));
        }
        return refused.ToImmutable();
    }

    private async Task<ImmutableArray<ChainTip>> TipsAsync(
        CommandSet commands,
        LogId log,
        CancellationToken cancellation
    )
    {
        using var reader = await commands
            .ReadAsync(
                """SELECT "Device", "Sequence", "Id", "Hash" FROM "Tips" WHERE "Log" = @log""",
                ("log", log.Value)
            )
            .ConfigureAwait(false);
        var tips = new List<ChainTip>();
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            tips.Add(TipAt(database, reader));
        }
        return [.. tips.OrderBy(tip => (tip.Device, tip.Sequence, tip.Id))];
    }

    internal static ChainTip TipAt(ShopDatabase database, DbDataReader reader) =>
        new(
            new DeviceId(database.GuidAt(reader, 0)),
            reader.GetInt64(1),
            new EntryId(database.GuidAt(reader, 2)),
            new Digest(reader.GetFieldValue<byte[]>(3))
        );

    private Entry Read(LogId log, long receipt, byte[] encoded)
    {
        var read = Entry.Read(encoded);
        return read.IsGood
            ? read.Value
            : throw StoreFaultException.Of(
                StoreFaultKind.Damaged,
                Texts.Get("read.entry", database.Place, log, receipt, read.Fault)
            );
    }
}
