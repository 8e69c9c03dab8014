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
    /// <summary>
    /// Whether an error belongs to the file and not to one of its entries: it breaks off, or cannot be told apart, and what the
    /// rest would have said is not known. What was read may be looked at, but is no whole file.
    /// </summary>
    public bool IsBroken { get; init; }

    /// <summary>
    /// Whether nothing may be taken from it, not even what is good: it breaks off, or nothing in it is good.
    /// </summary>
    public bool IsUnusable =>
        IsBroken || (Parts.IsEmpty && Problems.Any(problem => problem.IsError));

    /// <summary>
    /// The columns of a table, each once, or null for a file whose entries each say all of their part. What a table has no
    /// column for it does not speak of (<see cref="Over(PartLibrary)"/>).
    /// </summary>
    public ImmutableHashSet<string>? Columns { get; init; }

    /// <summary>The parts as they stand in a library after the file: what it does not speak of stays as it is there.</summary>
    /// <param name="library">The library before.</param>
    public ImmutableArray<Part> Over(PartLibrary library)
    {
        ArgumentNullException.ThrowIfNull(library);
        return Columns is null
            ? Parts
            : [.. Parts.Select(part => library.Find(part.Id) is { } old ? Over(old, part) : part)];
    }

    private Part Over(Part old, Part part)
    {
        var columns = Columns!;
        var kept = part with
        {
            Maker = columns.Contains(PartEntryReader.Maker) ? part.Maker : old.Maker,
            Source = columns.Contains(PartEntryReader.Source) ? part.Source : old.Source,
            InStock = columns.Contains(PartEntryReader.InStock) ? part.InStock : old.InStock,
        };
        // Fields and figures of another kind of part say nothing of this one.
        return old.Kind != part.Kind
            ? kept
            : kept with
            {
                Values = part.Values.AddRange(
                    old.Values.Where(each => !columns.Contains(each.Key.Name))
                ),
                SpecValues = part.SpecValues.AddRange(
                    old.SpecValues.Where(each =>
                        !columns.Contains(PartEntryReader.SpecPrefix + each.Key)
                    )
                ),
            };
    }

    /// <summary>How many entries were left out because something is wrong with them.</summary>
    public int BadEntries => Entries - Parts.Length;
}
