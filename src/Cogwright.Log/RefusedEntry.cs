namespace Cogwright.Log;

/// <summary>
/// An entry that was not taken in, kept as evidence. With the same id and other content, the entry that was there first
/// stays.
/// </summary>
/// <param name="Entry">The entry refused.</param>
/// <param name="Held">The entry held under the same id; null if the reason is another.</param>
/// <param name="Fault">Why.</param>
public sealed record RefusedEntry(Entry Entry, Entry? Held, LogFault Fault);
