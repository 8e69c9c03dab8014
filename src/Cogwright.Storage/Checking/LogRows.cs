using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>The rows of one log as they lie there, nothing in them believed.</summary>
/// <param name="LastReceipt">The number that the log's own row states.</param>
/// <param name="Receipts">The numbers of the entries, ascending.</param>
/// <param name="Entries">The entries with their columns, in that order.</param>
/// <param name="Tips">The ends of chains that are told to devices.</param>
internal sealed record LogRows(
    long LastReceipt,
    ImmutableArray<long> Receipts,
    ImmutableArray<StoredEntry> Entries,
    ImmutableArray<ChainTip> Tips
)
{
    internal static async Task<LogRows> ReadAsync(
        ShopDatabase database,
        CommandSet commands,
        LogId log,
        CancellationToken cancellation
    )
    {
        var last = await commands
            .ScalarAsync(
                """SELECT "LastReceipt" FROM "Logs" WHERE "Id" = @log""",
                ("log", log.Value)
            )
            .ConfigureAwait(false);
        var receipts = ImmutableArray.CreateBuilder<long>();
        var entries = ImmutableArray.CreateBuilder<StoredEntry>();
        using (
            var reader = await commands
                .ReadAsync(
                    """
                    SELECT "Receipt", "Id", "Device", "Sequence", "Hash", "Encoded" FROM "Entries"
                    WHERE "Log" = @log ORDER BY "Receipt"
                    """,
                    ("log", log.Value)
                )
                .ConfigureAwait(false)
        )
        {
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                receipts.Add(reader.GetInt64(0));
                entries.Add(
                    new StoredEntry(
                        new EntryId(database.GuidAt(reader, 1)),
                        new DeviceId(database.GuidAt(reader, 2)),
                        reader.GetInt64(3),
                        new Digest(reader.GetFieldValue<byte[]>(4)),
                        reader.GetFieldValue<byte[]>(5)
                    )
                );
            }
        }
        var tips = ImmutableArray.CreateBuilder<ChainTip>();
        using (
            var reader = await commands
                .ReadAsync(
                    """SELECT "Device", "Sequence", "Id", "Hash" FROM "Tips" WHERE "Log" = @log""",
                    ("log", log.Value)
                )
                .ConfigureAwait(false)
        )
        {
            while (await reader.ReadAsync(cancellation).ConfigureAwait(false))
            {
                tips.Add(LogReader.TipAt(database, reader));
            }
        }
        return new LogRows(
            last is long number ? number : 0,
            receipts.ToImmutable(),
            entries.ToImmutable(),
            tips.ToImmutable()
        );
    }
}
