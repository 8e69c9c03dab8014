using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// Some entries as the server received them. Receipt numbers ascend in each log; the server must not show one before all lower
/// ones can be seen, or a reader would pass over what is committed late.
/// </summary>
/// <param name="Epoch">The life of the server's store: a new one after it was restored from a backup.</param>
/// <param name="After">The receipt number that was asked for: the page begins behind it.</param>
/// <param name="Last">The receipt number of the last entry on the page; <paramref name="After"/> if there is none.</param>
/// <param name="Entries">The entries, ascending by receipt number.</param>
/// <param name="Tips">The ends of all chains in the server's log at that moment, those beyond this page included.</param>
/// <param name="HasMore">Whether more are there.</param>
public sealed record PullPage(
    Guid Epoch,
    long After,
    long Last,
    ImmutableArray<Entry> Entries,
    ImmutableArray<ChainTip> Tips,
    bool HasMore
);
