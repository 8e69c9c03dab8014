using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Storage;

/// <summary>The shop's library at one moment. Immutable.</summary>
/// <param name="Revision">Rises with every change; 0: nothing was ever put in.</param>
/// <param name="Parts">The parts, in the order of their ids.</param>
/// <param name="Demo">The ids of those that came with the demo workshop and that nobody has changed.</param>
/// <param name="Damaged">The ids of those that cannot be read: they are not among the parts, and all else can be used.</param>
public sealed record StoredParts(
    long Revision,
    ImmutableArray<Part> Parts,
    ImmutableHashSet<string> Demo,
    ImmutableHashSet<string> Damaged
);
