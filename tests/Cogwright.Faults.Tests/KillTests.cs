using System.Diagnostics;
using System.Globalization;
using Cogwright.Log;
using Cogwright.Storage;

namespace Cogwright.Faults.Tests;

/// <summary>A program that appends is killed at random moments, again and again on one store.</summary>
public sealed class KillTests
{
    // Programs that start while another one is being killed.
    private const int Ahead = 2;

    [Fact]
    public async Task Appender_KilledAtRandomMoments_LosesAndDoublesNothingAcknowledged()
    {
        var kills = Campaign.Of(200, 2000);
        var folder = Directory.CreateTempSubdirectory("cogwright-kill-").FullName;
        var options = new StoreOptions(folder);
        await using (await ShopStore.OpenAsync(options)) { }
        var acknowledged = new HashSet<(LogId Log, EntryId Id)>();
        var random = new Random(kills);
        var clock = Stopwatch.StartNew();

        var waiting = new Queue<AppenderProcess>();
        for (var kill = 0; kill < kills; kill++)
        {
            while (waiting.Count <= Ahead && kill + waiting.Count < kills)
            {
                waiting.Enqueue(new AppenderProcess(folder));
            }
            using var appender = waiting.Dequeue();
            var before = acknowledged.Count;
            Kill(appender, (random.Next(1, 60), random.Next(100_000)), acknowledged);
            Assert.True(acknowledged.Count > before, "Killed before it had done anything.");
        }

        await using var store = await ShopStore.OpenAsync(options);
        var report = await store.CheckAsync();
        var held = new List<(LogId Log, EntryId Id)>();
        foreach (var log in await store.LogsAsync())
        {
            var loaded = await store.LoadAsync(log.Log);
            Assert.Equal(0, loaded.WaitingCount);
            held.AddRange(loaded.Ordered.Select(entry => (log.Log, entry.Id)));
        }
        Campaign.Report(
            "kills.txt",
            string.Create(
                CultureInfo.InvariantCulture,
                $"{kills} kills in {clock.Elapsed.TotalSeconds:F0} s, {acknowledged.Count} entries acknowledged, {held.Count} held.\n"
            )
        );
        Assert.Empty(report.Findings);
        Assert.Equal(held.Count, held.Distinct().Count());
        Assert.Empty(acknowledged.Except(held));
        await store.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Kills the program some acknowledgements after its start: the moment is random, and it has always done something.</summary>
    private static void Kill(
        AppenderProcess appender,
        (int Acknowledgements, int Spins) moment,
        HashSet<(LogId Log, EntryId Id)> acknowledged
    )
    {
        appender.Go();
        // What it still says between the line awaited and its death counts as well: it was acknowledged.
        for (var line = 0; appender.ReadWholeLine() is { } text; line++)
        {
            var words = text.Split(' ');
            acknowledged.Add((new LogId(Guid.Parse(words[0])), new EntryId(Guid.Parse(words[1]))));
            if (line == moment.Acknowledgements)
            {
                // Not always right behind an acknowledgement: up to some milliseconds later, in the midst of anything.
                Thread.SpinWait(moment.Spins);
                appender.Kill();
            }
        }
        appender.AssertKilled();
    }
}
