using System.Runtime.InteropServices;

namespace Cogwright.Log;

/// <summary>
/// Who has seen whom, in flat arrays. Entries are numbered as they enter, parents first. A strand is a run of entries of
/// one device, each of which is the next one of the one before; a device has one strand unless it was cloned or set back.
/// What an entry has seen is, in each strand, everything up to some place: one row of counts (a vector clock over strands
/// rather than devices, so that it stays exact in a fork). Entries that add nothing from other strands share the row of the
/// one before, so that a lone device's log costs one row in all.
/// </summary>
internal sealed class Strands
{
    internal const int None = -1;

    private static readonly int[] NothingSeen = [];

    private static readonly List<int> NoStrands = [];

    private readonly List<int> strandOf = [];
    private readonly List<int> placeOf = [];
    private readonly List<int[]> rowOf = [];
    private readonly List<int> parents = [];
    private readonly List<int> parentsEnd = [];
    private readonly List<Strand> strands = [];
    private readonly Dictionary<DeviceId, List<int>> strandsOfDevice = [];

    internal sealed record Strand(DeviceId Device, long FirstSequence, int Origin)
    {
        internal List<int> Members { get; } = [];
    }

    internal int Count => strandOf.Count;

    internal IReadOnlyList<Strand> All => strands;

    internal int StrandOf(int entry) => strandOf[entry];

    internal int PlaceOf(int entry) => placeOf[entry];

    internal ReadOnlySpan<int> ParentsOf(int entry)
    {
        var start = entry == 0 ? 0 : parentsEnd[entry - 1];
        return CollectionsMarshal.AsSpan(parents)[start..parentsEnd[entry]];
    }

    internal void EnsureCapacity(int count)
    {
        strandOf.EnsureCapacity(count);
        placeOf.EnsureCapacity(count);
        rowOf.EnsureCapacity(count);
        parentsEnd.EnsureCapacity(count);
    }

    /// <summary>Takes in the next entry.</summary>
    /// <param name="device">Its device.</param>
    /// <param name="sequence">Its number there.</param>
    /// <param name="previous">The device's previous entry, or <see cref="None"/>.</param>
    /// <param name="others">What else it names as seen.</param>
    internal void Add(DeviceId device, long sequence, int previous, ReadOnlySpan<int> others)
    {
        var entry = strandOf.Count;
        if (previous != None)
        {
            parents.Add(previous);
        }
        foreach (var other in others)
        {
            if (other != previous)
            {
                parents.Add(other);
            }
        }
        parentsEnd.Add(parents.Count);

        var continues = previous != None && IsLast(previous);
        var strand = continues ? strandOf[previous] : Open(device, sequence, previous);
        var members = strands[strand].Members;
        strandOf.Add(strand);
        placeOf.Add(members.Count);
        members.Add(entry);
        rowOf.Add(RowOf(entry, continues ? rowOf[previous] : NothingSeen, strand));
    }

    /// <summary>Whether one entry had seen another, directly or through others, when it was made.</summary>
    internal bool HasSeen(int entry, int other) =>
        strandOf[entry] == strandOf[other]
            ? placeOf[entry] > placeOf[other]
            : Reaches(rowOf[entry], other);

    /// <summary>The entries of a device with one sequence number: more than one in a fork.</summary>
    internal IEnumerable<int> At(DeviceId device, long sequence)
    {
        foreach (var number in StrandsOf(device))
        {
            var strand = strands[number];
            var place = sequence - strand.FirstSequence;
            if (place >= 0 && place < strand.Members.Count)
            {
                yield return strand.Members[(int)place];
            }
        }
    }

    internal bool Has(DeviceId device, long sequence)
    {
        foreach (var number in StrandsOf(device))
        {
            var place = sequence - strands[number].FirstSequence;
            if (place >= 0 && place < strands[number].Members.Count)
            {
                return true;
            }
        }
        return false;
    }

    internal List<int> StrandsOf(DeviceId device) =>
        strandsOfDevice.TryGetValue(device, out var numbers) ? numbers : NoStrands;

    private bool IsLast(int entry) => strands[strandOf[entry]].Members.Count == placeOf[entry] + 1;

    private int Open(DeviceId device, long sequence, int origin)
    {
        if (!strandsOfDevice.TryGetValue(device, out var numbers))
        {
            strandsOfDevice[device] = numbers = [];
        }
        numbers.Add(strands.Count);
        strands.Add(new Strand(device, sequence, origin));
        return strands.Count - 1;
    }

    private int[] RowOf(int entry, int[] start, int ownStrand)
    {
        var row = start;
        foreach (var parent in ParentsOf(entry))
        {
            if (strandOf[parent] == ownStrand || Reaches(row, parent))
            {
                continue;
            }
            if (ReferenceEquals(row, start))
            {
                row = new int[strands.Count];
                start.CopyTo(row, 0);
            }
            var seen = rowOf[parent];
            for (var i = 0; i < seen.Length; i++)
            {
                row[i] = Math.Max(row[i], seen[i]);
            }
            row[strandOf[parent]] = Math.Max(row[strandOf[parent]], placeOf[parent] + 1);
        }
        return row;
    }

    private bool Reaches(int[] row, int other) =>
        strandOf[other] < row.Length && row[strandOf[other]] > placeOf[other];
}
