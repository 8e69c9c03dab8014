using System.Diagnostics.CodeAnalysis;
using System.Runtime.InteropServices;

namespace Cogwright.Log;

/// <summary>
/// The entries whose parents have not all entered. Each hangs on the first parent that it misses, and on that one only; when
/// that has entered, it is looked at again from there. Those hung on one parent are a chain of their own, so that an entry
/// that waits costs one small object and no list.
/// </summary>
/// <param name="indexOfId">The entries that have entered, by id; kept by the log.</param>
/// <param name="indexOfHash">The same by hash.</param>
internal sealed class WaitingRoom(
    Dictionary<EntryId, int> indexOfId,
    Dictionary<Digest, int> indexOfHash
)
{
    private const int NothingMissing = -1;

    private readonly Dictionary<EntryId, Waiter> waiters = [];
    private readonly Dictionary<EntryId, Waiter?> firstHungOnId = [];
    private readonly Dictionary<Digest, Waiter?> firstHungOnHash = [];
    private Waiter? firstFreed;

    private sealed class Waiter(Entry entry)
    {
        internal Entry Entry { get; } = entry;

        // The parents before this one have entered, and stay.
        internal int Missing { get; set; }

        // The next one hung on the same parent, or freed.
        internal Waiter? Next { get; set; }
    }

    internal int Count => waiters.Count;

    internal IEnumerable<Entry> Entries => waiters.Values.Select(waiter => waiter.Entry);

    internal Entry? Find(EntryId id) =>
        waiters.TryGetValue(id, out var waiter) ? waiter.Entry : null;

    /// <summary>Takes in an entry if it misses a parent.</summary>
    internal bool Admits(Entry entry)
    {
        var missing = FirstMissing(entry, 0);
        if (missing == NothingMissing)
        {
            return false;
        }
        var waiter = new Waiter(entry);
        waiters.Add(entry.Id, waiter);
        Hang(waiter, missing);
        return true;
    }

    /// <summary>Frees what missed nothing but this entry, which has entered.</summary>
    internal void Release(Entry entered)
    {
        if (firstHungOnId.Remove(entered.Id, out var hung))
        {
            LookAgain(hung);
        }
        if (firstHungOnHash.Remove(entered.Hash, out hung))
        {
            LookAgain(hung);
        }
    }

    /// <summary>The next entry that was freed; it leaves the room.</summary>
    internal bool TryTakeFreed([NotNullWhen(true)] out Entry? freed)
    {
        freed = firstFreed?.Entry;
        if (freed is null)
        {
            return false;
        }
        firstFreed = firstFreed!.Next;
        waiters.Remove(freed.Id);
        return true;
    }

    private void LookAgain(Waiter? hung)
    {
        while (hung is not null)
        {
            var next = hung.Next;
            var missing = FirstMissing(hung.Entry, hung.Missing);
            if (missing == NothingMissing)
            {
                hung.Next = firstFreed;
                firstFreed = hung;
            }
            else
            {
                Hang(hung, missing);
            }
            hung = next;
        }
    }

    private void Hang(Waiter waiter, int missing)
    {
        waiter.Missing = missing;
        ref var first = ref FirstHungOn(waiter.Entry, missing);
        waiter.Next = first;
        first = waiter;
    }

    private ref Waiter? FirstHungOn(Entry entry, int parent)
    {
        var heads = entry.Heads;
        if (parent > heads.Length)
        {
            return ref CollectionsMarshal.GetValueRefOrAddDefault(
                firstHungOnHash,
                entry.Previous!.Value,
                out _
            );
        }
        var id = parent == heads.Length ? entry.Corrects!.Value : heads[parent];
        return ref CollectionsMarshal.GetValueRefOrAddDefault(firstHungOnId, id, out _);
    }

    /// <summary>
    /// The first parent from a number on that has not entered. Heads are numbered from 0, then comes the entry corrected, then
    /// the device's previous one.
    /// </summary>
    private int FirstMissing(Entry entry, int from)
    {
        var heads = entry.Heads;
        for (var i = from; i < heads.Length; i++)
        {
            if (!indexOfId.ContainsKey(heads[i]))
            {
                return i;
            }
        }
        if (
            from <= heads.Length
            && entry.Corrects is { } corrected
            && !indexOfId.ContainsKey(corrected)
        )
        {
            return heads.Length;
        }
        return entry.Previous is { } previous && !indexOfHash.ContainsKey(previous)
            ? heads.Length + 1
            : NothingMissing;
    }
}
