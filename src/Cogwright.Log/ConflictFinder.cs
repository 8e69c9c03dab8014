using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// Finds the open conflicts of a log and keeps up with it: what is new is looked at once. For each subject it holds the
/// entries in force that no other entry in force on the same subject has seen; more than one are a conflict.
/// </summary>
/// <param name="log">The log that it follows.</param>
/// <param name="subjects">What an entry writes.</param>
public sealed class ConflictFinder(EntryLog log, ISubjectReader subjects)
{
    private readonly Dictionary<string, Writes> bySubject = new(StringComparer.Ordinal);
    private readonly SortedSet<string> open = new(StringComparer.Ordinal);
    private int looked;

    private sealed class Writes
    {
        // All entries that set the subject, as they entered.
        internal List<int> All { get; } = [];

        // Those in force that no other one in force has seen.
        internal List<int> Last { get; } = [];
    }

    /// <summary>The conflicts that nobody has settled, ascending by subject (ordinal).</summary>
    public ImmutableArray<Conflict> Open
    {
        get
        {
            CatchUp();
            return
            [
                .. open.Select(subject => new Conflict(
                    subject,
                    [
                        .. bySubject[subject]
                            .Last.OrderBy(log.Order.PositionOf)
                            .Select(log.ByEntering),
                    ]
                )),
            ];
        }
    }

    private void CatchUp()
    {
        for (; looked < log.Count; looked++)
        {
            var entry = log.ByEntering(looked);
            foreach (var subject in SubjectsOf(entry))
            {
                Take(subject, looked);
            }
            if (entry.Corrects is { } corrected)
            {
                foreach (var subject in SubjectsOf(log.ByEntering(log.IndexOf(corrected))))
                {
                    Withdraw(subject, log.IndexOf(corrected));
                }
            }
        }
    }

    private IEnumerable<string> SubjectsOf(Entry entry) =>
        subjects.SubjectsOf(entry).Distinct(StringComparer.Ordinal);

    private void Take(string subject, int index)
    {
        if (!bySubject.TryGetValue(subject, out var writes))
        {
            bySubject[subject] = writes = new Writes();
        }
        writes.All.Add(index);
        writes.Last.RemoveAll(other => log.HasSeenByIndex(index, other));
        writes.Last.Add(index);
        Note(subject, writes);
    }

    private void Withdraw(string subject, int index)
    {
        // Taken in when it entered, so the subject is there.
        var writes = bySubject[subject];
        if (!writes.Last.Contains(index))
        {
            return;
        }
        // What the withdrawn entry had covered comes to light again. Later ones first: whatever any later one has seen, one
        // of those kept has seen.
        writes.Last.Clear();
        for (var i = writes.All.Count - 1; i >= 0; i--)
        {
            var candidate = writes.All[i];
            if (
                !IsCorrectedBy(candidate, looked)
                && !writes.Last.Exists(kept => log.HasSeenByIndex(kept, candidate))
            )
            {
                writes.Last.Add(candidate);
            }
        }
        Note(subject, writes);
    }

    /// <summary>Corrected by what was looked at already: what comes later is dealt with when its turn comes.</summary>
    private bool IsCorrectedBy(int index, int last)
    {
        var corrections = log.Corrections.Of(log.ByEntering(index).Id);
        for (var i = 0; i < corrections.Count; i++)
        {
            if (log.IndexOf(corrections[i].Id) <= last)
            {
                return true;
            }
        }
        return false;
    }

    private void Note(string subject, Writes writes)
    {
        if (writes.Last.Count > 1)
        {
            open.Add(subject);
        }
        else
        {
            open.Remove(subject);
        }
    }
}
