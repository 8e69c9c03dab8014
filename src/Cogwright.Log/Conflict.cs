using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// Entries that set one subject without having seen one another. There is no winner: somebody who sees them settles it, by
/// an entry that sets the subject again or corrects all but one of them.
/// </summary>
/// <param name="Subject">The subject.</param>
/// <param name="Entries">The entries, at least two, in the order of the log.</param>
public sealed record Conflict(string Subject, ImmutableArray<Entry> Entries);
