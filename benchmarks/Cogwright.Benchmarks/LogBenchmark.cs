using BenchmarkDotNet.Attributes;
using Cogwright.Log;

namespace Cogwright.Benchmarks;

/// <summary>
/// A log of 100 000 entries by five devices that write twenty each without seeing one another and then exchange: brought
/// into order and folded, against a general-purpose topological sort (dictionaries, sets and a SortedSet of what is
/// ready, Kahn's method) over the same entries.
/// </summary>
[MemoryDiagnoser]
public class LogBenchmark
{
    private const int Devices = 5;
    private const int Apart = 20;
    private const int Size = 100_000;

    private readonly LogId id = new(Guid.AllBitsSet);
    private Entry[] asMade = [];
    private Entry[] shuffled = [];
    private EntryLog grown = new(default);
    private LiveFold<long> live = null!;
    private EntryId? lastId;
    private int turn;

    [GlobalSetup]
    public void Make()
    {
        var random = new Random(7);
        var log = new EntryLog(id);
        var made = new List<Entry>(Size);
        while (made.Count < Size)
        {
            // Twenty each on replicas that start from the same heads: only the heads matter for what an entry names.
            var round = new List<Entry>();
            for (var device = 1; device <= Devices; device++)
            {
                round.AddRange(Run(log, device, random));
            }
            log.Merge(round);
            made.AddRange(round);
        }
        asMade = [.. made];
        shuffled = [.. made];
        random.Shuffle(shuffled);
        grown = log;
        live = new LiveFold<long>(grown, new LengthFold());
        _ = live.State;
    }

    [Benchmark(Baseline = true)]
    public long OursAsMade() => Folded(asMade);

    [Benchmark]
    public long OursShuffled() => Folded(shuffled);

    /// <summary>The worst arrival: one by one, so that nothing can be sorted first and nearly every entry waits.</summary>
    [Benchmark]
    public long OursShuffledOneByOne()
    {
        var log = new EntryLog(id);
        foreach (var entry in shuffled)
        {
            log.Add(entry);
        }
        return log.Fold(new LengthFold());
    }

    [Benchmark]
    public long RivalAsMade() => FoldedByRival(asMade);

    [Benchmark]
    public long RivalShuffled() => FoldedByRival(shuffled);

    /// <summary>One more entry at the end of the 100 000, in order and folded; making it (encoding, SHA-256) included.</summary>
    [Benchmark]
    public long OursOneMore()
    {
        grown.Add(Next(grown, 1 + (turn++ % Devices), BitConverter.GetBytes(turn)));
        return live.State;
    }

    private long Folded(Entry[] entries)
    {
        var log = new EntryLog(id);
        log.Merge(entries);
        return log.Fold(new LengthFold());
    }

    private static long FoldedByRival(Entry[] entries) =>
        SortedSetOrder.Of(entries).Sum(entry => (long)entry.Body.Length);

    private List<Entry> Run(EntryLog known, int device, Random random)
    {
        var replica = new List<Entry>();
        Span<byte> chance = stackalloc byte[8];
        Entry? last = null;
        for (var i = 0; i < Apart; i++)
        {
            random.NextBytes(chance);
            var entry = Next(known, device, chance);
            if (last is not null)
            {
                entry = Entry
                    .Make(
                        entry.Fields with
                        {
                            Sequence = last.Sequence + 1,
                            Previous = last.Hash,
                            Heads = [last.Id],
                        }
                    )
                    .Value!;
            }
            replica.Add(entry);
            last = entry;
        }
        return replica;
    }

    private Entry Next(EntryLog log, int device, ReadOnlySpan<byte> chance)
    {
        Span<byte> bytes = stackalloc byte[EntryId.RandomBytes];
        bytes.Clear();
        chance.CopyTo(bytes);
        var stamp = EntryStamp.Next(lastId, 639_080_000_000_000_000, bytes);
        lastId = stamp.Id;
        var draft = new EntryDraft("account:1", "reading.taken", 1, "{\"gapMm\":6.1}"u8.ToArray());
        return log.Prepare(new DeviceId(new Guid(device, 0, 0, new byte[8])), stamp, draft).Value!;
    }

    private sealed class LengthFold : IFold<long>
    {
        public long Start => 0;

        public long Apply(long state, Entry entry, Corrections corrections) =>
            state + entry.Body.Length;
    }

    private static class SortedSetOrder
    {
        internal static IEnumerable<Entry> Of(IReadOnlyCollection<Entry> entries)
        {
            var byId = entries.ToDictionary(entry => entry.Id);
            var byHash = entries.ToDictionary(entry => entry.Hash);
            var parents = entries.ToDictionary(
                entry => entry,
                entry => ParentsOf(entry, byId, byHash)
            );
            var children = parents
                .SelectMany(each => each.Value.Select(parent => (parent, each.Key)))
                .ToLookup(edge => edge.parent, edge => edge.Key);
            var missing = parents.ToDictionary(each => each.Key, each => each.Value.Count);
            var ready = new SortedSet<(DeviceId, long, EntryId)>(
                missing.Where(each => each.Value == 0).Select(each => KeyOf(each.Key))
            );
            while (ready.Count > 0)
            {
                var least = ready.Min;
                ready.Remove(least);
                var entry = byId[least.Item3];
                yield return entry;
                foreach (var child in children[entry])
                {
                    if (--missing[child] == 0)
                    {
                        ready.Add(KeyOf(child));
                    }
                }
            }
        }

        private static (DeviceId, long, EntryId) KeyOf(Entry entry) =>
            (entry.Device, entry.Sequence, entry.Id);

        private static HashSet<Entry> ParentsOf(
            Entry entry,
            Dictionary<EntryId, Entry> byId,
            Dictionary<Digest, Entry> byHash
        )
        {
            var parents = entry.Heads.Select(head => byId[head]).ToHashSet();
            if (entry.Previous is { } previous)
            {
                parents.Add(byHash[previous]);
            }
            return parents;
        }
    }
}
