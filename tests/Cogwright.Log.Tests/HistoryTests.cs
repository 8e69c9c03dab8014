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
        var met = new Met();
        Exception? failure = null;
        var turn = new Lock();
        Parallel.For(
            0,
            histories,
            (seed, loop) =>
            {
                try
                {
                    var found = Check(seed);
                    lock (turn)
                    {
                        met += found;
                    }
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
        // The histories must be worth something, case by case: floors at about half of what was counted.
        Assert.True(met.Entries > 10L * histories, $"{met} in {histories} histories");
        foreach (
            var (count, percent) in new[]
            {
                (met.Waiting, 45),
                (met.Forks, 17),
                (met.Conflicts, 40),
                (met.Corrections, 36),
                (met.CorrectedTwice, 8),
                (met.GoneBack, 42),
                (met.LeftOut, 34),
            }
        )
        {
            Assert.True(
                100L * count > (long)percent * histories,
                $"{count} instead of {percent} %: {met} in {histories} histories"
            );
        }
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
                // Not merged, which sorts them first: nearly every one is to wait.
                foreach (var entry in history.Delivery())
                {
                    log.Add(entry);
                }
                Same(twin, log, fold.State, finder);
            }
        }
    }

    /// <summary>How often a case was met; of all but the entries, in how many histories.</summary>
    private readonly record struct Met(
        long Entries,
        int Waiting,
        int Forks,
        int Conflicts,
        int Corrections,
        int CorrectedTwice,
        int GoneBack,
        int LeftOut
    )
    {
        public static Met operator +(Met one, Met other) =>
            new(
                one.Entries + other.Entries,
                one.Waiting + other.Waiting,
                one.Forks + other.Forks,
                one.Conflicts + other.Conflicts,
                one.Corrections + other.Corrections,
                one.CorrectedTwice + other.CorrectedTwice,
                one.GoneBack + other.GoneBack,
                one.LeftOut + other.LeftOut
            );
    }

    /// <summary>Checks one history and says what it had in it.</summary>
    private static Met Check(int seed)
    {
        var history = new History(seed);
        var all = new NaiveLog(history.Made, Subjects);
        Assert.Empty(all.Waiting);
        var (hasWaited, wentBack) = (false, false);
        foreach (var bench in history.Benches)
        {
            var fold = new LiveFold<Trace>(bench.Log, new TraceFold());
            var finder = new ConflictFinder(bench.Log, Subjects);
            hasWaited |= Deliver(history, bench.Log, fold, finder);
            Same(all, bench.Log, fold.State, finder);
            wentBack |= fold.Applied > bench.Log.Count;
        }

        var part = history.Part();
        var partly = new NaiveLog(part, Subjects);
        var log = new EntryLog(history.Benches[0].Log.Id);
        log.Merge(part);
        Same(partly, log, log.Fold(new TraceFold()), new ConflictFinder(log, Subjects));
        // And what had been waiting enters when the rest comes.
        log.Merge(history.Delivery());
        Same(all, log, log.Fold(new TraceFold()), new ConflictFinder(log, Subjects));
        var corrected = history.Made.Where(entry => entry.Corrects is not null).ToList();
        return new Met(
            history.Made.Count,
            hasWaited ? 1 : 0,
            all.Forks.Count > 0 ? 1 : 0,
            all.Conflicts.Count > 0 ? 1 : 0,
            corrected.Count > 0 ? 1 : 0,
            corrected.DistinctBy(entry => entry.Corrects).Count() < corrected.Count ? 1 : 0,
            wentBack ? 1 : 0,
            partly.Waiting.Count > 0 ? 1 : 0
        );
    }

    /// <summary>
    /// Gives entries one by one or many at a time, and asks in between, so that answers must keep up. Says whether any waited.
    /// </summary>
    private static bool Deliver(
        History history,
        EntryLog log,
        LiveFold<Trace> fold,
        ConflictFinder finder
    )
    {
        var hasWaited = false;
        var delivery = history.Delivery();
        for (var i = 0; i < delivery.Count; )
        {
            var many = 1 + history.Next(4);
            log.Merge(delivery.Skip(i).Take(many));
            i += many;
            hasWaited |= log.WaitingCount > 0;
            if (history.Next(4) == 0)
            {
                Same("folded", [log.Count], [fold.State.Count]);
                _ = finder.Open;
            }
        }
        return hasWaited;
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
