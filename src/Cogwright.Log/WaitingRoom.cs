namespace Cogwright.Log;

/// <summary>The entries whose parents have not all arrived, each hung on what it misses.</summary>
internal sealed class WaitingRoom
{
    private readonly Dictionary<EntryId, Waiter> waiters = [];
    private readonly Dictionary<EntryId, List<Waiter>> byId = [];
    private readonly Dictionary<Digest, List<Waiter>> byHash = [];

    private sealed class Waiter(Entry entry)
    {
        internal Entry Entry { get; } = entry;

        internal int Missing { get; set; }
    }

    internal int Count => waiters.Count;

    internal IEnumerable<Entry> Entries => waiters.Values.Select(waiter => waiter.Entry);

    internal Entry? Find(EntryId id) =>
        waiters.TryGetValue(id, out var waiter) ? waiter.Entry : null;

    internal void Admit(Entry entry, IEnumerable<EntryId> missingIds, Digest? missingPrevious)
    {
        var waiter = new Waiter(entry);
        foreach (var id in missingIds)
        {
            Hang(byId, id, waiter);
        }
        if (missingPrevious is { } previous)
        {
            Hang(byHash, previous, waiter);
        }
        waiters.Add(entry.Id, waiter);
    }

    /// <summary>The entries that missed nothing but this one; they leave the room.</summary>
    internal List<Entry> Release(Entry arrived)
    {
        var freed = new List<Entry>();
        Free(byId, arrived.Id, freed);
        Free(byHash, arrived.Hash, freed);
        return freed;
    }

    private void Free<TKey>(Dictionary<TKey, List<Waiter>> hooks, TKey key, List<Entry> freed)
        where TKey : notnull
    {
        if (!hooks.Remove(key, out var hung))
        {
            return;
        }
        foreach (var waiter in hung)
        {
            waiter.Missing--;
            if (waiter.Missing == 0)
            {
                waiters.Remove(waiter.Entry.Id);
                freed.Add(waiter.Entry);
            }
        }
    }

    private static void Hang<TKey>(Dictionary<TKey, List<Waiter>> hooks, TKey key, Waiter waiter)
        where TKey : notnull
    {
        if (!hooks.TryGetValue(key, out var hung))
        {
            hooks[key] = hung = [];
        }
        hung.Add(waiter);
        waiter.Missing++;
    }
}
