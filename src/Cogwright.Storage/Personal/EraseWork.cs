using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Erases a datum with its salt, and keeps it from coming back.</summary>
internal sealed class EraseWork(LogId log, Digest digest) : WriteWork<ErasureReport>
{
    private bool wasHere;

    internal override Guid Log => log.Value;

    internal override bool Purges => true;

    /// <summary>The same lock as for what comes in, so that a datum cannot come while it is being erased.</summary>
    internal override bool LocksShop => true;

    internal override bool OpensLog => false;

    internal override async Task RunAsync(WriteTransaction transaction)
    {
        var commands = transaction.Commands;
        using (
            var reader = await commands
                .ReadAsync(
                    """SELECT "Log" FROM "Personal" WHERE "Digest" = @digest""",
                    ("digest", digest.ToBytes())
                )
                .ConfigureAwait(false)
        )
        {
            wasHere = await reader.ReadAsync().ConfigureAwait(false);
            if (wasHere && transaction.Database.GuidAt(reader, 0) is var holder && holder != Log)
            {
                throw StoreFaultException.Of(
                    StoreFaultKind.Nothing,
                    Texts.Get("personal.otherLog", digest, new LogId(holder), log)
                );
            }
        }
        transaction.Database.DropCopies();
        await commands
            .RunAsync(
                """
                INSERT INTO "Erasures" ("Digest", "Log", "ErasedTicks") VALUES (@digest, @log, @now)
                ON CONFLICT ("Digest") DO NOTHING
                """,
                ("digest", digest.ToBytes()),
                ("log", Log),
                ("now", transaction.NowTicks)
            )
            .ConfigureAwait(false);
        await commands
            .RunAsync(
                """DELETE FROM "Personal" WHERE "Digest" = @digest""",
                ("digest", digest.ToBytes())
            )
            .ConfigureAwait(false);
        // What was found by its words is found by them no more from this commit on; what is left is worked out again.
        await commands
            .RunAsync(transaction.Database.JobIndex.DeleteSaid, ("log", Log))
            .ConfigureAwait(false);
        await transaction.UnfoldAsync(Log).ConfigureAwait(false);
    }

    protected override ErasureReport Answer(ErasedBytes bytes) => new(wasHere, bytes);
}
