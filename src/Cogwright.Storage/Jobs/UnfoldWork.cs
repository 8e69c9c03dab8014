namespace Cogwright.Storage;

/// <summary>Has every log worked out again.</summary>
internal sealed class UnfoldWork : WriteWork<bool>
{
    internal override Guid Log => Guid.Empty;

    internal override bool OpensLog => false;

    internal override async Task RunAsync(WriteTransaction transaction) =>
        await transaction
            .Commands.RunAsync("""UPDATE "FoldedLogs" SET "Receipt" = -1""")
            .ConfigureAwait(false);

    protected override bool Answer(ErasedBytes bytes) => true;
}
