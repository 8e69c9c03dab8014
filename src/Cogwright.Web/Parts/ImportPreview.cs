using Cogwright.Files;

namespace Cogwright.Web.Parts;

/// <summary>What importing a file would do to the shop's library, for people to see before it is done. Immutable.</summary>
/// <param name="File">The file, byte for byte.</param>
/// <param name="Reading">Its parts, and what is wrong with the others.</param>
/// <param name="Import">What would change.</param>
/// <param name="Mark">The state of the library that it was compared with; empty when no server has told of one.</param>
public sealed record ImportPreview(
    ReadOnlyMemory<byte> File,
    PartsReading Reading,
    PartImport Import,
    string Mark
);

/// <summary>How an import ended that was not refused.</summary>
public enum ImportEnd
{
    /// <summary>The library holds every good part of the file.</summary>
    Stored,

    /// <summary>It was ended, or broke off, before anything was stored.</summary>
    NotStored,

    /// <summary>It was ended, or broke off, and the server cannot be asked what became of it.</summary>
    NotKnown,
}
