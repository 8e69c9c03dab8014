namespace Cogwright.Storage;

/// <summary>A life of this store. The last one counts; restoring a backup begins another.</summary>
internal sealed class EpochRow
{
    public long Number { get; set; }

    public Guid Epoch { get; set; }

    public long BeganTicks { get; set; }
}
