using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>An entry that is kept but cannot enter the order yet.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="MissingIds">The entries it has seen, or corrects, that have not entered; ascending.</param>
/// <param name="MissingPrevious">The hash of the device's previous entry, if that has not entered.</param>
public sealed record WaitingEntry(
    Entry Entry,
    ImmutableArray<EntryId> MissingIds,
    Digest? MissingPrevious
);
