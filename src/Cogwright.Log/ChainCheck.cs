using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// Checks the rows of a store: that every entry is what it was, and that the chain of each device is whole. A tail that was
/// cut, and a last entry that was replaced together with its hash, leave a whole chain; only a countersigned statement shows
/// them (<see cref="StatementCheck"/>).
/// </summary>
public static class ChainCheck
{
    /// <summary>Checks the rows of one log, in whatever order.</summary>
    /// <returns>What was found, by device and sequence; empty if every chain is intact.</returns>
    public static ImmutableArray<ChainFinding> Of(LogId log, IEnumerable<StoredEntry> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        return
        [
            .. rows.GroupBy(row => row.Device)
                .OrderBy(chain => chain.Key)
                .SelectMany(chain => OfDevice(log, [.. chain.OrderBy(row => row.Sequence)])),
        ];
    }

    private static IEnumerable<ChainFinding> OfDevice(LogId log, StoredEntry[] rows)
    {
        var expected = 1L;
        var before = new HashSet<Digest>();
        foreach (var place in rows.GroupBy(row => row.Sequence))
        {
            var isFirstAfterGap = place.Key != expected;
            if (isFirstAfterGap)
            {
                yield return Gap(place.First(), expected);
            }
            if (place.Skip(1).Any())
            {
                yield return Fork(place);
            }
            var here = new HashSet<Digest>();
            foreach (var row in place)
            {
                if (Altered(log, row, isFirstAfterGap ? null : before) is { } altered)
                {
                    yield return altered;
                }
                here.Add(row.Hash);
            }
            before = here;
            expected = place.Key + 1;
        }
    }

    /// <param name="log">The log that the entry must belong to.</param>
    /// <param name="row">The row.</param>
    /// <param name="before">The hashes of the entries with the number before; null after a gap, where nothing is known.</param>
    private static ChainFinding? Altered(LogId log, StoredEntry row, HashSet<Digest>? before)
    {
        if (Digest.Of(row.Encoded.Span) != row.Hash)
        {
            return Finding(ChainStatus.Altered, row, "chain.bytes");
        }
        var outcome = Entry.Read(row.Encoded.Span);
        if (!outcome.IsGood)
        {
            return Finding(ChainStatus.Altered, row, "chain.unreadable", outcome.Fault.Text);
        }
        var entry = outcome.Value;
        if (
            (entry.Id, entry.Device, entry.Sequence, entry.Log)
            != (row.Id, row.Device, row.Sequence, log)
        )
        {
            return Finding(ChainStatus.Altered, row, "chain.columns", entry, entry.Log);
        }
        return entry.Previous is { } previous && before is not null && !before.Contains(previous)
            ? Finding(ChainStatus.Altered, row, "chain.previous", row.Sequence - 1)
            : null;
    }

    private static ChainFinding Gap(StoredEntry after, long expected) =>
        new(
            ChainStatus.Gap,
            after.Device,
            expected,
            null,
            Texts.Get("chain.gap", after.Device, expected, after.Sequence - 1)
        );

    private static ChainFinding Fork(IEnumerable<StoredEntry> place)
    {
        var row = place.First();
        return Finding(
            ChainStatus.Fork,
            row,
            "chain.fork",
            string.Join(", ", place.Select(each => each.Id).Order())
        );
    }

    private static ChainFinding Finding(
        ChainStatus status,
        StoredEntry row,
        string key,
        params ReadOnlySpan<object?> more
    ) =>
        new(
            status,
            row.Device,
            row.Sequence,
            row.Id,
            Texts.Get(key, [row.Device, row.Sequence, row.Id, .. more])
        );
}
