namespace Cogwright.Log.Tests;

public sealed class OutboxTests
{
    private readonly Bench bench = new(1, Bench.Job);

    [Fact]
    public void Append_EntryTwice_IsInItOnce()
    {
        var entry = bench.Write();
        var empty = Outbox.For(Bench.Job);
        var outbox = empty.Append(entry).Append(entry);

        Assert.Equal(1, outbox.UnsentCount);
        Assert.Equal(0, empty.UnsentCount);
    }

    [Fact]
    public void Append_EntryOfAnotherLog_IsRefusedInWords() =>
        Assert.Contains(
            "its own log",
            Assert
                .Throws<ArgumentException>(() =>
                    Outbox.For(new LogId(Bench.IdOf(9))).Append(bench.Write())
                )
                .Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void Batch_AskedAgain_IsTheSameUntilAnswered()
    {
        var entries = new[] { bench.Write(), bench.Write(), bench.Write() };
        var outbox = Filled(entries);

        var batch = outbox.Batch(maxEntries: 2);
        Assert.Equal(entries.Take(2).Select(entry => entry.Id), batch.Select(item => item.Id));
        Assert.Equal(batch, outbox.Batch(maxEntries: 2));

        outbox = outbox.Take(Page([.. batch.Select(item => Said(item, AnswerStatus.Created))]));
        Assert.Equal(entries[2].Id, Assert.Single(outbox.Batch()).Id);
    }

    [Fact]
    public void Batch_EntryLargerThanTheBatch_IsSentAlone()
    {
        var outbox = Outbox
            .For(Bench.Job)
            .Append(bench.Write(new string('x', 5000)))
            .Append(bench.Write());

        Assert.Single(outbox.Batch(maxBytes: 100));
        Assert.Equal(2, outbox.Batch().Length);
    }

    [Fact]
    public void Take_AnswerTwiceOrForWhatIsGone_ChangesNothing()
    {
        var item = Item(out var outbox);
        var created = Said(item, AnswerStatus.Created);
        outbox = outbox.Take(Page(created, created, Said(item, AnswerStatus.Refused)));

        Assert.Empty(outbox.Items);
    }

    [Fact]
    public void Take_Refused_StaysAndIsShownAndIsNotSent()
    {
        var item = Item(out var outbox);
        outbox = outbox.Take(Page(Said(item, AnswerStatus.Refused)));

        Assert.Equal("the shop is closed", Assert.Single(outbox.Refused).Reason);
        Assert.Equal(0, outbox.UnsentCount);
        Assert.Empty(outbox.Batch());

        outbox = outbox.Retry(item.Id);
        Assert.Equal(item, Assert.Single(outbox.Batch()));
    }

    [Fact]
    public void Take_RefusedAgainAfterRetry_IsShownOnceWithTheLastReason()
    {
        var item = Item(out var outbox);
        outbox = outbox.Take(Page(Said(item, AnswerStatus.Refused))).Retry(item.Id);
        outbox = outbox.Take(
            Page(new Answer(item.Id, item.Hash, AnswerStatus.Refused, "the disk is full"))
        );

        Assert.Equal("the disk is full", Assert.Single(outbox.Refused).Reason);
        Assert.Single(Outbox.Restore(outbox.Log, outbox.Epoch, outbox.Items).Refused);
    }

    [Fact]
    public void Take_CreatedAfterALateRefusal_Counts()
    {
        var item = Item(out var outbox);
        outbox = outbox.Take(
            Page(Said(item, AnswerStatus.Refused), Said(item, AnswerStatus.Exists))
        );

        Assert.Empty(outbox.Items);
    }

    [Theory]
    [InlineData(AnswerStatus.Created)]
    [InlineData(AnswerStatus.Exists)]
    public void Take_ConfirmedWithOtherContent_IsKeptAsRefused(AnswerStatus status)
    {
        var item = Item(out var outbox);
        outbox = outbox.Take(Page(new Answer(item.Id, Digest.Of("other"u8), status)));

        Assert.Contains(
            "other content",
            Assert.Single(outbox.Refused).Reason,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Restore_FromRows_GoesOnWhereItWas()
    {
        var outbox = Filled(bench.Write(), bench.Write(), bench.Write());
        outbox = outbox.Take(
            Page(
                Said(outbox.Items.First(), AnswerStatus.Created),
                Said(outbox.Items.Last(), AnswerStatus.Refused)
            )
        );

        var restored = Outbox.Restore(outbox.Log, outbox.Epoch, outbox.Items.Reverse().ToList());
        Assert.Equal(outbox.Items, restored.Items);
        Assert.Equal(outbox.Batch(), restored.Batch());
        Assert.True(restored.Append(bench.Write()).Items.Last().Place > outbox.Items.Last().Place);
    }

    private OutboxItem Item(out Outbox outbox)
    {
        outbox = Filled(bench.Write());
        return outbox.Items.Single();
    }

    [Fact]
    public void Take_AnswerFromBeforeTheServerWasRestored_ChangesNothing()
    {
        var item = Item(out var outbox);
        outbox = outbox.Meet(Fetched(Bench.IdOf(2)), bench.Log);
        outbox = outbox.Take(Page(Said(item, AnswerStatus.Created)));

        Assert.Equal(1, outbox.UnsentCount);
    }

    [Fact]
    public void Meet_ServerRestoredFromABackup_QueuesWhatItLacks()
    {
        var item = Item(out var outbox);
        outbox = outbox.Take(Page(Said(item, AnswerStatus.Created)));
        Assert.Empty(outbox.Items);
        Assert.Empty(outbox.Meet(Fetched(Life), bench.Log).Items);

        outbox = outbox.Meet(Fetched(Bench.IdOf(2)), bench.Log);
        Assert.Equal(item.Id, Assert.Single(outbox.Batch()).Id);
    }

    // The server was set back to a backup and has since got entries of the other device that are not on the first page.
    [Fact]
    public void Meet_FirstPageOfANewEpoch_QueuesAllThatTheServerLacks()
    {
        var other = new Bench(2, Bench.Job);
        var ofOther = new[] { other.Write(), other.Write() };
        bench.Log.Merge(ofOther);
        var server = new EntryLog(Bench.Job);
        var own = bench.Write();
        server.Merge([.. ofOther, own]);
        var lost = new[] { bench.Write(), bench.Write() };
        server.Add(other.Write());
        var outbox = Outbox.For(Bench.Job).Meet(Fetched(Life), bench.Log);
        outbox = outbox.Take(
            Page([.. outbox.Items.Select(item => Said(item, AnswerStatus.Created))])
        );
        Assert.Empty(outbox.Items);

        var first = new PullPage(Bench.IdOf(2), 0, 1, [ofOther[0]], server.Tips, HasMore: true);
        outbox = outbox.Meet(first, bench.Log);
        // Of the chain that goes on beyond what is known here, everything: too much, but nothing is left out.
        Assert.Equal([.. ofOther, .. lost], Queued(outbox));

        // The rest of the epoch puts in nothing again, though the answers have emptied the queue.
        outbox = outbox.Take(
            new AnswerPage(
                Bench.IdOf(2),
                [.. outbox.Items.Select(item => Said(item, AnswerStatus.Exists))]
            )
        );
        Assert.Empty(outbox.Meet(first with { After = 1, Last = 2 }, bench.Log).Items);
    }

    [Fact]
    public void Meet_AfterAllWasFetched_QueuesExactlyWhatTheServerLacks()
    {
        var other = new Bench(2, Bench.Job);
        var server = new EntryLog(Bench.Job);
        server.Merge([other.Write(), other.Write(), bench.Write()]);
        bench.Log.Merge(server.Ordered);
        var lost = new[] { bench.Write(), bench.Write() };
        var page = new PullPage(Life, 0, 3, [.. server.Ordered], server.Tips, HasMore: false);

        Assert.Equal(lost, Queued(Outbox.For(Bench.Job).Meet(page, bench.Log)));
    }

    [Fact]
    public void Meet_AnotherLog_IsRefusedInWordsEvenIfNothingIsLacking() =>
        Assert.Contains(
            "the log that the page is of",
            Assert
                .Throws<ArgumentException>(() =>
                    Outbox
                        .For(Bench.Job)
                        .Meet(Fetched(Life), new EntryLog(new LogId(Bench.IdOf(9))))
                )
                .Message,
            StringComparison.Ordinal
        );

    private IEnumerable<Entry> Queued(Outbox outbox) =>
        outbox.Items.Select(item => bench.Log.Find(item.Id)!);

    private static readonly Guid Life = Bench.IdOf(1);

    private static Outbox Filled(params Entry[] entries) =>
        entries.Aggregate(
            Outbox.For(Bench.Job).Meet(Fetched(Life), new EntryLog(Bench.Job)),
            (outbox, entry) => outbox.Append(entry)
        );

    private static PullPage Fetched(Guid epoch) => new(epoch, 0, 0, [], [], HasMore: false);

    private static AnswerPage Page(params Answer[] answers) => new(Life, [.. answers]);

    private static Answer Said(OutboxItem item, AnswerStatus status) =>
        new(item.Id, item.Hash, status, status == AnswerStatus.Refused ? "the shop is closed" : "");
}
