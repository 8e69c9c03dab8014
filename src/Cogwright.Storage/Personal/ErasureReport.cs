namespace Cogwright.Storage;

/// <summary>What an erasure did. The datum cannot be read any more in any case.</summary>
/// <param name="WasHere">Whether the datum was here; if not, it is kept from coming.</param>
/// <param name="IsGoneFromFiles">
/// Whether its bytes are gone from the database's files too. If a reader kept the database from clearing its write-ahead log,
/// that follows with one of the next writes. PostgreSQL gives the room back for use and does not overwrite it.
/// Backups made before still hold it.
/// </param>
public sealed record ErasureReport(bool WasHere, bool IsGoneFromFiles);
