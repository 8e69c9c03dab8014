using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Erases a datum with its salt, and keeps it from coming back.</summary>
internal sealed class EraseWork(LogId log, Digest digest) : WriteWork<ErasureReport>
{
    private bool wasHere;

    internal override Guid Log => log.Value;

    internal override bool Purges => true;

    internal override async Task RunAsync(WriteTransaction transaction)
    {
        await transaction.LockAsync(Log).ConfigureAwait(false);
        await transaction
            .Commands.RunAsync(
                """
                INSERT INTO "Erasures" ("Digest", "Log", "ErasedTicks") VALUES (@digest, @log, @now)
                ON CONFLICT ("Digest") DO NOTHING
                """,
                ("digest", digest.ToBytes()),
                ("log", Log),
                ("now", transaction.NowTicks)
            )
            .ConfigureAwait(false);
        var deleted = await transaction
            .Commands.RunAsync(
                """DELETE FROM "Personal" WHERE "Digest" = @digest AND "Log" = @log""",
                ("digest", digest.ToBytes()),
                ("log", Log)
            )
            .ConfigureAwait(false);
        wasHere = deleted > 0;
    }

    protected override ErasureReport Answer(bool isPurged) => new(wasHere, isPurged);
}
