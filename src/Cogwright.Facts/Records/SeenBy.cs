using Cogwright.Log;

namespace Cogwright.Facts.Records;

/// <summary>What an entry had seen when it was made: the part of a log that can never change any more.</summary>
public static class SeenBy
{
    /// <summary>
    /// A log of its own with an entry and everything that it had seen, directly or through others. Whatever arrives later, and
    /// from whichever device, this stays what it is.
    /// </summary>
    /// <param name="log">The log.</param>
    /// <param name="entry">An entry of its order.</param>
    public static EntryLog LogOf(EntryLog log, Entry entry)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(entry);
        var byHash = log.Ordered.ToDictionary(each => each.Hash);
        var seen = new HashSet<EntryId>();
        var open = new Stack<Entry>([entry]);
        while (open.TryPop(out var next))
        {
            if (!seen.Add(next.Id))
            {
                continue;
            }
            foreach (var head in next.Heads)
            {
                if (log.Find(head) is { } parent)
                {
                    open.Push(parent);
                }
            }
            if (next.Previous is { } hash && byHash.TryGetValue(hash, out var before))
            {
                open.Push(before);
            }
            if (next.Corrects is { } id && log.Find(id) is { } corrected)
            {
                open.Push(corrected);
            }
        }
        var past = new EntryLog(log.Id);
        past.Merge(log.Ordered.Where(each => seen.Contains(each.Id)));
        return past;
    }

    /// <summary>The entries that had seen an entry, directly or through others.</summary>
    /// <param name="log">The log.</param>
    /// <param name="entry">An entry of its order.</param>
    public static IReadOnlySet<EntryId> ThatHadSeen(EntryLog log, Entry entry)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(entry);
        var (ids, hashes) = (new HashSet<EntryId>(), new HashSet<Digest> { entry.Hash });
        // What an entry had seen stands before it in the order.
        foreach (var each in log.Ordered)
        {
            if (
                each.Heads.Any(head => head == entry.Id || ids.Contains(head))
                || (each.Previous is { } previous && hashes.Contains(previous))
            )
            {
                ids.Add(each.Id);
                hashes.Add(each.Hash);
            }
        }
        return ids;
    }
}
