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

    // Long enough to be laid out anew rather than put in one by one (CausalOrder), before and after something was folded.
    [Fact]
    public void LongHistories_ManyAtOnce_FoldToTheSameAsOneByOne()
    {
        for (var seed = 0; seed < 20; seed++)
        {
            var history = new History(seed, steps: 600);
            var twin = new NaiveLog(history.Made, Subjects);
            for (var first = 0; first < history.Made.Count; first += 60)
            {
                var log = new EntryLog(history.Benches[0].Log.Id);
                var fold = new LiveFold<Trace>(log, new TraceFold());
                var finder = new ConflictFinder(log, Subjects);
                log.Merge(history.Made.Take(first));
                _ = (fold.State, finder.Open);
                log.Merge(history.Delivery());
                Same(twin, log, fold.State, finder);
            }
        }
    }

    /// <summary>Checks one history and says how many entries it had.</summary>
    private static int Check(int seed)
    {
        var history = new History(seed);
        var all = new NaiveLog(history.Made, Subjects);
        Assert.Empty(all.Waiting);
        foreach (var bench in history.Benches)
        {
            var fold = new LiveFold<Trace>(bench.Log, new TraceFold());
            var finder = new ConflictFinder(bench.Log, Subjects);
            Deliver(history, bench.Log, fold, finder);
            Same(all, bench.Log, fold.State, finder);
        }

        var part = history.Part();
        var log = new EntryLog(history.Benches[0].Log.Id);
        log.Merge(part);
        Same(
            new NaiveLog(part, Subjects),
            log,
            log.Fold(new TraceFold()),
            new ConflictFinder(log, Subjects)
        );
        // And what had been waiting enters when the rest comes.
        log.Merge(history.Delivery());
        Same(all, log, log.Fold(new TraceFold()), new ConflictFinder(log, Subjects));
        return history.Made.Count;
    }

    /// <summary>Gives entries one by one or many at a time, and asks in between, so that answers must keep up.</summary>
    private static void Deliver(
        History history,
        EntryLog log,
        LiveFold<Trace> fold,
        ConflictFinder finder
    )
    {
        var delivery = history.Delivery();
        for (var i = 0; i < delivery.Count; )
        {
            var many = 1 + history.Next(4);
            log.Merge(delivery.Skip(i).Take(many));
            i += many;
            if (history.Next(4) == 0)
            {
                Same("folded", [log.Count], [fold.State.Count]);
                _ = finder.Open;
            }
        }
    }

    private static void Same(NaiveLog twin, EntryLog log, Trace trace, ConflictFinder finder)
    {
        Same("order", twin.Ordered, log.Ordered);
        Same("waiting", twin.Waiting, log.Waiting.Select(waiting => waiting.Entry.Id));
        Same("heads", twin.Heads, log.Heads);
        Same("fold", [twin.Trace], [trace]);
        Same("conflicts", twin.Conflicts, Conflicts(finder));
        Same(
            "forks",
            twin.Forks,
            log.Forks.SelectMany(fork => fork.Entries).Select(entry => entry.Id)
        );
        Assert.Empty(log.Refused);
        for (var position = 0; position < log.Count; position++)
        {
            var id = log[position].Id;
            var other = log[position * 7 % log.Count].Id;
            Same("position", [position], [log.PositionOf(id)]);
            Same("seen", [twin.HasSeen(id, other)], [log.HasSeen(id, other)]);
        }
    }

    // Not Assert.Equal, which takes ten times as long to say that all is well.
    private static void Same<T>(string what, IEnumerable<T> expected, IEnumerable<T> actual)
    {
        if (!expected.SequenceEqual(actual))
        {
            Assert.Fail(
                $"{what}: expected\n{string.Join('\n', expected)}\nbut found\n{string.Join('\n', actual)}"
            );
        }
    }

    private static IEnumerable<(string Subject, EntryId Entry)> Conflicts(ConflictFinder finder) =>
        finder.Open.SelectMany(conflict =>
            conflict.Entries.Select(entry => (conflict.Subject, entry.Id))
        );
}
