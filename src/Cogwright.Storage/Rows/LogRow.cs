namespace Cogwright.Storage;

/// <summary>A log that has entries here. Whoever writes to it locks this row first.</summary>
internal sealed class LogRow
{
    public Guid Id { get; set; }

    /// <summary>The receipt number of its last entry.</summary>
    public long LastReceipt { get; set; }

    /// <summary>How many of its entries are not linked to the beginning of their device's chain yet.</summary>
    public long Unlinked { get; set; }

    public long CreatedTicks { get; set; }
}
