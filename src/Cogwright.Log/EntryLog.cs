using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// The entries of one log as one replica knows them: a set that only grows. Whatever the order of arrival, replicas with
/// the same entries show the same order, heads, forks and waiting entries; clashes apart, where two entries with one id
/// differ and the first one stays. Unlike the values of this room it changes in place, because one more entry must not copy
/// a hundred thousand; it is for one thread at a time.
/// </summary>
public sealed class EntryLog
{
    private readonly List<Entry> entries = [];
    private readonly Dictionary<EntryId, int> indexOfId = [];
    private readonly Dictionary<Digest, int> indexOfHash = [];
    private readonly HashSet<int> heads = [];
    private readonly WaitingRoom waiting;
    private readonly Dictionary<Digest, RefusedEntry> refused = [];

    // By the hash of the entry that holds their id.
    private readonly Dictionary<Digest, List<Entry>> barredBy = [];
    private readonly Queue<Entry> unbarred = [];
    private readonly HashSet<(DeviceId Device, long Sequence)> forks = [];
    private readonly Strands strands = new();
    private readonly CausalOrder order;

    /// <summary>A log without entries.</summary>
    /// <param name="id">The log.</param>
    public EntryLog(LogId id)
    {
        Id = id;
        waiting = new WaitingRoom(indexOfId, indexOfHash);
        order = new CausalOrder(entries, strands);
    }

    /// <summary>The log.</summary>
    public LogId Id { get; }

    /// <summary>How many entries are in the order.</summary>
    public int Count => entries.Count;

    /// <summary>How many entries wait for their parents.</summary>
    public int WaitingCount => waiting.Count;

    /// <summary>Which entries are corrected.</summary>
    public Corrections Corrections { get; } = new();

    /// <summary>The entries that no other one has seen, ascending by id: what the next entry names as seen.</summary>
    public ImmutableArray<EntryId> Heads => [.. heads.Select(head => entries[head].Id).Order()];

    /// <summary>
    /// The entries refused, as evidence; in no particular order. An entry that waits first may be refused only when its
    /// parents have arrived, so whoever has given entries looks here, and not at single answers.
    /// </summary>
    public IReadOnlyCollection<RefusedEntry> Refused => refused.Values;

    /// <summary>The entries in order: causal, then by device, then by sequence. Never by a clock.</summary>
    public IEnumerable<Entry> Ordered
    {
        get
        {
            for (var position = 0; position < Count; position++)
            {
                yield return this[position];
            }
        }
    }

    /// <summary>The entry at a position of the order.</summary>
    /// <param name="position">From 0 to <see cref="Count"/> − 1.</param>
    public Entry this[int position] => entries[Order[position]];

    /// <summary>The entries that wait, ascending by id, with what each waits for.</summary>
    public ImmutableArray<WaitingEntry> Waiting =>
        [
            .. waiting
                .Entries.OrderBy(entry => entry.Id)
                .Select(entry => new WaitingEntry(
                    entry,
                    [.. MissingIds(entry).Order()],
                    MissingPrevious(entry)
                )),
        ];

    /// <summary>Every device that made two entries with one number, ascending by device and sequence.</summary>
    public ImmutableArray<Fork> Forks
    {
        get
        {
            var places = new HashSet<(DeviceId Device, long Sequence)>(forks);
            var waitingAt = waiting.Entries.ToLookup(entry => (entry.Device, entry.Sequence));
            foreach (var group in waitingAt)
            {
                if (group.Count() + strands.At(group.Key.Device, group.Key.Sequence).Count() > 1)
                {
                    places.Add(group.Key);
                }
            }
            return
            [
                .. places
                    .Order()
                    .Select(place => new Fork(
                        place.Device,
                        place.Sequence,
                        [
                            .. strands
                                .At(place.Device, place.Sequence)
                                .Select(index => entries[index])
                                .Concat(waitingAt[place])
                                .OrderBy(entry => entry.Id),
                        ]
                    )),
            ];
        }
    }

    /// <summary>The ends of all chains in the order, ascending by device, sequence and id.</summary>
    public ImmutableArray<ChainTip> Tips =>
        [
            .. strands
                .All.Select(strand => entries[strand.Members[^1]])
                .OrderBy(entry => entry.Key)
                .Select(entry => new ChainTip(entry.Device, entry.Sequence, entry.Id, entry.Hash)),
        ];

    internal CausalOrder Order
    {
        get
        {
            order.Settle();
            return order;
        }
    }

    /// <summary>The entry with that id, in the order or waiting; null if it is not known.</summary>
    public Entry? Find(EntryId entry) =>
        indexOfId.TryGetValue(entry, out var index) ? entries[index] : waiting.Find(entry);

    /// <summary>The state of the log, computed from its beginning; <see cref="LiveFold{TState}"/> keeps up instead.</summary>
    public TState Fold<TState>(IFold<TState> fold)
    {
        ArgumentNullException.ThrowIfNull(fold);
        var state = fold.Start;
        foreach (var entry in Ordered)
        {
            state = fold.Apply(state, entry, Corrections);
        }
        return state;
    }

    /// <summary>The position of an entry in the order; −1 if it is not there.</summary>
    internal int PositionOf(EntryId entry) =>
        indexOfId.TryGetValue(entry, out var index) ? Order.PositionOf(index) : -1;

    /// <summary>
    /// Whether one entry had seen another, directly or through others, when it was made. False if either is not in the
    /// order, or both are the same.
    /// </summary>
    internal bool HasSeen(EntryId entry, EntryId other) =>
        indexOfId.TryGetValue(entry, out var index)
        && indexOfId.TryGetValue(other, out var otherIndex)
        && strands.HasSeen(index, otherIndex);

    /// <summary>
    /// Takes in an entry, made here or elsewhere. Giving it twice changes nothing. Whatever its clock says, its place in the
    /// order comes from what it has seen.
    /// </summary>
    public AddResult Add(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        var result = TakeIn(entry);
        while (unbarred.TryDequeue(out var next))
        {
            TakeIn(next);
        }
        return result;
    }

    private AddResult TakeIn(Entry entry)
    {
        if (refused.Count > 0 && refused.TryGetValue(entry.Hash, out var before))
        {
            return new AddResult(AddStatus.Refused, before.Fault);
        }
        if (entry.Log != Id)
        {
            var text = Texts.Get("add.otherLog", entry, entry.Log, Id);
            return Refuse(entry, null, LogFaultKind.OtherLog, text);
        }
        if (Find(entry.Id) is { } held)
        {
            return held.Hash == entry.Hash
                ? new AddResult(AddStatus.Known)
                : RefuseAsClash(entry, held);
        }
        return waiting.Admits(entry) ? new AddResult(AddStatus.Waiting) : EnterWithFollowers(entry);
    }

    /// <summary>
    /// Takes in many entries, in whatever order. What became of them is in <see cref="Count"/>, <see cref="Waiting"/> and
    /// <see cref="Refused"/>.
    /// </summary>
    public void Merge(IEnumerable<Entry> given)
    {
        ArgumentNullException.ThrowIfNull(given);
        var all = given.ToArray();
        // Only for a merge that makes the log another one: many small ones would copy the tables each time.
        if (all.Length > Count)
        {
            MakeRoomFor(Count + all.Length);
        }
        foreach (var entry in ParentsMostlyFirst(all))
        {
            Add(entry);
        }
    }

    /// <summary>
    /// Makes a device's next entry, with its number, its chain and the heads seen. It is not taken in: store it first, then
    /// <see cref="Add"/> it.
    /// </summary>
    /// <param name="device">This device.</param>
    /// <param name="stamp">From the device's clock and chance.</param>
    /// <param name="draft">What it says.</param>
    /// <returns>
    /// The entry; or a fault, if the device's chain is forked, if later entries of this device wait (it was set back: fetch
    /// what is missing first), if what it corrects is not in the log, or if a field is impossible.
    /// </returns>
    public Outcome<Entry> Prepare(DeviceId device, EntryStamp stamp, EntryDraft draft)
    {
        ArgumentNullException.ThrowIfNull(stamp);
        ArgumentNullException.ThrowIfNull(draft);
        var own = strands.StrandsOf(device);
        if (own.Count > 1)
        {
            return Fault(LogFaultKind.Forked, Texts.Get("prepare.forked", device));
        }
        if (waiting.Entries.FirstOrDefault(entry => entry.Device == device) is { } later)
        {
            return Fault(LogFaultKind.OwnEntriesWaiting, Texts.Get("prepare.waiting", later));
        }
        if (draft.Corrects is { } corrected && !indexOfId.ContainsKey(corrected))
        {
            return Fault(
                LogFaultKind.NothingToCorrect,
                Texts.Get("prepare.nothingToCorrect", corrected)
            );
        }
        var last = own.Count == 0 ? null : entries[strands.All[own[0]].Members[^1]];
        return Entry.Make(
            new EntryFields
            {
                Id = stamp.Id,
                Log = Id,
                Device = device,
                Sequence = last is null ? 1 : last.Sequence + 1,
                WallClockTicks = stamp.WallClockTicks,
                Author = draft.Author,
                Kind = draft.Kind,
                KindVersion = draft.KindVersion,
                Body = draft.Body,
                Heads = [.. Heads.Take(EntryLimits.Heads)],
                Previous = last?.Hash,
                Corrects = draft.Corrects,
                Personal = draft.Personal,
            }
        );
    }

    /// <summary>
    /// What another replica lacks, given the ends of its chains: in the order, and after that everything that waits here. A
    /// tip that is not known here covers nothing (the other may be ahead on this chain, or on another branch of it), so fetch
    /// from the other first: then nothing is sent twice. An entry too many does no harm.
    /// </summary>
    public ImmutableArray<Entry> Beyond(IEnumerable<ChainTip> known)
    {
        ArgumentNullException.ThrowIfNull(known);
        var covered = Covered(known);
        var lacking = new List<int>();
        for (var strand = 0; strand < covered.Length; strand++)
        {
            var members = strands.All[strand].Members;
            lacking.AddRange(members.Skip(covered[strand]));
        }
        return
        [
            .. lacking.OrderBy(Order.PositionOf).Select(index => entries[index]),
            .. waiting.Entries.OrderBy(entry => entry.Id),
        ];
    }

    /// <summary>How many entries the chains up to these tips hold; tips that are not known count nothing.</summary>
    internal long CountUpTo(IEnumerable<ChainTip> tips) => Covered(tips).Sum(count => (long)count);

    internal Entry? WithHash(Digest hash) =>
        indexOfHash.TryGetValue(hash, out var index) ? entries[index] : null;

    internal IEnumerable<Entry> At(DeviceId device, long sequence) =>
        strands.At(device, sequence).Select(index => entries[index]);

    /// <summary>The sequence of the last entry in the order of a device; 0 if there is none.</summary>
    internal long LastSequenceOf(DeviceId device) =>
        strands
            .StrandsOf(device)
            .Select(strand => entries[strands.All[strand].Members[^1]].Sequence)
            .DefaultIfEmpty()
            .Max();

    /// <summary>The entry that entered as the given one, counted from 0; parents always entered before.</summary>
    internal Entry ByEntering(int index) => entries[index];

    internal int IndexOf(EntryId entry) => indexOfId[entry];

    internal bool HasSeenByIndex(int index, int other) => strands.HasSeen(index, other);

    /// <summary>
    /// The length of the first part of the order that is what it was when that many entries had entered, corrections
    /// included.
    /// </summary>
    internal int UnchangedSince(int entered, int length)
    {
        order.Settle();
        for (var index = entered; index < entries.Count; index++)
        {
            length = Math.Min(length, order.ChangedFrom(index));
            if (entries[index].Corrects is { } corrected)
            {
                length = Math.Min(length, order.PositionOf(indexOfId[corrected]));
            }
        }
        return length;
    }

    private AddResult EnterWithFollowers(Entry first)
    {
        var result = Enter(first);
        if (result.Status != AddStatus.Entered || waiting.Count == 0)
        {
            return result;
        }
        waiting.Release(first);
        while (waiting.TryTakeFreed(out var freed))
        {
            if (Enter(freed).Status == AddStatus.Entered)
            {
                waiting.Release(freed);
            }
            else
            {
                UnbarThoseThatClashedWith(freed);
            }
        }
        return result;
    }

    /// <summary>
    /// An entry that waited has been refused, so its id is free: without this, another entry that came while it waited and
    /// clashed with it would be barred for ever, and would be in the log had it come a little later. A queue and no recursion,
    /// because a hostile sender can make one follow from another without end.
    /// </summary>
    private void UnbarThoseThatClashedWith(Entry ousted)
    {
        if (!barredBy.Remove(ousted.Hash, out var barred))
        {
            return;
        }
        foreach (var entry in barred)
        {
            refused.Remove(entry.Hash);
            unbarred.Enqueue(entry);
        }
    }

    /// <summary>
    /// By id, so nearly by time: where clocks are about right, hardly an entry has to wait. Any order gives the same log. Of
    /// two with one id the first one given stays first.
    /// </summary>
    private static IEnumerable<Entry> ParentsMostlyFirst(Entry[] given)
    {
        for (var i = 1; i < given.Length; i++)
        {
            if (given[i].Id < given[i - 1].Id)
            {
                return given.OrderBy(entry => entry.Id);
            }
        }
        return given;
    }

    private void MakeRoomFor(int count)
    {
        entries.EnsureCapacity(count);
        indexOfId.EnsureCapacity(count);
        indexOfHash.EnsureCapacity(count);
        strands.EnsureCapacity(count);
    }

    private AddResult Enter(Entry entry)
    {
        var previous = entry.Previous is { } hash ? indexOfHash[hash] : Strands.None;
        if (previous != Strands.None && !IsNext(entries[previous], entry))
        {
            return Refuse(
                entry,
                null,
                LogFaultKind.BrokenChain,
                Texts.Get("add.brokenChain", entry, entries[previous])
            );
        }
        var others = SeenBy(entry);
        if (strands.Has(entry.Device, entry.Sequence))
        {
            forks.Add((entry.Device, entry.Sequence));
        }
        var index = entries.Count;
        entries.Add(entry);
        indexOfId.Add(entry.Id, index);
        indexOfHash.Add(entry.Hash, index);
        strands.Add(entry.Device, entry.Sequence, previous, others);
        Corrections.Note(entry);
        foreach (var parent in strands.ParentsOf(index))
        {
            heads.Remove(parent);
        }
        heads.Add(index);
        return new AddResult(AddStatus.Entered);
    }

    private int[] SeenBy(Entry entry)
    {
        var count = entry.Heads.Length;
        var seen = new int[entry.Corrects is null ? count : count + 1];
        for (var i = 0; i < count; i++)
        {
            seen[i] = indexOfId[entry.Heads[i]];
        }
        if (entry.Corrects is { } corrected)
        {
            seen[count] = indexOfId[corrected];
        }
        return seen;
    }

    private static bool IsNext(Entry previous, Entry entry) =>
        previous.Device == entry.Device && previous.Sequence == entry.Sequence - 1;

    private IEnumerable<EntryId> MissingIds(Entry entry)
    {
        var named = entry.Corrects is { } corrected ? entry.Heads.Add(corrected) : entry.Heads;
        return named.Distinct().Where(id => !indexOfId.ContainsKey(id));
    }

    private Digest? MissingPrevious(Entry entry) =>
        entry.Previous is { } previous && !indexOfHash.ContainsKey(previous) ? previous : null;

    /// <summary>For each strand, how many of its entries lie in the chains up to these tips.</summary>
    private int[] Covered(IEnumerable<ChainTip> tips)
    {
        var covered = new int[strands.All.Count];
        foreach (var tip in tips)
        {
            var index = indexOfHash.GetValueOrDefault(tip.Hash, Strands.None);
            while (index != Strands.None)
            {
                var strand = strands.StrandOf(index);
                covered[strand] = Math.Max(covered[strand], strands.PlaceOf(index) + 1);
                index = strands.All[strand].Origin;
            }
        }
        return covered;
    }

    private AddResult RefuseAsClash(Entry entry, Entry held)
    {
        if (!barredBy.TryGetValue(held.Hash, out var barred))
        {
            barredBy[held.Hash] = barred = [];
        }
        barred.Add(entry);
        return Refuse(entry, held, LogFaultKind.Clash, Texts.Get("add.clash", entry, held));
    }

    private AddResult Refuse(Entry entry, Entry? held, LogFaultKind kind, string text)
    {
        var fault = new LogFault(kind, text);
        refused.Add(entry.Hash, new RefusedEntry(entry, held, fault));
        return new AddResult(AddStatus.Refused, fault);
    }

    private static Outcome<Entry> Fault(LogFaultKind kind, string text) =>
        new(new LogFault(kind, text));
}
