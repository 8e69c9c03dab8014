using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>
/// Three questions for a whole transaction instead of three for each entry: the rows of all logs, locked; which of the entries
/// are here; which ends of chains they follow.
/// </summary>
internal static class PostgresLookAhead
{
    internal static async Task RunAsync(
        WriteTransaction transaction,
        IReadOnlyList<WriteWork> works
    )
    {
        await LockAsync(
                transaction,
                [.. works.Where(work => work.OpensLog).Select(work => work.Log).Distinct()]
            )
            .ConfigureAwait(false);
        var entries = works.OfType<AppendWork>().SelectMany(work => work.Entries).ToList();
        if (entries.Count == 0)
        {
            return;
        }
        await FindEntriesAsync(transaction, entries).ConfigureAwait(false);
        await FindEndsAsync(transaction, [.. entries.Where(entry => entry.Previous is not null)])
            .ConfigureAwait(false);
    }

    /// <param name="transaction">The transaction.</param>
    /// <param name="logs">In the order in which every server locks.</param>
    private static async Task LockAsync(WriteTransaction transaction, Guid[] logs)
    {
        if (logs.Length == 0)
        {
            return;
        }
        using var reader = await transaction
            .Commands.ReadAsync(
                """
                INSERT INTO "Logs" ("Id", "LastReceipt", "Unlinked", "CreatedTicks")
                SELECT "l"."id", 0, 0, @now FROM unnest(@logs) WITH ORDINALITY AS "l" ("id", "place") ORDER BY "l"."place"
                ON CONFLICT ("Id") DO UPDATE SET "Unlinked" = "Logs"."Unlinked"
                RETURNING "Id", "LastReceipt", "Unlinked"
                """,
                ("now", transaction.NowTicks),
                ("logs", logs)
            )
            .ConfigureAwait(false);
        while (await reader.ReadAsync().ConfigureAwait(false))
        {
            transaction.HasLocked(
                new LockedLog(reader.GetGuid(0), reader.GetInt64(1), reader.GetInt64(2))
            );
        }
    }

    private static async Task FindEntriesAsync(WriteTransaction transaction, List<Entry> entries)
    {
        foreach (var entry in entries)
        {
            transaction.Holds(entry.Log.Value, entry.Id.Value, null);
        }
        using var reader = await transaction
            .Commands.ReadAsync(
                """
                SELECT "Log", "Id", "Hash" FROM "Entries"
                WHERE ("Log", "Id") IN (SELECT * FROM unnest(@logs, @ids))
                """,
                ("logs", entries.Select(entry => entry.Log.Value).ToArray()),
                ("ids", entries.Select(entry => entry.Id.Value).ToArray())
            )
            .ConfigureAwait(false);
        while (await reader.ReadAsync().ConfigureAwait(false))
        {
            transaction.Holds(
                reader.GetGuid(0),
                reader.GetGuid(1),
                reader.GetFieldValue<byte[]>(2)
            );
        }
    }

    private static async Task FindEndsAsync(WriteTransaction transaction, Entry[] entries)
    {
        foreach (var entry in entries)
        {
            transaction.EndsWith(entry.Log.Value, entry.Previous!.Value, null);
        }
        using var reader = await transaction
            .Commands.ReadAsync(
                """
                SELECT "Log", "Hash", "Device", "Sequence" FROM "Tips"
                WHERE ("Log", "Hash") IN (SELECT * FROM unnest(@logs, @hashes))
                """,
                ("logs", entries.Select(entry => entry.Log.Value).ToArray()),
                ("hashes", entries.Select(entry => entry.Previous!.Value.ToBytes()).ToArray())
            )
            .ConfigureAwait(false);
        while (await reader.ReadAsync().ConfigureAwait(false))
        {
            transaction.EndsWith(
                reader.GetGuid(0),
                new Digest(reader.GetFieldValue<byte[]>(1)),
                (reader.GetGuid(2), reader.GetInt64(3))
            );
        }
    }
}
