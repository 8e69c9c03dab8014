namespace Cogwright.Storage;

/// <summary>
/// Changes the library in one transaction: all of it or nothing. What is there in every word stays untouched, and if
/// nothing differs the revision stays too.
/// </summary>
internal abstract class ChangePartsWork(CancellationToken cancellation) : WriteWork<PartsChange>
{
    private PartsChange change = new(0, 0, 0, 0, 0);

    internal override Guid Log => Guid.Empty;

    internal override bool OpensLog => false;

    internal override bool IsAlone => true;

    internal override CancellationToken Cancellation => cancellation;

    internal override async Task RunAsync(WriteTransaction transaction)
    {
        cancellation.ThrowIfCancellationRequested();
        var commands = transaction.Commands;
        // Locks the row: of two servers that change the library one waits for the other.
        var revision =
            await commands
                .ScalarAsync(
                    """UPDATE "PartLibrary" SET "Revision" = "Revision" + 1 WHERE "Number" = 1 RETURNING "Revision" """
                )
                .ConfigureAwait(false) as long?
            ?? throw StoreFaultException.Of(
                StoreFaultKind.Damaged,
                Texts.Get("parts.noRevision", transaction.Database.Place)
            );
        var before = await CountAsync(commands).ConfigureAwait(false);
        var (put, keepsRevision) = await ChangeAsync(transaction, revision).ConfigureAwait(false);
        cancellation.ThrowIfCancellationRequested();
        var written = (long)
            (
                await commands
                    .ScalarAsync(
                        """SELECT COUNT(*) FROM "Parts" WHERE "Revision" = @revision""",
                        ("revision", revision)
                    )
                    .ConfigureAwait(false)
            )!;
        var after = await CountAsync(commands).ConfigureAwait(false);
        // A work either puts or takes out.
        var (added, removed) = (Math.Max(0, after - before), Math.Max(0, before - after));
        if (written + removed == 0 && !keepsRevision)
        {
            revision--;
            await commands
                .RunAsync(
                    """UPDATE "PartLibrary" SET "Revision" = @revision WHERE "Number" = 1""",
                    ("revision", revision)
                )
                .ConfigureAwait(false);
        }
        change = new PartsChange(revision, added, written - added, put - written, removed);
    }

    /// <summary>Puts parts in or takes them out.</summary>
    /// <returns>How many were to be put in, and whether the revision rises even if nothing differs.</returns>
    protected abstract Task<(int Put, bool KeepsRevision)> ChangeAsync(
        WriteTransaction transaction,
        long revision
    );

    protected override PartsChange Answer(ErasedBytes bytes) => change;

    private static async Task<long> CountAsync(CommandSet commands) =>
        (long)
            (
                await commands
                    .ScalarAsync("""SELECT COUNT(*) FROM "Parts" """)
                    .ConfigureAwait(false)
            )!;
}
