using System.Runtime.InteropServices;

namespace Cogwright.Log;

/// <summary>
/// The order of the entries: of those whose parents have all gone before, the one with the least device, then sequence,
/// then id goes next. It is a function of the set of entries alone. An entry that enters has no children yet, so it never
/// changes how the others stand to one another: it is put in behind its last parent, before the first one that has a
/// greater key (proof in docs/theory/log.md). Many at once are laid out anew by Kahn's method (A. B. Kahn, 1962) over the
/// fronts of the strands.
/// </summary>
internal sealed class CausalOrder(List<Entry> entries, Strands strands)
{
    private readonly List<int> order = [];
    private readonly List<int> positionOf = [];

    // For each entry, the first position at which the order changed when it was put in.
    private readonly List<int> changedFrom = [];

    internal int this[int position] => order[position];

    internal int PositionOf(int entry) => positionOf[entry];

    internal int ChangedFrom(int entry) => changedFrom[entry];

    /// <summary>
    /// Puts in what has entered since the last time: one by one until that has taken as many steps as there are entries, then
    /// all anew. A step (a comparison, or an entry moved up by one place) is not more than what a layout does for each entry, and
    /// the last one put in takes at most as many steps again: what was done in vain is two layouts at most, however many come.
    /// </summary>
    internal void Settle()
    {
        long steps = 0;
        while (order.Count < entries.Count)
        {
            if (steps > entries.Count)
            {
                LayOut();
                return;
            }
            steps += Insert(order.Count);
        }
    }

    /// <summary>Puts in one entry and says in how many steps.</summary>
    private int Insert(int entry)
    {
        var position = 0;
        foreach (var parent in strands.ParentsOf(entry))
        {
            position = Math.Max(position, positionOf[parent] + 1);
        }
        var firstPossible = position;
        while (position < order.Count && Compare(order[position], entry) < 0)
        {
            position++;
        }
        order.Insert(position, entry);
        positionOf.Add(position);
        changedFrom.Add(position);
        var tail = CollectionsMarshal.AsSpan(order)[(position + 1)..];
        foreach (var moved in tail)
        {
            positionOf[moved]++;
        }
        return position - firstPossible + tail.Length;
    }

    private void LayOut()
    {
        var old = order.ToArray();
        var known = order.Count;
        order.Clear();
        new Layout(strands, Compare).WriteTo(order, entries.Count);
        CollectionsMarshal.SetCount(positionOf, entries.Count);
        for (var position = 0; position < order.Count; position++)
        {
            positionOf[order[position]] = position;
        }
        var same = 0;
        while (same < old.Length && old[same] == order[same])
        {
            same++;
        }
        for (var entry = known; entry < entries.Count; entry++)
        {
            changedFrom.Add(same);
        }
    }

    private int Compare(int left, int right) => entries[left].Key.CompareTo(entries[right].Key);

    /// <summary>
    /// Kahn's method with one front for each strand: the others of a strand wait for it anyhow. A front that misses a parent
    /// is hung on that parent and looked at again when it has gone.
    /// </summary>
    private sealed class Layout
    {
        private readonly Strands strands;
        private readonly int[] front;

        // For each front, the parents before this one have gone.
        private readonly int[] reached;
        private readonly int[] nextHung;
        private readonly int[] firstHung;
        private readonly bool[] gone;
        private readonly PriorityQueue<int, int> ready;

        internal Layout(Strands strands, Comparison<int> compare)
        {
            this.strands = strands;
            front = new int[strands.All.Count];
            reached = new int[strands.All.Count];
            nextHung = new int[strands.All.Count];
            firstHung = new int[strands.Count];
            gone = new bool[strands.Count];
            Array.Fill(firstHung, Strands.None);
            ready = new PriorityQueue<int, int>(Comparer<int>.Create(compare));
        }

        internal void WriteTo(List<int> order, int count)
        {
            order.EnsureCapacity(count);
            for (var strand = 0; strand < front.Length; strand++)
            {
                LookAt(strand);
            }
            while (ready.TryDequeue(out var strand, out var entry))
            {
                order.Add(entry);
                gone[entry] = true;
                front[strand]++;
                reached[strand] = 0;
                var hung = firstHung[entry];
                while (hung != Strands.None)
                {
                    var next = nextHung[hung];
                    LookAt(hung);
                    hung = next;
                }
                LookAt(strand);
            }
        }

        private void LookAt(int strand)
        {
            var members = strands.All[strand].Members;
            if (front[strand] == members.Count)
            {
                return;
            }
            var entry = members[front[strand]];
            var parents = strands.ParentsOf(entry);
            for (; reached[strand] < parents.Length; reached[strand]++)
            {
                var parent = parents[reached[strand]];
                if (!gone[parent])
                {
                    nextHung[strand] = firstHung[parent];
                    firstHung[parent] = strand;
                    return;
                }
            }
            ready.Enqueue(strand, entry);
        }
    }
}
