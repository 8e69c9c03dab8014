namespace Cogwright.Storage;

/// <summary>What has become of the bytes of an erased datum. Backups, file systems and disks may keep copies in any case.</summary>
public enum ErasedBytes
{
    /// <summary>The database's files do not hold them any more.</summary>
    Gone,

    /// <summary>
    /// Their room is given back for use, and they lie there until it is used; the database's own write-ahead log keeps them
    /// until it is recycled. More cannot be asked of PostgreSQL.
    /// </summary>
    InDatabaseLog,

    /// <summary>
    /// Somebody who reads, or a lock, was in the way. The store tries again by itself, after a restart too.
    /// </summary>
    Waiting,
}
