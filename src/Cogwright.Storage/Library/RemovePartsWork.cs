namespace Cogwright.Storage;

/// <summary>Takes a part out of the library, or all that came with the demo workshop.</summary>
/// <param name="id">The part; null: those of the demo workshop.</param>
internal sealed class RemovePartsWork(string? id) : ChangePartsWork(CancellationToken.None)
{
    protected override async Task<(int Put, bool KeepsRevision)> ChangeAsync(
        WriteTransaction transaction,
        long revision
    )
    {
        await (
            id is null
                ? transaction.Commands.RunAsync("""DELETE FROM "Parts" WHERE "IsDemo" """)
                : transaction.Commands.RunAsync(
                    """DELETE FROM "Parts" WHERE "Id" = @id""",
                    ("id", id)
                )
        ).ConfigureAwait(false);
        return (0, false);
    }
}
