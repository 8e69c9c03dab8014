namespace Cogwright.Log;

/// <summary>
/// How large an entry may be. A reader refuses what is larger before it believes any length in it, so these are also
/// what a hostile sender can cost.
/// </summary>
public static class EntryLimits
{
    /// <summary>
    /// Bytes of a body. The largest fact of a job (a table of readings for 3 × 13 gears) takes some 10 kB; photos lie
    /// beside the log.
    /// </summary>
    public const int BodyBytes = 64 * 1024;

    /// <summary>
    /// Heads seen. There are as many heads as devices that wrote without having seen one another; a shop has a handful.
    /// With more than this an entry names the first ones, which only shows a conflict too many.
    /// </summary>
    public const int Heads = 256;

    /// <summary>Bytes of an author: an account's id with its kind before it; a name does not belong here.</summary>
    public const int AuthorBytes = 128;

    /// <summary>Bytes of a kind: a word or two with dots.</summary>
    public const int KindBytes = 64;

    /// <summary>Digests of personal data in one entry: a customer's particulars and a few photos at a time.</summary>
    public const int Personal = 64;

    /// <summary>
    /// Bytes of a whole entry: all of the above at their limits, and 48 kB for fields that later versions may add.
    /// </summary>
    public const int EntryBytes = 120 * 1024;

    /// <summary>The last sequence number: the last integer that every JSON reader keeps exact, 2⁵³ − 1.</summary>
    public const long Sequence = (1L << 53) - 1;

    /// <summary>Entries in one sending: some 250 kB of ordinary entries, a second on poor Wi-Fi.</summary>
    public const int BatchEntries = 500;

    /// <summary>Bytes in one sending: what poor Wi-Fi carries before a request is likely to be cut.</summary>
    public const int BatchBytes = 1024 * 1024;

    /// <summary>Chain tips in a head statement: one for each device that ever wrote to the log.</summary>
    public const int Tips = 4096;
}
