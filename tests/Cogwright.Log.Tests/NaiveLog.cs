namespace Cogwright.Log.Tests;

/// <summary>
/// The twin: everything that <see cref="EntryLog"/> tells, straight from its definition over a set of entries, with sets and
/// repeated searches. It knows no order of arrival and shares nothing with the product but the entries.
/// </summary>
internal sealed class NaiveLog
{
    private readonly List<Entry> kept;
    private readonly Dictionary<EntryId, HashSet<EntryId>> past = [];

    internal NaiveLog(IEnumerable<Entry> given)
    {
        kept = [.. given.DistinctBy(entry => entry.Hash)];
        var open = kept.ToList();
        var ids = new HashSet<EntryId>();
        var hashes = new HashSet<Digest>();
        while (true)
        {
            // Of those whose parents have all gone before, the least by device, sequence, id.
            var next = open.Where(entry => IsReady(entry, ids, hashes))
                .MinBy(entry => (entry.Device, entry.Sequence, entry.Id));
            if (next is null)
            {
                break;
            }
            open.Remove(next);
            ids.Add(next.Id);
            hashes.Add(next.Hash);
            Ordered.Add(next);
            var seen = new HashSet<EntryId>();
            foreach (var parent in ParentsOf(next))
            {
                seen.Add(parent.Id);
                seen.UnionWith(past[parent.Id]);
            }
            past[next.Id] = seen;
        }
        Waiting = [.. open.Select(entry => entry.Id).Order()];
    }

    internal List<Entry> Ordered { get; } = [];

    internal List<EntryId> Waiting { get; }

    internal List<EntryId> Heads =>
        [
            .. Ordered
                .Where(entry => !Ordered.Any(other => past[other.Id].Contains(entry.Id)))
                .Select(entry => entry.Id)
                .Order(),
        ];

    internal Trace Trace =>
        Ordered.Aggregate(
            new TraceFold().Start,
            (state, entry) => TraceFold.Apply(state, entry, IsCorrected(entry))
        );

    internal List<string> Forks =>
        [
            .. kept.GroupBy(entry => (entry.Device, entry.Sequence))
                .Where(group => group.Count() > 1)
                .OrderBy(group => group.Key)
                .Select(group =>
                    $"{group.Key}: {string.Join(' ', group.Select(entry => entry.Id).Order())}"
                ),
        ];

    internal bool HasSeen(EntryId entry, EntryId other) => past[entry].Contains(other);

    internal List<string> Conflicts(ISubjectReader subjects)
    {
        var writes = Ordered
            .Where(entry => !IsCorrected(entry))
            .SelectMany(entry => subjects.SubjectsOf(entry).Distinct().Select(s => (s, entry)))
            .ToLookup(write => write.s, write => write.entry);
        return
        [
            .. writes
                .OrderBy(group => group.Key, StringComparer.Ordinal)
                .Select(group =>
                    (
                        group.Key,
                        Last: group
                            .Where(one => !group.Any(other => HasSeen(other.Id, one.Id)))
                            .Select(entry => entry.Id)
                            .ToList()
                    )
                )
                .Where(each => each.Last.Count > 1)
                .Select(each => $"{each.Key}: {string.Join(' ', each.Last)}"),
        ];
    }

    private bool IsCorrected(Entry entry) => Ordered.Any(other => other.Corrects == entry.Id);

    private IEnumerable<Entry> ParentsOf(Entry entry) =>
        Ordered.Where(other =>
            entry.Heads.Contains(other.Id)
            || entry.Corrects == other.Id
            || entry.Previous == other.Hash
        );

    private static bool IsReady(Entry entry, HashSet<EntryId> ids, HashSet<Digest> hashes) =>
        entry.Heads.All(ids.Contains)
        && (entry.Corrects is not { } corrected || ids.Contains(corrected))
        && (entry.Previous is not { } previous || hashes.Contains(previous));
}
