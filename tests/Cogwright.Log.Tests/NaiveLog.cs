namespace Cogwright.Log.Tests;

/// <summary>
/// The twin: everything that <see cref="EntryLog"/> tells, straight from its definition over a set of entries, with sets and
/// repeated searches. It knows no order of arrival and shares nothing with the product but the entries.
/// </summary>
internal sealed class NaiveLog
{
    private readonly List<Entry> kept;
    private readonly Dictionary<EntryId, HashSet<EntryId>> past = [];
    private readonly HashSet<EntryId> corrected = [];

    internal NaiveLog(IEnumerable<Entry> given, ISubjectReader subjects)
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
            if (next.Corrects is { } old)
            {
                corrected.Add(old);
            }
        }
        Waiting = [.. open.Select(entry => entry.Id).Order()];
        Trace = Ordered.Aggregate(
            new TraceFold().Start,
            (state, entry) => TraceFold.Apply(state, entry, IsCorrected(entry))
        );
        Heads =
        [
            .. Ordered
                .Select(entry => entry.Id)
                .Except(past.Values.SelectMany(seen => seen))
                .Order(),
        ];
        Forks =
        [
            .. kept.GroupBy(entry => (entry.Device, entry.Sequence))
                .Where(group => group.Count() > 1)
                .OrderBy(group => group.Key)
                .SelectMany(group => group.Select(entry => entry.Id).Order()),
        ];
        Conflicts = ConflictsOf(subjects);
    }

    internal List<Entry> Ordered { get; } = [];

    internal List<EntryId> Waiting { get; }

    internal List<EntryId> Heads { get; }

    internal Trace Trace { get; }

    /// <summary>The entries of all forks, fork after fork.</summary>
    internal List<EntryId> Forks { get; }

    /// <summary>Every subject in conflict with its entries.</summary>
    internal List<(string Subject, EntryId Entry)> Conflicts { get; }

    internal bool HasSeen(EntryId entry, EntryId other) => past[entry].Contains(other);

    private List<(string Subject, EntryId Entry)> ConflictsOf(ISubjectReader subjects)
    {
        var writes = Ordered
            .Where(entry => !IsCorrected(entry))
            .SelectMany(entry => subjects.SubjectsOf(entry).Distinct().Select(s => (s, entry.Id)))
            .ToLookup(write => write.s, write => write.Id);
        return
        [
            .. writes
                .OrderBy(group => group.Key, StringComparer.Ordinal)
                .Select(group =>
                    group
                        .Where(one => !group.Any(other => HasSeen(other, one)))
                        .Select(one => (group.Key, one))
                        .ToList()
                )
                .Where(last => last.Count > 1)
                .SelectMany(last => last),
        ];
    }

    private bool IsCorrected(Entry entry) => corrected.Contains(entry.Id);

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
