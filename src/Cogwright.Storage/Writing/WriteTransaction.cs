using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>One transaction of the writer: the rows of logs that it has locked, and how they change.</summary>
internal sealed class WriteTransaction(ShopDatabase database, CommandSet commands, long nowTicks)
{
    private readonly Dictionary<Guid, LockedLog> logs = [];
    private readonly Dictionary<(Guid Log, Guid Id), byte[]?> entries = [];
    private readonly Dictionary<(Guid Log, Digest Hash), (Guid Device, long Sequence)?> tips = [];

    internal ShopDatabase Database => database;

    internal CommandSet Commands => commands;

    /// <summary>The server's clock at its beginning: 100 ns since the year 1, UTC.</summary>
    internal long NowTicks => nowTicks;

    /// <summary>The logs that have grown, with their last receipt numbers.</summary>
    internal IEnumerable<(LogId Log, long Receipt)> Grown =>
        logs.Values.Where(log => log.HasGrown).Select(log => (new LogId(log.Id), log.LastReceipt));

    /// <summary>Takes over the row of a log that was locked together with others.</summary>
    internal void HasLocked(LockedLog log) => logs.Add(log.Id, log);

    /// <summary>Notes which entry is held under an id; null: none.</summary>
    internal void Holds(Guid log, Guid id, byte[]? hash) => entries[(log, id)] = hash;

    /// <summary>Notes which end of a chain has a hash; null: none.</summary>
    internal void EndsWith(Guid log, Digest hash, (Guid Device, long Sequence)? end) =>
        tips[(log, hash)] = end;

    /// <summary>The end of a chain with a hash, if that was looked up before.</summary>
    internal bool KnowsEnd(Guid log, Digest hash, out (Guid Device, long Sequence)? end) =>
        tips.TryGetValue((log, hash), out end);

    /// <summary>The hash of the entry that is held under an id; null if there is none.</summary>
    internal async Task<byte[]?> HeldAsync(Guid log, Guid id) =>
        entries.TryGetValue((log, id), out var known)
            ? known
            : (byte[]?)
                await commands
                    .ScalarAsync(
                        """SELECT "Hash" FROM "Entries" WHERE "Log" = @log AND "Id" = @id""",
                        ("log", log),
                        ("id", id)
                    )
                    .ConfigureAwait(false);

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

    /// <summary>Says that something beside a log has changed, so that what it was worked out to holds no more.</summary>
    internal Task UnfoldAsync(Guid log) =>
        commands.RunAsync(
            """UPDATE "FoldedLogs" SET "Receipt" = -1 WHERE "Log" = @log""",
            ("log", log)
        );

    /// <summary>Writes back the rows of the logs that have changed.</summary>
    internal async Task FlushAsync()
    {
        foreach (var log in logs.Values.Where(log => log.HasChanged))
        {
            await commands
                .LaterAsync(
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
        await commands.CatchUpAsync().ConfigureAwait(false);
    }
}
