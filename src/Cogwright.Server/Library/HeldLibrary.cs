using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Server;

/// <summary>The shop's library as it is held in memory. Immutable.</summary>
/// <param name="Revision">The revision that it is of.</param>
/// <param name="Library">The parts, with the index by which they are found.</param>
/// <param name="Demo">The ids of those that came with the demo workshop and that nobody has changed.</param>
/// <param name="Damaged">The ids of those that the store cannot read; the library is without them.</param>
internal sealed record HeldLibrary(
    long Revision,
    PartLibrary Library,
    ImmutableHashSet<string> Demo,
    ImmutableHashSet<string> Damaged
);
