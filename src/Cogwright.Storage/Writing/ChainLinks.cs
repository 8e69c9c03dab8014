using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>
/// Keeps the ends of the chains of which every entry from the first is here. Only these may be told to a device: it takes an
/// end to cover all that comes before, and would send nothing of a gap.
/// </summary>
internal static class ChainLinks
{
    /// <summary>Makes an entry the end of its chain, if all before it are here.</summary>
    /// <returns>Whether they are.</returns>
    internal static async Task<bool> LinkAsync(WriteTransaction transaction, Entry entry)
    {
        if (entry.Previous is { } previous)
        {
            if (
                await AdvanceAsync(
                        transaction,
                        entry.Log.Value,
                        previous,
                        (entry.Device.Value, entry.Sequence, entry.Id.Value, entry.Hash.ToBytes())
                    )
                    .ConfigureAwait(false)
            )
            {
                return true;
            }
            // Not at an end: a fork of a device that was cloned, or entries between are still to come.
            var before = await transaction
                .Commands.ScalarAsync(
                    """
                    SELECT 1 FROM "Entries"
                    WHERE "Log" = @log AND "Device" = @device AND "Sequence" = @sequence AND "Hash" = @hash AND "IsLinked"
                    """,
                    ("log", entry.Log.Value),
                    ("device", entry.Device.Value),
                    ("sequence", entry.Sequence - 1),
                    ("hash", previous.ToBytes())
                )
                .ConfigureAwait(false);
            if (before is null)
            {
                return false;
            }
        }
        await InsertAsync(
                transaction,
                entry.Log.Value,
                (entry.Device.Value, entry.Sequence, entry.Id.Value, entry.Hash.ToBytes())
            )
            .ConfigureAwait(false);
        return true;
    }

    /// <summary>Links what came before an entry that it follows on.</summary>
    internal static async Task LinkFollowersAsync(
        WriteTransaction transaction,
        LockedLog locked,
        Entry first
    )
    {
        var arrived = new Queue<(long Sequence, byte[] Hash)>([
            (first.Sequence, first.Hash.ToBytes()),
        ]);
        while (locked.Unlinked > 0 && arrived.TryDequeue(out var end))
        {
            var followers = await FollowersAsync(transaction, locked.Id, first.Device.Value, end)
                .ConfigureAwait(false);
            foreach (var (receipt, id, hash) in followers)
            {
                await transaction
                    .Commands.RunAsync(
                        """UPDATE "Entries" SET "IsLinked" = @linked WHERE "Log" = @log AND "Receipt" = @receipt""",
                        ("linked", true),
                        ("log", locked.Id),
                        ("receipt", receipt)
                    )
                    .ConfigureAwait(false);
                locked.Unlinked--;
                var place = (first.Device.Value, end.Sequence + 1, id, hash);
                if (
                    !await AdvanceAsync(transaction, locked.Id, new Digest(end.Hash), place)
                        .ConfigureAwait(false)
                )
                {
                    await InsertAsync(transaction, locked.Id, place).ConfigureAwait(false);
                }
                arrived.Enqueue((end.Sequence + 1, hash));
            }
        }
    }

    private static async Task<bool> AdvanceAsync(
        WriteTransaction transaction,
        Guid log,
        Digest previous,
        (Guid Device, long Sequence, Guid Id, byte[] Hash) end
    )
    {
        const string Sql = """
            UPDATE "Tips" SET "Hash" = @hash, "Sequence" = @sequence, "Id" = @id
            WHERE "Log" = @log AND "Hash" = @previous AND "Device" = @device AND "Sequence" = @sequence - 1
            """;
        (string, object?)[] values =
        [
            ("hash", end.Hash),
            ("sequence", end.Sequence),
            ("id", end.Id),
            ("log", log),
            ("previous", previous.ToBytes()),
            ("device", end.Device),
        ];
        if (!transaction.KnowsEnd(log, previous, out var known))
        {
            var advanced =
                await transaction.Commands.RunAsync(Sql, values).ConfigureAwait(false) == 1;
            if (advanced)
            {
                Note(transaction, log, previous, end);
            }
            return advanced;
        }
        if (known != (end.Device, end.Sequence - 1))
        {
            return false;
        }
        await transaction.Commands.LaterAsync(Sql, values).ConfigureAwait(false);
        Note(transaction, log, previous, end);
        return true;
    }

    private static void Note(
        WriteTransaction transaction,
        Guid log,
        Digest previous,
        (Guid Device, long Sequence, Guid Id, byte[] Hash) end
    )
    {
        transaction.EndsWith(log, previous, null);
        transaction.EndsWith(log, new Digest(end.Hash), (end.Device, end.Sequence));
    }

    private static Task InsertAsync(
        WriteTransaction transaction,
        Guid log,
        (Guid Device, long Sequence, Guid Id, byte[] Hash) end
    )
    {
        transaction.EndsWith(log, new Digest(end.Hash), (end.Device, end.Sequence));
        return transaction.Commands.LaterAsync(
            """
            INSERT INTO "Tips" ("Log", "Hash", "Device", "Sequence", "Id") VALUES (@log, @hash, @device, @sequence, @id)
            """,
            ("log", log),
            ("hash", end.Hash),
            ("device", end.Device),
            ("sequence", end.Sequence),
            ("id", end.Id)
        );
    }

    private static async Task<List<(long Receipt, Guid Id, byte[] Hash)>> FollowersAsync(
        WriteTransaction transaction,
        Guid log,
        Guid device,
        (long Sequence, byte[] Hash) end
    )
    {
        var followers = new List<(long, Guid, byte[])>();
        using var reader = await transaction
            .Commands.ReadAsync(
                """
                SELECT "Receipt", "Id", "Hash" FROM "Entries"
                WHERE "Log" = @log AND "Device" = @device AND "Sequence" = @sequence AND "Previous" = @previous AND NOT "IsLinked"
                """,
                ("log", log),
                ("device", device),
                ("sequence", end.Sequence + 1),
                ("previous", end.Hash)
            )
            .ConfigureAwait(false);
        while (await reader.ReadAsync().ConfigureAwait(false))
        {
            followers.Add(
                (
                    reader.GetInt64(0),
                    transaction.Database.GuidAt(reader, 1),
                    reader.GetFieldValue<byte[]>(2)
                )
            );
        }
        return followers;
    }
}
