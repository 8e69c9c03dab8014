namespace Cogwright.Storage;

/// <summary>An entry. The bytes count; the columns are for finding it, and a check holds them against the bytes.</summary>
internal sealed class EntryRow
{
    public Guid Log { get; set; }

    /// <summary>Its number in the order of arrival, for each log from 1 without a gap.</summary>
    public long Receipt { get; set; }

    public Guid Id { get; set; }

    public Guid Device { get; set; }

    public long Sequence { get; set; }

    public byte[] Hash { get; set; } = [];

    /// <summary>The hash of the device's entry before; null in its first one.</summary>
    public byte[]? Previous { get; set; }

    /// <summary>Whether every entry of the chain from its beginning to this one is here.</summary>
    public bool IsLinked { get; set; }

    public long ReceivedTicks { get; set; }

    public byte[] Encoded { get; set; } = [];
}
