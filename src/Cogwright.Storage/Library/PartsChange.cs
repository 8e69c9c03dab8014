namespace Cogwright.Storage;

/// <summary>What a change of the shop's library did. Immutable.</summary>
/// <param name="Revision">The library's revision with it; the same as before if nothing differed.</param>
/// <param name="Added">How many parts came whose ids were not there.</param>
/// <param name="Changed">How many took the place of the one with the same id.</param>
/// <param name="Same">How many were there already, in every word.</param>
/// <param name="Removed">How many were taken out.</param>
public sealed record PartsChange(long Revision, long Added, long Changed, long Same, long Removed);
