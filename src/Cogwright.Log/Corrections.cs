namespace Cogwright.Log;

/// <summary>
/// Which entries are corrected, and by which. An entry that was ever corrected is out of force for good: to take a
/// correction back, make the old statement anew. (Were it to come back when its correction is corrected, a slip mended
/// twice would stand there twice.)
/// </summary>
public sealed class Corrections
{
    private readonly Dictionary<EntryId, List<Entry>> by = [];

    internal Corrections() { }

    /// <summary>Whether an entry of the order corrects this one.</summary>
    public bool IsCorrected(EntryId id) => by.ContainsKey(id);

    /// <summary>The entries that correct this one, ascending by device, sequence and id; most often one or none.</summary>
    public IReadOnlyList<Entry> Of(EntryId id) =>
        by.TryGetValue(id, out var corrections) ? corrections : [];

    /// <summary>
    /// What stands in the place of an entry now: itself if nothing corrects it, else the ends of its corrections. More than
    /// one if two devices corrected it without having seen one another.
    /// </summary>
    public IReadOnlyList<Entry> InForceFor(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var found = new List<Entry>();
        var open = new Stack<Entry>([entry]);
        while (open.TryPop(out var next))
        {
            var corrections = Of(next.Id);
            if (corrections.Count == 0)
            {
                found.Add(next);
            }
            for (var i = corrections.Count - 1; i >= 0; i--)
            {
                open.Push(corrections[i]);
            }
        }
        return found;
    }

    internal void Note(Entry correction)
    {
        if (correction.Corrects is not { } id)
        {
            return;
        }
        if (!by.TryGetValue(id, out var corrections))
        {
            by[id] = corrections = [];
        }
        // Sorted, so that replicas agree whatever arrived first.
        var at = corrections.FindIndex(other => correction.Key.CompareTo(other.Key) < 0);
        corrections.Insert(at < 0 ? corrections.Count : at, correction);
    }
}
