namespace Cogwright.Log;

/// <summary>
/// The tags of an entry's fields. These and the shapes of their values stay the same for ever, in every later version;
/// docs/theory/log.md has the table.
/// </summary>
internal static class EntryTag
{
    /// <summary>The id, 16 bytes.</summary>
    internal const byte Id = 1;

    /// <summary>The log, 16 bytes.</summary>
    internal const byte Log = 2;

    /// <summary>The device, 16 bytes.</summary>
    internal const byte Device = 3;

    /// <summary>The number of the entry in the device's chain in this log, 8 bytes, from 1.</summary>
    internal const byte Sequence = 4;

    /// <summary>The device's clock, 8 bytes, signed: 100 ns since the year 1, UTC.</summary>
    internal const byte WallClockTicks = 5;

    /// <summary>The author, UTF-8.</summary>
    internal const byte Author = 6;

    /// <summary>The kind, UTF-8.</summary>
    internal const byte Kind = 7;

    /// <summary>The version of the kind, 4 bytes, from 1.</summary>
    internal const byte KindVersion = 8;

    /// <summary>The body; absent if empty.</summary>
    internal const byte Body = 9;

    /// <summary>The heads seen, 16 bytes each, ascending; absent if there are none.</summary>
    internal const byte Heads = 10;

    /// <summary>The hash of the device's previous entry, 32 bytes; absent in its first one.</summary>
    internal const byte Previous = 11;

    /// <summary>The entry corrected, 16 bytes; absent if there is none.</summary>
    internal const byte Corrects = 12;

    /// <summary>Digests of personal data, 32 bytes each, in the order given; absent if there are none.</summary>
    internal const byte Personal = 13;

    /// <summary>The first tag that this version does not know.</summary>
    internal const byte FirstUnknown = 14;
}
