namespace Cogwright.Log;

/// <summary>
/// How much of a server's log a device has fetched. Store it with the entries of the page, in one transaction or after them:
/// a page fetched twice does no harm, one passed over does.
/// </summary>
/// <param name="Epoch">The life of the server's store that the number belongs to.</param>
/// <param name="Receipt">Everything up to this receipt number is here.</param>
public sealed record PullCursor(Guid Epoch, long Receipt)
{
    /// <summary>Nothing fetched yet.</summary>
    public static PullCursor Start { get; } = new(Guid.Empty, 0);

    /// <summary>
    /// The cursor after the entries of a page were stored. A page that begins further on than what is here (answers came out of
    /// order) moves nothing: its entries may be merged, the cursor waits for the page between. After the server's store began a
    /// new life the cursor starts again (and <see cref="Outbox.Meet"/> sends again what it lacks).
    /// </summary>
    public PullCursor After(PullPage page)
    {
        ArgumentNullException.ThrowIfNull(page);
        var here = page.Epoch == Epoch ? this : new PullCursor(page.Epoch, 0);
        return page.After <= here.Receipt && page.Last > here.Receipt
            ? new PullCursor(page.Epoch, page.Last)
            : here;
    }
}
