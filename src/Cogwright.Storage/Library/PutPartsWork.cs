using Cogwright.Parts;

namespace Cogwright.Storage;

/// <summary>Puts parts into the library.</summary>
/// <param name="parts">Each id once.</param>
/// <param name="asDemo">
/// They are the demo workshop's: a part that is there already stays as it is. For a new shop only, if
/// <see cref="DemoWish.IfNew"/>.
/// </param>
/// <param name="progress">Told now and then how many are written.</param>
/// <param name="cancellation">Ends it before the commit; nothing is left then.</param>
internal sealed class PutPartsWork(
    IReadOnlyList<Part> parts,
    DemoWish asDemo,
    IProgress<int>? progress,
    CancellationToken cancellation
) : ChangePartsWork(cancellation)
{
    /// <summary>Parts between two looks at the cancellation and two reports; over a network they travel together.</summary>
    private const int Block = 500;

    // What differs, and nothing else: with the same content a row stays a demo's and keeps its revision.
    private const string Put = """
        INSERT INTO "Parts" ("Id", "Kind", "Name", "Maker", "Content", "IsDemo", "UpdatedTicks", "Revision")
        VALUES (@id, @kind, @name, @maker, @content, @demo, @now, @revision)
        ON CONFLICT ("Id") DO UPDATE SET
            "Kind" = excluded."Kind", "Name" = excluded."Name", "Maker" = excluded."Maker", "Content" = excluded."Content",
            "IsDemo" = excluded."IsDemo", "UpdatedTicks" = excluded."UpdatedTicks", "Revision" = excluded."Revision"
        WHERE "Parts"."Content" <> excluded."Content"
        """;

    private const string PutIfMissing = """
        INSERT INTO "Parts" ("Id", "Kind", "Name", "Maker", "Content", "IsDemo", "UpdatedTicks", "Revision")
        VALUES (@id, @kind, @name, @maker, @content, @demo, @now, @revision)
        ON CONFLICT ("Id") DO NOTHING
        """;

    // Made before the writer's turn comes: meanwhile others write.
    private readonly string[] contents = [.. parts.Select(PartText.Write)];

    /// <summary>The revision on which the caller has decided; null: any.</summary>
    internal long? Seen { get; init; }

    /// <summary>
    /// The revision on which the caller has decided about these parts, whatever became of others since; null: any.
    /// </summary>
    internal long? SeenParts { get; init; }

    protected override async Task<(int Put, bool KeepsRevision)> ChangeAsync(
        WriteTransaction transaction,
        long revision
    )
    {
        var commands = transaction.Commands;
        if (Seen is { } seen && seen != revision - 1)
        {
            throw StoreFaultException.Of(
                StoreFaultKind.WouldReplace,
                Texts.Get("parts.changedSince", seen, revision - 1)
            );
        }
        if (SeenParts is { } known)
        {
            await CheckSeenAsync(commands, known, revision - 1).ConfigureAwait(false);
        }
        if (asDemo == DemoWish.IfNew)
        {
            if (revision != 1)
            {
                return (0, false);
            }
            if (!await IsNewAsync(commands).ConfigureAwait(false))
            {
                // Asked once: a shop that works already does not get demo parts between its own later.
                return (0, true);
            }
        }
        for (var i = 0; i < contents.Length; i++)
        {
            var part = parts[i];
            await commands
                .LaterAsync(
                    asDemo == DemoWish.No ? Put : PutIfMissing,
                    ("id", part.Id),
                    ("kind", PartKinds.NameOf(part.Kind)),
                    ("name", part.Name),
                    ("maker", part.Maker),
                    ("content", contents[i]),
                    ("demo", asDemo != DemoWish.No),
                    ("now", transaction.NowTicks),
                    ("revision", revision)
                )
                .ConfigureAwait(false);
            if ((i + 1) % Block == 0)
            {
                await commands.CatchUpAsync().ConfigureAwait(false);
                Cancellation.ThrowIfCancellationRequested();
                progress?.Report(i + 1);
            }
        }
        await commands.CatchUpAsync().ConfigureAwait(false);
        return (contents.Length, asDemo == DemoWish.IfNew);
    }

    /// <summary>Nobody may have changed one of the parts since.</summary>
    private async Task CheckSeenAsync(CommandSet commands, long seen, long present)
    {
        foreach (var part in parts)
        {
            var changed =
                await commands
                    .ScalarAsync(
                        """SELECT "Revision" FROM "Parts" WHERE "Id" = @id""",
                        ("id", part.Id)
                    )
                    .ConfigureAwait(false) as long?;
            // Of one that is not there nothing tells whether it was taken out meanwhile, unless nothing was done at all.
            if (seen > present || (changed is { } at ? at > seen : seen != present))
            {
                throw StoreFaultException.Of(
                    StoreFaultKind.WouldReplace,
                    Texts.Get("part.changedSince", part.Id, seen, present)
                );
            }
        }
    }

    private static async Task<bool> IsNewAsync(CommandSet commands) =>
        await commands
            .ScalarAsync(
                """SELECT 1 WHERE NOT EXISTS (SELECT 1 FROM "Logs") AND NOT EXISTS (SELECT 1 FROM "AspNetUsers")"""
            )
            .ConfigureAwait(false)
            is not null;
}

/// <summary>Whether parts are the demo workshop's.</summary>
internal enum DemoWish
{
    /// <summary>They are the shop's own.</summary>
    No,

    /// <summary>They are, and are wanted.</summary>
    Yes,

    /// <summary>They are, and a new shop begins with them; any other does not.</summary>
    IfNew,
}
