using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>One transaction of the writer: the rows of logs that it has locked, and how they change.</summary>
internal sealed class WriteTransaction(ShopDatabase database, CommandSet commands, long nowTicks)
{
    private readonly Dictionary<Guid, LockedLog> logs = [];

    internal ShopDatabase Database => database;

    internal CommandSet Commands => commands;

    /// <summary>The server's clock at its beginning: 100 ns since the year 1, UTC.</summary>
    internal long NowTicks => nowTicks;

    /// <summary>The logs that have grown, with their last receipt numbers.</summary>
    internal IEnumerable<(LogId Log, long Receipt)> Grown =>
        logs.Values.Where(log => log.HasGrown).Select(log => (new LogId(log.Id), log.LastReceipt));

    /// <summary>Locks the row of a log, made if it is not there, until the transaction ends.</summary>
    internal async Task<LockedLog> LockAsync(Guid log)
    {
        if (logs.TryGetValue(log, out var locked))
        {
            return locked;
        }
        using var reader = await commands
            .ReadAsync(
                """
                INSERT INTO "Logs" ("Id", "LastReceipt", "Unlinked", "CreatedTicks") VALUES (@log, 0, 0, @now)
                ON CONFLICT ("Id") DO UPDATE SET "Unlinked" = "Logs"."Unlinked"
                RETURNING "LastReceipt", "Unlinked"
                """,
                ("log", log),
                ("now", nowTicks)
            )
            .ConfigureAwait(false);
        await reader.ReadAsync().ConfigureAwait(false);
        locked = new LockedLog(log, reader.GetInt64(0), reader.GetInt64(1));
        logs.Add(log, locked);
        return locked;
    }

    /// <summary>Writes back the rows of the logs that have changed.</summary>
    internal async Task FlushAsync()
    {
        foreach (var log in logs.Values.Where(log => log.HasChanged))
        {
            await commands
                .RunAsync(
                    """UPDATE "Logs" SET "LastReceipt" = @receipt, "Unlinked" = @unlinked WHERE "Id" = @log""",
                    ("receipt", log.LastReceipt),
                    ("unlinked", log.Unlinked),
                    ("log", log.Id)
                )
                .ConfigureAwait(false);
            if (log.HasGrown)
            {
                await database
                    .AnnounceAsync(commands, new LogId(log.Id), log.LastReceipt)
                    .ConfigureAwait(false);
            }
        }
    }
}
