namespace Cogwright.Storage;

/// <summary>The row of a log within a transaction that has locked it.</summary>
internal sealed class LockedLog(Guid id, long lastReceipt, long unlinked)
{
    private readonly (long Receipt, long Unlinked) before = (lastReceipt, unlinked);

    internal Guid Id => id;

    internal long LastReceipt { get; private set; } = lastReceipt;

    internal long Unlinked { get; set; } = unlinked;

    internal bool HasGrown => LastReceipt != before.Receipt;

    internal bool HasChanged => HasGrown || Unlinked != before.Unlinked;

    internal long NextReceipt() => ++LastReceipt;
}
