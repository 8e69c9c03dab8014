namespace Cogwright.Storage;

/// <summary>That a datum was erased, so that a device which still has a copy cannot bring it back.</summary>
internal sealed class ErasureRow
{
    public byte[] Digest { get; set; } = [];

    public Guid Log { get; set; }

    public long ErasedTicks { get; set; }
}
