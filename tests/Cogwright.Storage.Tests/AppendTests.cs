using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Storage.Tests;

public sealed class SqliteAppendTests : AppendTests
{
    protected override string? Connection => null;
}

public sealed class PostgresAppendTests(Postgres postgres) : AppendTests
{
    protected override string? Connection => postgres.NewDatabase();
}

public abstract class AppendTests
{
    private static readonly LogId Job = Bench.Job(1);

    protected abstract string? Connection { get; }

    [Fact]
    public async Task Append_NewEntries_AreCreatedAndComeBackByteForByte()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var entries = new Bench(1, Job).WriteMany(3);

        var answers = await shop.Store.AppendAsync(Job, entries);
        var page = await shop.Store.PullAsync(Job, PullCursor.Start);

        Assert.Equal(shop.Store.Epoch, answers.Epoch);
        Assert.All(answers.Answers, answer => Assert.Equal(AnswerStatus.Created, answer.Status));
        Assert.Equal(entries, page.Entries);
        Assert.Equal((0, 3, false), (page.After, page.Last, page.HasMore));
        Assert.Equal(entries[^1].Hash, Assert.Single(page.Tips).Hash);
    }

    [Fact]
    public async Task Append_SameEntryTwice_IsThereOnce()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var entry = new Bench(1, Job).Write();

        var answers = await shop.Store.AppendAsync(Job, [entry, entry]);
        var again = await shop.Store.AppendAsync(Job, [entry]);
        var page = await shop.Store.PullAsync(Job, PullCursor.Start);

        Assert.Equal(
            [AnswerStatus.Created, AnswerStatus.Exists],
            answers.Answers.Select(answer => answer.Status)
        );
        Assert.Equal(AnswerStatus.Exists, again.Answers[0].Status);
        Assert.Equal(entry, Assert.Single(page.Entries));
    }

    [Fact]
    public async Task Append_SameIdWithOtherContent_IsRefusedAndKeptAsEvidence()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var bench = new Bench(1, Job);
        var first = bench.Write("{\"gapMm\":6.1}");
        var other = Entry.Make(first.Fields with { Body = "{\"gapMm\":9.9}"u8.ToArray() }).Value!;
        var next = bench.Write();

        var answers = await shop.Store.AppendAsync(Job, [first, other, next]);
        await shop.Store.AppendAsync(Job, [other]);
        var page = await shop.Store.PullAsync(Job, PullCursor.Start);

        Assert.Equal(
            [AnswerStatus.Created, AnswerStatus.Refused, AnswerStatus.Created],
            answers.Answers.Select(answer => answer.Status)
        );
        Assert.Contains(first.Hash.ToString(), answers.Answers[1].Reason, StringComparison.Ordinal);
        Assert.Equal([first, next], page.Entries);
        Assert.Equal(other, Assert.Single(await shop.Store.RefusedAsync(Job)));
    }

    [Fact]
    public async Task Append_EntryOfAnotherLog_IsRefusedAndItsNeighboursAreNot()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var stray = new Bench(2, Bench.Job(2)).Write();
        var entry = new Bench(1, Job).Write();

        var answers = await shop.Store.AppendAsync(Job, [stray, entry]);

        Assert.Equal(
            [AnswerStatus.Refused, AnswerStatus.Created],
            answers.Answers.Select(answer => answer.Status)
        );
        Assert.Empty((await shop.Store.PullAsync(Bench.Job(2), PullCursor.Start)).Entries);
    }

    [Fact]
    public async Task Append_FromManyCallers_NumbersWithoutGapsAndShowsNoNumberEarly()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var writing = Task.WhenAll(
            Enumerable
                .Range(1, 20)
                .Select(device => new Bench(device, Job).WriteMany(10))
                .Select(async entries =>
                {
                    foreach (var entry in entries)
                    {
                        var answers = await shop.Store.AppendAsync(Job, [entry]);
                        Assert.Equal(AnswerStatus.Created, answers.Answers[0].Status);
                    }
                })
        );
        var cursor = PullCursor.Start;
        var pulled = new List<Entry>();
        while (pulled.Count < 200)
        {
            var page = await shop.Store.PullAsync(Job, cursor, 7);
            // A number shown before a lower one would leave a hole that no later page fills.
            Assert.Equal(page.Entries.Length, page.Last - page.After);
            pulled.AddRange(page.Entries);
            cursor = cursor.After(page);
            await Task.Yield();
            if (writing.IsFaulted)
            {
                break;
            }
        }
        await writing;

        Assert.Equal(200, pulled.DistinctBy(entry => entry.Id).Count());
        Assert.Equal(200, cursor.Receipt);
    }

    [Fact]
    public async Task Append_OutOfOrder_IsKeptAndTellsNoEndBeyondTheGap()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var entries = new Bench(1, Job).WriteMany(5);

        await shop.Store.AppendAsync(Job, [entries[0], entries[2], entries[4], entries[3]]);
        var withGap = await shop.Store.PullAsync(Job, PullCursor.Start);
        await shop.Store.AppendAsync(Job, [entries[1]]);
        var whole = await shop.Store.PullAsync(Job, PullCursor.Start);

        Assert.Equal(4, withGap.Entries.Length);
        Assert.Equal(entries[0].Hash, Assert.Single(withGap.Tips).Hash);
        Assert.Equal(entries[4].Hash, Assert.Single(whole.Tips).Hash);
    }

    [Fact]
    public async Task Append_EntriesOfAClone_ShowTwoEnds()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var bench = new Bench(1, Job);
        var common = bench.Write();
        var clone = bench.Clone(99);
        ImmutableArray<Entry> here = [common, .. bench.WriteMany(2)];
        var there = clone.WriteMany(3);

        await shop.Store.AppendAsync(Job, here);
        // The clone's come backwards: each but the first waits for the one before.
        await shop.Store.AppendAsync(Job, [.. there.Reverse()]);
        var page = await shop.Store.PullAsync(Job, PullCursor.Start);

        var log = new EntryLog(Job);
        log.Merge(page.Entries);
        Assert.Equal(log.Tips, page.Tips);
        Assert.Equal(2, page.Tips.Length);
    }

    [Fact]
    public async Task Append_EntryOfALaterVersion_IsKeptByteForByte()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var entry = new Bench(1, Job).Write();
        var later = Entry
            .Make(
                entry.Fields with
                {
                    Kind = "of.a.later.version",
                    Extensions = [new EntryExtension(200, "later"u8.ToArray())],
                }
            )
            .Value!;
        var bytes = later.Encoded.ToArray();
        bytes[3] = 9;
        var ofVersion9 = Entry.Read(bytes).Value!;

        await shop.Store.AppendAsync(Job, [ofVersion9]);
        await shop.ReopenAsync();
        var page = await shop.Store.PullAsync(Job, PullCursor.Start);

        Assert.True(ofVersion9.IsFromLaterVersion);
        Assert.Equal(bytes, Assert.Single(page.Entries).Encoded.ToArray());
    }

    [Fact]
    public async Task Pull_ByPages_GivesEveryEntryOnceInOrder()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var entries = new Bench(1, Job).WriteMany(10);
        await shop.Store.AppendAsync(Job, entries);

        var cursor = PullCursor.Start;
        var pages = new List<PullPage>();
        do
        {
            pages.Add(await shop.Store.PullAsync(Job, cursor, 4));
            cursor = cursor.After(pages[^1]);
        } while (pages[^1].HasMore);

        Assert.Equal([4, 4, 2], pages.Select(page => page.Entries.Length));
        Assert.Equal(entries, pages.SelectMany(page => page.Entries));
    }

    [Fact]
    public async Task Pull_WithACursorOfAnotherEpoch_BeginsAgain()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.AppendAsync(Job, new Bench(1, Job).WriteMany(3));

        var page = await shop.Store.PullAsync(Job, new PullCursor(Guid.NewGuid(), 2));

        Assert.Equal((0, 3), (page.After, page.Entries.Length));
    }

    [Fact]
    public async Task Pull_LargeEntries_EndsThePageBeforeItIsTooLarge()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var bench = new Bench(1, Job);
        var body = "\"" + new string('x', EntryLimits.BodyBytes - 2) + "\"";
        await shop.Store.AppendAsync(
            Job,
            [.. Enumerable.Range(0, 20).Select(_ => bench.Write(body))]
        );

        var page = await shop.Store.PullAsync(Job, PullCursor.Start);

        Assert.True(page.HasMore);
        Assert.InRange(page.Entries.Sum(entry => entry.Encoded.Length), 1, EntryLimits.BatchBytes);
    }

    [Fact]
    public async Task Logs_AfterAppends_AreListedWithTheirNumbers()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.AppendAsync(Bench.Job(2), new Bench(1, Bench.Job(2)).WriteMany(2));
        await shop.Store.AppendAsync(Job, new Bench(1, Job).WriteMany(3));

        var logs = await shop.Store.LogsAsync();

        Assert.Equal([(Job, 3), (Bench.Job(2), 2)], logs.Select(log => (log.Log, log.LastReceipt)));
    }

    [Fact]
    public async Task Store_OpenedAgain_HasTheSameEpochAndEntries()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var entries = new Bench(1, Job).WriteMany(2);
        await shop.Store.AppendAsync(Job, entries);
        var epoch = shop.Store.Epoch;

        await shop.ReopenAsync();

        Assert.Equal(epoch, shop.Store.Epoch);
        Assert.Equal(entries, (await shop.Store.PullAsync(Job, PullCursor.Start)).Entries);
    }

    [Fact]
    public async Task Watch_AfterAppends_TellsTheLastNumberOfEachLog()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        using var watch = shop.Store.Watch();

        await shop.Store.AppendAsync(Job, new Bench(1, Job).WriteMany(2));

        await foreach (var change in watch)
        {
            Assert.Equal(new LogChange(Job, 2), change);
            break;
        }
    }

    [Fact]
    public async Task Append_AfterClosing_SaysSo()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.DisposeAsync();

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            shop.Store.AppendAsync(Job, [new Bench(1, Job).Write()])
        );

        Assert.Equal(StoreFaultKind.Closed, fault.Fault.Kind);
    }
}
