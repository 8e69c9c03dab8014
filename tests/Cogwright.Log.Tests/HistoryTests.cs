using System.Globalization;

namespace Cogwright.Log.Tests;

/// <summary>Whatever arrives in whatever order, replicas with the same entries show the same, and what the twin shows.</summary>
public sealed class HistoryTests
{
    private const string ReplayVariable = "COGWRIGHT_HISTORY";

    private static readonly BodySubjects Subjects = new();

    [Fact]
    public void RandomHistories_ReorderedDoubledDelayed_FoldToTheSameEverywhere()
    {
        if (Environment.GetEnvironmentVariable(ReplayVariable) is { } replay)
        {
            Check(int.Parse(replay, CultureInfo.InvariantCulture));
            return;
        }
        var histories =
            Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1" ? 100_000 : 20_000;
        var first = int.MaxValue;
        var entries = 0L;
        Exception? failure = null;
        var turn = new Lock();
        Parallel.For(
            0,
            histories,
            (seed, loop) =>
            {
                try
                {
                    Interlocked.Add(ref entries, Check(seed));
                }
                catch (Exception thrown)
                {
                    loop.Break();
                    lock (turn)
                    {
                        if (seed < first)
                        {
                            (first, failure) = (seed, thrown);
                        }
                    }
                }
            }
        );
        Assert.True(
            failure is null,
            $"History {first}; replay it alone with {ReplayVariable}={first}. {failure}"
        );
        // The histories must be worth something: not mostly empty.
        Assert.True(entries > 10L * histories, $"{entries} entries in {histories} histories");
    }

    /// <summary>Checks one history and says how many entries it had.</summary>
    private static int Check(int seed)
    {
        var history = new History(seed);
        var all = new NaiveLog(history.Made);
        Assert.Empty(all.Waiting);
        foreach (var bench in history.Benches)
        {
            Deliver(history, bench.Log, history.Delivery());
            Same(all, bench.Log);
        }

        var part = history.Part();
        var log = new EntryLog(history.Benches[0].Log.Id);
        log.Merge(part);
        Same(new NaiveLog(part), log);
        // And what had been waiting enters when the rest comes.
        log.Merge(history.Delivery());
        Same(all, log);
        return history.Made.Count;
    }

    /// <summary>Gives entries one by one or many at a time, and asks in between, so that answers must keep up.</summary>
    private static void Deliver(History history, EntryLog log, List<Entry> delivery)
    {
        var fold = new LiveFold<Trace>(log, new TraceFold());
        var finder = new ConflictFinder(log, Subjects);
        for (var i = 0; i < delivery.Count; )
        {
            var many = 1 + history.Next(4);
            log.Merge(delivery.Skip(i).Take(many));
            i += many;
            if (history.Next(4) == 0)
            {
                Assert.Equal(log.Count, fold.State.Count);
                _ = finder.Open;
            }
        }
        Assert.Equal(log.Fold(new TraceFold()), fold.State);
        Assert.Equal(Conflicts(new ConflictFinder(log, Subjects)), Conflicts(finder));
    }

    private static void Same(NaiveLog twin, EntryLog log)
    {
        Assert.Equal(twin.Ordered, log.Ordered);
        Assert.Equal(twin.Waiting, log.Waiting.Select(waiting => waiting.Entry.Id));
        Assert.Equal(twin.Heads, log.Heads);
        Assert.Equal(twin.Trace, log.Fold(new TraceFold()));
        Assert.Equal(twin.Conflicts(Subjects), Conflicts(new ConflictFinder(log, Subjects)));
        Assert.Equal(
            twin.Forks,
            log.Forks.Select(fork =>
                $"{(fork.Device, fork.Sequence)}: {string.Join(' ', fork.Entries.Select(e => e.Id))}"
            )
        );
        Assert.Empty(log.Refused);
        for (var position = 0; position < log.Count; position++)
        {
            var id = log[position].Id;
            var other = log[position * 7 % log.Count].Id;
            Assert.Equal(position, log.PositionOf(id));
            Assert.Equal(twin.HasSeen(id, other), log.HasSeen(id, other));
        }
    }

    private static List<string> Conflicts(ConflictFinder finder) =>
        [
            .. finder.Open.Select(conflict =>
                $"{conflict.Subject}: {string.Join(' ', conflict.Entries.Select(entry => entry.Id))}"
            ),
        ];
}
