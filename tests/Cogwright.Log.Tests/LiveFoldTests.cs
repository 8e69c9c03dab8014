namespace Cogwright.Log.Tests;

public sealed class LiveFoldTests
{
    private readonly Bench left = new(1, Bench.Job);
    private readonly Bench right = new(2, Bench.Job);

    [Fact]
    public void State_EntriesAtTheEnd_AppliesEachOnce()
    {
        var live = new LiveFold<Trace>(left.Log, new TraceFold());
        for (var i = 0; i < 1000; i++)
        {
            left.Write();
            Assert.Equal(i + 1, live.State.Count);
        }

        Assert.Equal(1000, live.Applied);
        Assert.Equal(left.Log.Fold(new TraceFold()), live.State);
    }

    [Fact]
    public void State_EntryComesInEarlier_GoesBackAsFarAsNeeded()
    {
        var live = new LiveFold<Trace>(right.Log, new TraceFold());
        for (var i = 0; i < 1000; i++)
        {
            right.Write();
        }
        _ = live.State;
        // Seen by nobody and of the lesser device, so it goes first of all.
        right.Log.Add(left.Write());

        Assert.Equal(right.Log.Fold(new TraceFold()), live.State);
        Assert.Equal(2001, live.Applied);
    }

    [Fact]
    public void State_EarlierEntryCorrected_IsFoldedAnewFromThere()
    {
        var live = new LiveFold<Trace>(left.Log, new TraceFold());
        var written = Enumerable.Range(0, 1000).Select(_ => left.Write()).ToList();
        _ = live.State;
        left.Write("mended", corrects: written[900].Id);

        Assert.Equal(left.Log.Fold(new TraceFold()), live.State);
        // From the state kept after 768 entries (three times 256) to the end, 1001.
        Assert.Equal(1000 + (1001 - 768), live.Applied);
    }

    // Enough shifting to have the order laid out anew, and what changes it furthest in front comes only after that.
    [Fact]
    public void State_ManyEntriesComeInEarlier_IsFoldedAnewFromTheFirst()
    {
        var devices = Enumerable
            .Range(1, 4)
            .Select(number => new Bench(number, Bench.Job))
            .ToList();
        var runs = devices.ConvertAll(device =>
            Enumerable.Range(0, 300).Select(_ => device.Write()).ToList()
        );
        var log = new EntryLog(Bench.Job);
        var live = new LiveFold<Trace>(log, new TraceFold());
        log.Merge([.. runs[1], .. runs[3]]);
        Assert.Equal(600, live.State.Count);

        log.Merge([.. runs[2], .. runs[0]]);
        Assert.Equal(log.Fold(new TraceFold()), live.State);
        Assert.Equal(runs.SelectMany(run => run), log.Ordered);
    }
}
