namespace Cogwright.Log;

/// <summary>A row of a store: the bytes of an entry with the columns that were written beside them. Nothing in it is believed.</summary>
/// <param name="Id">The column with the id.</param>
/// <param name="Device">The column with the device.</param>
/// <param name="Sequence">The column with the sequence.</param>
/// <param name="Hash">The column with the hash.</param>
/// <param name="Encoded">The bytes.</param>
public sealed record StoredEntry(
    EntryId Id,
    DeviceId Device,
    long Sequence,
    Digest Hash,
    ReadOnlyMemory<byte> Encoded
)
{
    /// <summary>The row of an entry.</summary>
    public static StoredEntry Of(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return new StoredEntry(entry.Id, entry.Device, entry.Sequence, entry.Hash, entry.Encoded);
    }
}
