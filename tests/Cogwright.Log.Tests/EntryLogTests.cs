namespace Cogwright.Log.Tests;

public sealed class EntryLogTests
{
    private readonly Bench left = new(1, Bench.Job);
    private readonly Bench right = new(2, Bench.Job);

    [Fact]
    public void Add_SameEntryTwice_IsOneEntry()
    {
        var entry = left.Write();

        Assert.Equal(AddStatus.Known, left.Log.Add(entry).Status);
        Assert.Equal(AddStatus.Known, left.Log.Add(Reread(entry)).Status);
        Assert.Equal(1, left.Log.Count);
    }

    [Fact]
    public void Add_ChildBeforeParents_WaitsAndSaysForWhat()
    {
        var first = left.Write();
        right.Log.Add(first);
        var second = right.Write();
        var third = right.Write();
        var log = new EntryLog(Bench.Job);

        Assert.Equal(AddStatus.Waiting, log.Add(third).Status);
        Assert.Equal(AddStatus.Known, log.Add(third).Status);
        Assert.Equal(AddStatus.Waiting, log.Add(second).Status);
        Assert.Equal(0, log.Count);
        Assert.Equal(third, log.Find(third.Id));
        var waits = log.Waiting.Single(waiting => waiting.Entry.Equals(third));
        Assert.Equal([second.Id], waits.MissingIds);
        Assert.Equal(second.Hash, waits.MissingPrevious);

        log.Merge([first]);
        Assert.Equal([first, second, third], log.Ordered);
        Assert.Empty(log.Waiting);
    }

    [Fact]
    public void Add_SameIdOtherContent_IsRefusedAndBothAreShown()
    {
        var entry = left.Write("6.1");
        var other = Made(entry.Fields with { Body = "6.4"u8.ToArray() });

        var result = left.Log.Add(other);
        Assert.Equal(AddStatus.Refused, result.Status);
        Assert.Equal(LogFaultKind.Clash, result.Fault?.Kind);
        Assert.Equal(entry, left.Log.Find(entry.Id));
        var shown = Assert.Single(left.Log.Refused);
        Assert.Equal((other, entry), (shown.Entry, shown.Held));

        // Again and again it is the same evidence once.
        Assert.Equal(LogFaultKind.Clash, left.Log.Add(other).Fault?.Kind);
        Assert.Single(left.Log.Refused);
    }

    [Fact]
    public void Add_SameIdAsOneThatWaits_IsRefusedToo()
    {
        left.Write();
        var second = left.Write();
        var log = new EntryLog(Bench.Job);
        log.Add(second);

        var result = log.Add(Made(second.Fields with { Author = "account:2" }));
        Assert.Equal(LogFaultKind.Clash, result.Fault?.Kind);
        Assert.Equal(second, log.Waiting.Single().Entry);
    }

    [Fact]
    public void Add_EntryOfAnotherLog_IsRefused()
    {
        var elsewhere = new Bench(3, new LogId(Bench.IdOf(55)));

        var stray = elsewhere.Write();
        Assert.Equal(LogFaultKind.OtherLog, left.Log.Add(stray).Fault?.Kind);
        Assert.Equal(LogFaultKind.OtherLog, left.Log.Add(stray).Fault?.Kind);
        Assert.Equal(0, left.Log.Count);
        Assert.Equal(stray, Assert.Single(left.Log.Refused).Entry);
    }

    [Fact]
    public void Add_PreviousIsAnotherDevices_IsRefusedAndShown()
    {
        var first = left.Write();
        var stranger = Stranger(left.Write());
        var log = new EntryLog(Bench.Job);
        Assert.Equal(AddStatus.Waiting, log.Add(stranger).Status);

        log.Add(first);
        Assert.Equal(LogFaultKind.BrokenChain, Assert.Single(log.Refused).Fault.Kind);
        Assert.Equal(LogFaultKind.BrokenChain, log.Add(stranger).Fault?.Kind);
        Assert.Equal([first], log.Ordered);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Merge_ChainBrokenInWhateverOrder_ShowsTheRefused(bool childFirst)
    {
        var first = left.Write();
        var stranger = Stranger(left.Write());
        var log = new EntryLog(Bench.Job);

        log.Merge(childFirst ? [stranger, first] : [first, stranger]);
        var shown = Assert.Single(log.Refused);
        Assert.Equal((stranger, LogFaultKind.BrokenChain), (shown.Entry, shown.Fault.Kind));
        Assert.Equal([first], log.Ordered);
        Assert.Empty(log.Waiting);
    }

    // A device at fault has made two entries under one id; the one that came first turns out to be of no chain.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Merge_ClashWithOneRefusedLater_IsInTheLogInWhateverOrder(bool goodFirst)
    {
        var first = left.Write();
        var good = left.Write();
        var stranger = Made(good.Fields with { Device = Bench.DeviceOf(9) });
        var child = left.Write();
        var log = new EntryLog(Bench.Job);

        log.Merge(goodFirst ? [good, stranger, child, first] : [stranger, good, child, first]);
        Assert.Equal([first, good, child], log.Ordered);
        Assert.Equal(stranger, Assert.Single(log.Refused).Entry);
        Assert.Empty(log.Waiting);
    }

    // Made to follow from one another without end: each good one frees one that is of no chain, and its id.
    [Fact]
    public void Merge_ManyClashesThatFollowFromOneAnother_AreAllSettled()
    {
        const int Many = 20_000;
        var good = new List<Entry> { left.Write() };
        var given = new List<Entry>();
        for (var i = 0; i < Many; i++)
        {
            var last = good[^1];
            good.Add(left.Write());
            given.Add(Made(good[^1].Fields with { Device = Bench.DeviceOf(9), Heads = [last.Id] }));
        }
        var log = new EntryLog(Bench.Job);
        foreach (var entry in given.Concat(good.Skip(1)).Append(good[0]))
        {
            log.Add(entry);
        }

        Assert.Equal(good, log.Ordered);
        Assert.Equal(Many, log.Refused.Count);
        Assert.Empty(log.Waiting);
    }

    // Counted, not timed. With a list and a hook for each parent it was 1.24 kB.
    [Fact]
    public void Add_ChildrenBeforeParents_AllocatesLittleForEachThatWaits()
    {
        var made = Enumerable.Range(0, 4_000).Select(_ => left.Write()).ToArray();
        var asMade = AllocatedBytes(log => made.ToList().ForEach(entry => log.Add(entry)));
        Array.Reverse(made);
        var reversed = AllocatedBytes(log => made.ToList().ForEach(entry => log.Add(entry)));

        Assert.InRange((reversed - asMade) / made.Length, 40, 400);
    }

    [Fact]
    public void Merge_ManyShuffled_AllocatesHardlyMoreThanAsMade()
    {
        var made = Enumerable.Range(0, 4_000).Select(_ => left.Write()).ToArray();
        var asMade = AllocatedBytes(log => log.Merge(made));
        new Random(1).Shuffle(made);
        var shuffled = AllocatedBytes(log => log.Merge(made));

        // Room to sort them, and nobody waits.
        Assert.InRange((shuffled - asMade) / made.Length, 0, 40);
    }

    [Fact]
    public void Add_SeveralMissingParents_WaitsUntilTheLastHasCome()
    {
        var ofLeft = left.Write();
        var ofRight = right.Write();
        left.Log.Add(ofRight);
        var mended = left.Write(corrects: ofLeft.Id);
        foreach (var entries in new Entry[][] { [ofLeft, ofRight], [ofRight, ofLeft] })
        {
            var log = new EntryLog(Bench.Job);
            log.Merge([mended, entries[0]]);
            Assert.Equal([entries[1].Id], Assert.Single(log.Waiting).MissingIds);
            log.Add(entries[1]);
            Assert.Equal([ofLeft, ofRight, mended], log.Ordered);
        }
    }

    [Fact]
    public void Order_WrongClocks_CountForNothing()
    {
        left.Ticks = DateTime.MaxValue.Ticks;
        var first = left.Write();
        right.Log.Add(first);
        right.Ticks = 0;
        var second = right.Write();
        left.Log.Add(second);
        var third = left.Write();

        Assert.Equal([first, second, third], left.Log.Ordered);
        Assert.True(second.Id < first.Id);
    }

    [Fact]
    public void Order_Unseen_IsByDeviceThenSequence()
    {
        var ofRight = new[] { right.Write(), right.Write() };
        var ofLeft = new[] { left.Write(), left.Write() };
        right.Log.Merge(ofLeft);

        Assert.Equal([.. ofLeft, .. ofRight], right.Log.Ordered);
        Assert.Equal(new[] { ofLeft[1].Id, ofRight[1].Id }.Order(), right.Log.Heads);
    }

    [Fact]
    public void Fork_ClonedDevice_IsShownAndNothingIsDropped()
    {
        left.Write();
        var clone = left.Clone(seed: 77);
        var one = left.Write("here");
        var other = clone.Write("there");
        left.Log.Merge(clone.Log.Ordered);

        var fork = Assert.Single(left.Log.Forks);
        Assert.Equal((left.Device, 2L), (fork.Device, fork.Sequence));
        Assert.Equal(new[] { one, other }.OrderBy(entry => entry.Id), fork.Entries);
        Assert.Equal(3, left.Log.Count);
        Assert.Equal(2, left.Log.Tips.Length);

        var refused = left.Prepare();
        Assert.Equal(LogFaultKind.Forked, refused.Fault?.Kind);
    }

    [Fact]
    public void Fork_OneBranchStillWaiting_IsShown()
    {
        left.Write();
        var clone = left.Clone(seed: 77);
        var one = left.Write();
        right.Log.Merge(clone.Log.Ordered);
        var unknown = right.Write();
        clone.Log.Add(unknown);
        var other = clone.Write();

        Assert.Equal(AddStatus.Waiting, left.Log.Add(other).Status);
        Assert.Equal(
            new[] { one, other }.OrderBy(entry => entry.Id),
            Assert.Single(left.Log.Forks).Entries
        );
    }

    [Fact]
    public void Prepare_DeviceSetBack_IsToldToFetchFirst()
    {
        var first = left.Write();
        var second = left.Write();
        var third = left.Write();
        var restored = new Bench(1, Bench.Job, seed: 9);
        restored.Log.Merge([first, third]);

        Assert.Equal(LogFaultKind.OwnEntriesWaiting, restored.Prepare().Fault?.Kind);
        restored.Log.Add(second);
        Assert.Equal(4, restored.Write().Sequence);
    }

    [Fact]
    public void Prepare_CorrectsWhatIsNotThere_IsRefused() =>
        Assert.Equal(
            LogFaultKind.NothingToCorrect,
            left.Prepare(corrects: new EntryId(Bench.IdOf(404))).Fault?.Kind
        );

    [Fact]
    public void Corrections_CorrectedTwiceInARow_LeavesTheLastInForce()
    {
        var slip = left.Write("4");
        var mended = left.Write("5", corrects: slip.Id);
        var mendedAgain = left.Write("6", corrects: mended.Id);

        Assert.True(left.Log.Corrections.IsCorrected(slip.Id));
        Assert.True(left.Log.Corrections.IsCorrected(mended.Id));
        Assert.Equal([mendedAgain], left.Log.Corrections.InForceFor(slip));
        Assert.Equal([mendedAgain], left.Log.Corrections.InForceFor(mendedAgain));
    }

    [Fact]
    public void Corrections_TwoDevicesAtOnce_BothStand()
    {
        var slip = left.Write("4");
        right.Log.Add(slip);
        var ofRight = right.Write("6", corrects: slip.Id);
        var ofLeft = left.Write("5", corrects: slip.Id);
        left.Log.Add(ofRight);
        right.Log.Add(ofLeft);

        Assert.Equal([ofLeft, ofRight], left.Log.Corrections.InForceFor(slip));
        Assert.Equal([ofLeft, ofRight], right.Log.Corrections.InForceFor(slip));
    }

    [Fact]
    public void Beyond_WhatTheOtherKnows_IsExactlyWhatItLacks()
    {
        var first = left.Write();
        right.Log.Add(first);
        var lacking = new[] { left.Write(), left.Write() };
        var ofRight = right.Write();

        Assert.Equal(lacking, left.Log.Beyond(right.Log.Tips));
        // A tip that is not known yet covers nothing: better twice than never.
        Assert.Equal([first, ofRight], right.Log.Beyond(left.Log.Tips));
        right.Log.Merge(lacking);
        Assert.Equal([ofRight], right.Log.Beyond(left.Log.Tips));
        Assert.Equal(left.Log.Ordered, left.Log.Beyond([]));
        Assert.Empty(left.Log.Beyond(left.Log.Tips));
    }

    [Fact]
    public void Beyond_EntriesThatWait_ArePassedOn()
    {
        left.Write();
        var second = left.Write();
        var log = new EntryLog(Bench.Job);
        log.Add(second);

        Assert.Equal([second], log.Beyond([]));
    }

    [Fact]
    public void Unknown_KindAndFields_PassThroughTwoReplicasUnchanged()
    {
        var bytes = Made(
            Example.Minimal with
            {
                Kind = "not.invented.yet",
                KindVersion = 900,
                Body = new byte[] { 0xFF, 0x00 },
                Extensions = [new EntryExtension(42, "?"u8.ToArray())],
            }
        )
            .Encoded.ToArray();
        bytes[3] = 9;
        left.Log.Add(Entry.Read(bytes).Value!);

        right.Log.Merge(left.Log.Beyond(right.Log.Tips));
        var passedOn = Assert.Single(right.Log.Beyond([]));
        Assert.Equal(bytes, passedOn.Encoded.ToArray());
        Assert.True(passedOn.IsFromLaterVersion);
    }

    private static long AllocatedBytes(Action<EntryLog> fill)
    {
        fill(new EntryLog(Bench.Job));
        var log = new EntryLog(Bench.Job);
        var before = GC.GetAllocatedBytesForCurrentThread();
        fill(log);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }

    private static Entry Reread(Entry entry) => Entry.Read(entry.Encoded.Span).Value!;

    /// <summary>The same, said to be of a device that did not make the one before.</summary>
    private static Entry Stranger(Entry entry) =>
        Made(entry.Fields with { Id = new EntryId(Bench.IdOf(8)), Device = Bench.DeviceOf(9) });

    private static Entry Made(EntryFields fields) => Entry.Make(fields).Value!;
}
