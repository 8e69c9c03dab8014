using System.Collections.Immutable;

namespace Cogwright.Log.Tests;

public sealed class ChainCheckTests
{
    private const int Length = 6;

    private readonly Bench bench = new(1, Bench.Job);
    private readonly List<StoredEntry> rows = [];

    public ChainCheckTests()
    {
        for (var i = 0; i < Length; i++)
        {
            rows.Add(StoredEntry.Of(bench.Write($"{{\"gapMm\":{i}}}")));
        }
    }

    private ImmutableArray<ChainFinding> Findings => ChainCheck.Of(Bench.Job, rows);

    [Fact]
    public void Chain_AsItWasMade_IsIntactInWhateverOrderItIsRead()
    {
        rows.Reverse();
        Assert.Empty(Findings);
    }

    [Fact]
    public void Chain_AnyByteOfAnyEntryFlipped_IsAlteredThere()
    {
        for (var i = 0; i < Length; i++)
        {
            for (var at = 0; at < rows[i].Encoded.Length; at++)
            {
                var kept = rows[i];
                rows[i] = kept with { Encoded = Flipped(kept.Encoded, at) };
                var found = Assert.Single(Findings);
                Assert.Equal((ChainStatus.Altered, i + 1L), (found.Status, found.Sequence));
                Assert.Equal(kept.Id, found.Id);
                rows[i] = kept;
            }
        }
    }

    // Whoever changes an entry can also take its hash anew. The next entry knows the old one.
    [Fact]
    public void Chain_AnyByteFlippedAndHashTakenAnew_IsStillFound()
    {
        for (var i = 0; i < Length - 1; i++)
        {
            for (var at = 0; at < rows[i].Encoded.Length; at++)
            {
                var kept = rows[i];
                var bytes = Flipped(kept.Encoded, at);
                rows[i] = kept with { Encoded = bytes, Hash = Digest.Of(bytes) };
                Assert.Contains(Findings, found => found.Status == ChainStatus.Altered);
                Assert.All(Findings, found => Assert.InRange(found.Sequence, i + 1, i + 2));
                rows[i] = kept;
            }
        }
    }

    [Fact]
    public void Chain_AnyBitOfAHashColumnFlipped_IsAlteredThere()
    {
        for (var i = 0; i < Length; i++)
        {
            var kept = rows[i];
            var hash = kept.Hash.ToBytes();
            hash[i] ^= 1;
            rows[i] = kept with { Hash = new Digest(hash) };
            Assert.Contains(Findings, found => found.Sequence == i + 1);
            rows[i] = kept;
        }
    }

    [Fact]
    public void Chain_AnyEntryButTheLastDropped_IsAGapThere()
    {
        for (var i = 0; i < Length - 1; i++)
        {
            var kept = rows[i];
            rows.RemoveAt(i);
            var found = Assert.Single(Findings);
            Assert.Equal((ChainStatus.Gap, i + 1L), (found.Status, found.Sequence));
            rows.Insert(i, kept);
        }
    }

    [Fact]
    public void Chain_AnyTwoEntriesSwapped_IsFoundAtBoth()
    {
        for (var i = 0; i < Length; i++)
        {
            for (var j = i + 1; j < Length; j++)
            {
                var (a, b) = (rows[i], rows[j]);
                rows[i] = b with { Sequence = a.Sequence };
                rows[j] = a with { Sequence = b.Sequence };
                Assert.All(
                    new[] { i + 1L, j + 1L },
                    sequence =>
                        Assert.Contains(
                            Findings,
                            found =>
                                found.Sequence == sequence && found.Status == ChainStatus.Altered
                        )
                );
                (rows[i], rows[j]) = (a, b);
            }
        }
    }

    [Fact]
    public void Chain_TwoEntriesWithOneNumber_IsAFork()
    {
        var clone = new Bench(1, Bench.Job, seed: 4);
        clone.Log.Merge(bench.Log.Ordered.Take(3));
        rows.Add(StoredEntry.Of(clone.Write()));
        rows.Add(StoredEntry.Of(clone.Write()));

        Assert.Equal(
            [(ChainStatus.Fork, 4L), (ChainStatus.Fork, 5L)],
            Findings.Select(found => (found.Status, found.Sequence))
        );
    }

    [Fact]
    public void Chain_EntryOfAnotherLogPutIn_IsAltered()
    {
        var elsewhere = new Bench(1, new LogId(Bench.IdOf(66)), seed: 3).Write();
        rows[0] = StoredEntry.Of(elsewhere);

        Assert.Contains(Findings, found => found.Sequence == 1 && found.Id == elsewhere.Id);
    }

    [Fact]
    public void Chain_ColumnsThatSayOtherThanTheEntry_AreFound()
    {
        rows[2] = rows[2] with { Id = new EntryId(Bench.IdOf(3)) };
        Assert.Equal(3, Assert.Single(Findings).Sequence);
    }

    [Fact]
    public void Finding_OfEveryKind_SaysWhereAndWhatToDo()
    {
        rows.RemoveAt(4);
        rows[1] = rows[1] with { Encoded = Flipped(rows[1].Encoded, 9) };

        Assert.All(
            Findings,
            found =>
            {
                Assert.Contains(bench.Device.ToString(), found.Text, StringComparison.Ordinal);
                Assert.Contains("backup", found.Text, StringComparison.Ordinal);
            }
        );
        Assert.Equal(
            [ChainStatus.Altered, ChainStatus.Gap],
            Findings.Select(found => found.Status)
        );
    }

    private static byte[] Flipped(ReadOnlyMemory<byte> encoded, int at)
    {
        var bytes = encoded.ToArray();
        bytes[at] ^= 0x10;
        return bytes;
    }
}
