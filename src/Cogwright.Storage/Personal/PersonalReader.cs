using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Reads what lies beside the logs.</summary>
internal sealed class PersonalReader(ShopDatabase database)
{
    internal async Task<PersonalFile?> FindAsync(Digest digest, CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        using var reader = await commands
            .ReadAsync(
                """SELECT "Log", "Salt", "Data", "ContentType", "StoredTicks" FROM "Personal" WHERE "Digest" = @digest""",
                ("digest", digest.ToBytes())
            )
            .ConfigureAwait(false);
        if (!await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            return null;
        }
        var datum = new PersonalDatum(
            reader.GetFieldValue<byte[]>(1),
            reader.GetFieldValue<byte[]>(2)
        );
        return datum.Digest == digest
            ? new PersonalFile(
                new LogId(database.GuidAt(reader, 0)),
                datum,
                reader.GetString(3),
                reader.GetInt64(4)
            )
            : throw StoreFaultException.Of(
                StoreFaultKind.Damaged,
                Texts.Get("personal.altered", database.Place, digest)
            );
    }

    /// <summary>What is here for a log, and what was erased from it.</summary>
    internal async Task<PersonalHoldings> HoldingsAsync(LogId log, CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        var held = await DigestsAsync(
                commands,
                """SELECT "Digest" FROM "Personal" WHERE "Log" = @log""",
                log,
                cancellation
            )
            .ConfigureAwait(false);
        var erased = await DigestsAsync(
                commands,
                """SELECT "Digest" FROM "Erasures" WHERE "Log" = @log""",
                log,
                cancellation
            )
            .ConfigureAwait(false);
        return new PersonalHoldings(held, erased);
    }

    private static async Task<ImmutableArray<Digest>> DigestsAsync(
        CommandSet commands,
        string sql,
        LogId log,
        CancellationToken cancellation
    )
    {
        using var reader = await commands.ReadAsync(sql, ("log", log.Value)).ConfigureAwait(false);
        var digests = new List<Digest>();
        while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
        {
            digests.Add(new Digest(reader.GetFieldValue<byte[]>(0)));
        }
        return [.. digests.Order()];
    }
}
