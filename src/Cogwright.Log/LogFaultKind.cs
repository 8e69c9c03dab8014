namespace Cogwright.Log;

/// <summary>What is wrong with an entry, a statement or a request.</summary>
public enum LogFaultKind
{
    /// <summary>The bytes are not an entry (or a statement), or are cut short.</summary>
    Unreadable,

    /// <summary>The fields are right, but written in another way than the one permitted.</summary>
    NotCanonical,

    /// <summary>A field is missing.</summary>
    Missing,

    /// <summary>A field is longer, or there are more of it, than <see cref="EntryLimits"/> allows.</summary>
    TooLarge,

    /// <summary>A field holds what cannot be.</summary>
    Impossible,

    /// <summary>The entry belongs to another log.</summary>
    OtherLog,

    /// <summary>The id is known already, with other content.</summary>
    Clash,

    /// <summary>What the entry names as the device's previous one is not its previous one.</summary>
    BrokenChain,

    /// <summary>The device's chain has two ends: it was cloned, or its store was set back.</summary>
    Forked,

    /// <summary>Later entries of the same device are known but cannot enter yet.</summary>
    OwnEntriesWaiting,

    /// <summary>The entry to be corrected is not in the log.</summary>
    NothingToCorrect,
}
