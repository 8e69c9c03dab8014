using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>A part that took the place of another with the same id. Immutable.</summary>
/// <param name="Old">What the library held.</param>
/// <param name="New">What it holds now.</param>
public sealed record PartChange(Part Old, Part New);

/// <summary>What parts did to a library. Immutable.</summary>
/// <param name="Library">The library with them.</param>
/// <param name="Added">Those whose ids it did not have.</param>
/// <param name="Changed">Those that differ from the one with the same id.</param>
/// <param name="Same">Those that it had already, in every word.</param>
public sealed record LibraryChange(
    PartLibrary Library,
    ImmutableArray<Part> Added,
    ImmutableArray<PartChange> Changed,
    ImmutableArray<Part> Same
);
