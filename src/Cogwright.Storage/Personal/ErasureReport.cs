namespace Cogwright.Storage;

/// <summary>What an erasure did. The datum cannot be read any more in any case.</summary>
/// <param name="WasHere">Whether the datum was here; if not, it is kept from coming.</param>
/// <param name="Bytes">What has become of its bytes. Backups made before still hold it.</param>
public sealed record ErasureReport(bool WasHere, ErasedBytes Bytes)
{
    /// <summary>Whether its bytes are gone from the database's files too.</summary>
    public bool IsGoneFromFiles => Bytes == ErasedBytes.Gone;
}
