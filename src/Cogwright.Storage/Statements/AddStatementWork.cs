using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>Adds a signed statement, unless another server was faster with its number.</summary>
internal sealed class AddStatementWork(CountersignedHeads signed) : WriteWork<bool>
{
    private bool isAdded;

    internal override Guid Log => signed.Statement.Log.Value;

    internal override async Task RunAsync(WriteTransaction transaction)
    {
        await transaction.LockAsync(Log).ConfigureAwait(false);
        var added = await transaction
            .Commands.RunAsync(
                """
                INSERT INTO "Statements" ("Log", "Serial", "Encoded", "Signature") VALUES (@log, @serial, @encoded, @signature)
                ON CONFLICT ("Log", "Serial") DO NOTHING
                """,
                ("log", Log),
                ("serial", signed.Statement.Serial),
                ("encoded", signed.Statement.Encoded.ToArray()),
                ("signature", signed.Signature.ToArray())
            )
            .ConfigureAwait(false);
        isAdded = added == 1;
    }

    protected override bool Answer(ErasedBytes bytes) => isAdded;
}
