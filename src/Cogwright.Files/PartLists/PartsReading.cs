using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>The outcome of reading a parts file: every good part, and everything wrong with the others. Immutable.</summary>
/// <param name="File">The name of the file, as it was given to the reader.</param>
/// <param name="Parts">The good parts in the order of the file, each id once.</param>
/// <param name="Problems">
/// The problems in the order of the file, all of them. An error belongs to an entry that was left out, or to the file itself; a
/// remark to something that was passed over.
/// </param>
/// <param name="Entries">How many entries the file has, good and bad.</param>
public sealed record PartsReading(
    string File,
    ImmutableArray<Part> Parts,
    ImmutableArray<FileProblem> Problems,
    int Entries
)
{
    /// <summary>How many entries were left out because something is wrong with them.</summary>
    public int BadEntries => Entries - Parts.Length;
}
