namespace Cogwright.Storage;

/// <summary>The end of a chain of which every entry from the first is here.</summary>
internal sealed class TipRow
{
    public Guid Log { get; set; }

    public byte[] Hash { get; set; } = [];

    public Guid Device { get; set; }

    public long Sequence { get; set; }

    public Guid Id { get; set; }
}
