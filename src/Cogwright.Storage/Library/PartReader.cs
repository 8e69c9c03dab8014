using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Storage;

/// <summary>Reads the shop's library, each call over a connection of its own.</summary>
internal sealed class PartReader(ShopDatabase database)
{
    /// <summary>Between two looks at the cancellation.</summary>
    private const int Block = 1024;

    internal async Task<long> RevisionAsync(CancellationToken cancellation)
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        using var commands = new CommandSet(database, connection);
        return await RevisionAsync(commands).ConfigureAwait(false);
    }

    /// <summary>The parts that came or were changed after a revision, and how many there are in all.</summary>
    internal async Task<(StoredParts Later, long Count)> ReadAsync(
        long after,
        CancellationToken cancellation
    )
    {
        await using var connection = await database.OpenAsync(cancellation).ConfigureAwait(false);
        // One state: parts of two revisions would be a library that never was.
        await using var transaction = await database
            .BeginReadingAsync(connection, cancellation)
            .ConfigureAwait(false);
        using var commands = new CommandSet(database, connection) { Transaction = transaction };
        var revision = await RevisionAsync(commands).ConfigureAwait(false);
        var count = (long)
            (
                await commands
                    .ScalarAsync("""SELECT COUNT(*) FROM "Parts" """)
                    .ConfigureAwait(false)
            )!;
        var parts = ImmutableArray.CreateBuilder<Part>();
        var demo = ImmutableHashSet.CreateBuilder<string>(StringComparer.Ordinal);
        var damaged = ImmutableHashSet.CreateBuilder<string>(StringComparer.Ordinal);
        using var reader = await commands
            .ReadAsync(
                """SELECT "Id", "Content", "IsDemo" FROM "Parts" WHERE "Revision" > @after""",
                ("after", after)
            )
            .ConfigureAwait(false);
        while (await reader.ReadAsync(CancellationToken.None).ConfigureAwait(false))
        {
            if (parts.Count % Block == 0)
            {
                cancellation.ThrowIfCancellationRequested();
            }
            var id = reader.GetString(0);
            if (PartText.OfRow(id, reader.GetString(1)) is not { } part)
            {
                damaged.Add(id);
                continue;
            }
            parts.Add(part);
            if (reader.GetBoolean(2))
            {
                demo.Add(id);
            }
        }
        // Here and not in the database: each of the two sorts by rules of its own.
        parts.Sort((a, b) => string.CompareOrdinal(a.Id, b.Id));
        return (
            new StoredParts(
                revision,
                parts.ToImmutable(),
                demo.ToImmutable(),
                damaged.ToImmutable()
            ),
            count
        );
    }

    private async Task<long> RevisionAsync(CommandSet commands) =>
        await commands
            .ScalarAsync("""SELECT "Revision" FROM "PartLibrary" WHERE "Number" = 1""")
            .ConfigureAwait(false) as long?
        ?? throw StoreFaultException.Of(
            StoreFaultKind.Damaged,
            Texts.Get("parts.noRevision", database.Place)
        );
}
