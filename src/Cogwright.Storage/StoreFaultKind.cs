namespace Cogwright.Storage;

/// <summary>What is wrong with a store or with what is asked of it.</summary>
public enum StoreFaultKind
{
    /// <summary>The folder or the file cannot be made, opened or written.</summary>
    Inaccessible,

    /// <summary>Another program has the data folder open as its own.</summary>
    InUse,

    /// <summary>Another program holds a lock on the database.</summary>
    Locked,

    /// <summary>The database does not answer.</summary>
    Unreachable,

    /// <summary>The database is damaged.</summary>
    Damaged,

    /// <summary>The file or the schema belongs to another program.</summary>
    NotOurs,

    /// <summary>A later version of Cogwright has written it.</summary>
    FromLaterVersion,

    /// <summary>No room is left.</summary>
    Full,

    /// <summary>The database is set up so that an acknowledged entry could be lost.</summary>
    Unsafe,

    /// <summary>A datum is larger than one may be.</summary>
    TooLarge,

    /// <summary>The personal data of this job, or of the shop, have reached their quota.</summary>
    OverQuota,

    /// <summary>The datum was erased and does not come back.</summary>
    Erased,

    /// <summary>The backup is not one, or is not whole.</summary>
    BadBackup,

    /// <summary>Data are there that would be replaced.</summary>
    WouldReplace,

    /// <summary>There is nothing to do it to.</summary>
    Nothing,

    /// <summary>The store is closed.</summary>
    Closed,

    /// <summary>Something that this program did not foresee; the inner exception says what.</summary>
    Unforeseen,
}
