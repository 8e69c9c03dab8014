using System.Collections.Immutable;

namespace Cogwright.Log.Tests;

public sealed class HeadStatementTests
{
    private readonly Bench left = new(1, Bench.Job);
    private readonly Bench right = new(2, Bench.Job);
    private readonly StandInSigner signer = new();

    public HeadStatementTests()
    {
        right.Log.Add(left.Write());
        left.Log.Add(right.Write());
        left.Write();
    }

    [Fact]
    public void Statement_WrittenAndRead_IsTheSame()
    {
        var first = On(left.Log, null);
        var second = On(left.Log, first);
        foreach (var statement in new[] { first, second })
        {
            var read = HeadStatement.Read(statement.Encoded.Span).Value;
            Assert.NotNull(read);
            Assert.Equal(statement.Hash, read.Hash);
            Assert.Equal(statement.Tips, read.Tips);
            Assert.Equal(
                (statement.Log, statement.Serial, statement.Count, statement.ServerTicks),
                (read.Log, read.Serial, read.Count, read.ServerTicks)
            );
            Assert.Equal((statement.Key, statement.Previous), (read.Key, read.Previous));
        }
    }

    [Fact]
    public void Statement_AnyByteFlipped_IsUnreadableOrNotSigned()
    {
        var statement = On(left.Log, null);
        for (var at = 0; at < statement.Encoded.Length; at++)
        {
            var bytes = statement.Encoded.ToArray();
            bytes[at] ^= 1;
            var read = HeadStatement.Read(bytes);
            Assert.True(!read.IsGood || read.Value.Hash != statement.Hash);
        }
    }

    [Fact]
    public void Statement_OnAnEmptyLog_IsRefusedInWords() =>
        Assert.Contains(
            "nothing to countersign",
            HeadStatement.On(new EntryLog(Bench.Job), 0, "k", null).Fault?.Text,
            StringComparison.Ordinal
        );

    [Fact]
    public void Against_LogThatHasGrown_Holds()
    {
        var statement = On(left.Log, null);
        left.Write();
        right.Log.Merge(left.Log.Ordered);

        Assert.Empty(StatementCheck.Against(statement, left.Log));
        Assert.Empty(StatementCheck.Against(statement, right.Log));
    }

    [Fact]
    public void Against_TailCut_NamesWhatIsMissing()
    {
        left.Write();
        var statement = On(left.Log, null);
        var cut = new EntryLog(Bench.Job);
        cut.Merge(left.Log.Ordered.Take(2));

        // The chain alone does not show it.
        Assert.Empty(ChainCheck.Of(Bench.Job, cut.Ordered.Select(StoredEntry.Of)));
        var found = Assert.Single(StatementCheck.Against(statement, cut));
        Assert.Equal(StatementStatus.TailMissing, found.Status);
        Assert.Contains("entries 2 to 3", found.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Against_WholeDeviceLeftOut_IsFound()
    {
        var ofRight = right.Write();
        var all = new EntryLog(Bench.Job);
        all.Merge([.. left.Log.Ordered, ofRight]);
        var statement = On(all, null);

        var found = Assert.Single(StatementCheck.Against(statement, left.Log));
        Assert.Equal(
            (StatementStatus.TailMissing, right.Device),
            (found.Status, found.Tip?.Device)
        );
    }

    // Whoever holds all the bytes can make a new past with the same ids and a whole chain; each of the entries, in turn.
    [Fact]
    public void Against_PastRewrittenFromAnyEntryOn_IsFound()
    {
        var statement = On(left.Log, null);
        for (var from = 0; from < left.Log.Count; from++)
        {
            var rewritten = Rewritten(from);
            Assert.Equal(left.Log.Count, rewritten.Count);
            Assert.Empty(ChainCheck.Of(Bench.Job, rewritten.Ordered.Select(StoredEntry.Of)));
            Assert.Contains(
                StatementCheck.Against(statement, rewritten),
                found => found.Status == StatementStatus.Rewritten
            );
        }
    }

    [Fact]
    public void Against_AnotherLog_IsSaid()
    {
        var found = StatementCheck.Against(
            On(left.Log, null),
            new EntryLog(new LogId(Bench.IdOf(5)))
        );
        Assert.Equal(StatementStatus.OtherLog, Assert.Single(found).Status);
    }

    [Fact]
    public void Against_CountThatDiffers_IsSaid()
    {
        var bytes = On(left.Log, null).Encoded.ToArray();
        // The count is the third field: 4 + (5 + 16) + (5 + 8) + 5 bytes lie before its eight.
        bytes[4 + 21 + 13 + 5 + 7]++;
        var statement = HeadStatement.Read(bytes).Value;
        Assert.NotNull(statement);

        var found = Assert.Single(StatementCheck.Against(statement, left.Log));
        Assert.Equal(StatementStatus.CountDiffers, found.Status);
    }

    [Fact]
    public async Task Among_StatementsAsMade_HoldsFromWhicheverOneBegins()
    {
        var statements = await ThreeStatements();
        Assert.Empty(await StatementCheck.AmongAsync(statements, signer));
        Assert.Empty(await StatementCheck.AmongAsync(statements[1..], signer));
    }

    [Fact]
    public async Task Among_OneLeftOut_IsMissing()
    {
        var statements = await ThreeStatements();
        var found = await StatementCheck.AmongAsync([statements[0], statements[2]], signer);
        Assert.Equal(StatementStatus.StatementMissing, Assert.Single(found).Status);
    }

    [Fact]
    public async Task Among_SignatureOfOtherBytes_IsWrong()
    {
        var statements = await ThreeStatements();
        var forged = statements[1] with { Signature = statements[0].Signature };
        var found = await StatementCheck.AmongAsync([statements[0], forged, statements[2]], signer);
        Assert.Equal(
            (StatementStatus.SignatureWrong, 2L),
            (Assert.Single(found).Status, found[0].Serial)
        );
    }

    [Fact]
    public async Task Among_LaterOneHoldsLess_HasShrunk()
    {
        var first = On(left.Log, null);
        var cut = new EntryLog(Bench.Job);
        cut.Merge(left.Log.Ordered.Take(2));
        var second = On(cut, first);

        var found = await StatementCheck.AmongAsync(
            [await Signed(first), await Signed(second)],
            signer
        );
        Assert.Equal(StatementStatus.Shrunk, Assert.Single(found).Status);
    }

    private EntryLog Rewritten(int from)
    {
        var log = new EntryLog(Bench.Job);
        var hashes = new Dictionary<Digest, Digest>();
        foreach (var (entry, position) in left.Log.Ordered.Select((entry, at) => (entry, at)))
        {
            var fields = entry.Fields with
            {
                Body = position == from ? "{\"gapMm\":9}"u8.ToArray() : entry.Body,
                Previous = entry.Previous is { } before ? hashes[before] : null,
            };
            var remade = Entry.Make(fields).Value;
            Assert.NotNull(remade);
            hashes[entry.Hash] = remade.Hash;
            Assert.Equal(AddStatus.Entered, log.Add(remade).Status);
        }
        return log;
    }

    private async Task<ImmutableArray<CountersignedHeads>> ThreeStatements()
    {
        var first = On(left.Log, null);
        left.Write();
        var second = On(left.Log, first);
        var third = On(left.Log, second);
        return [await Signed(first), await Signed(second), await Signed(third)];
    }

    private async Task<CountersignedHeads> Signed(HeadStatement statement) =>
        new(statement, await signer.SignAsync(statement.Encoded));

    private HeadStatement On(EntryLog log, HeadStatement? previous)
    {
        var made = HeadStatement.On(log, 639_080_000_000_000_000, signer.Key, previous);
        Assert.True(made.IsGood, made.Fault?.Text);
        return made.Value;
    }
}
