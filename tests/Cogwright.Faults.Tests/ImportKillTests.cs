using System.Globalization;
using Cogwright.Storage;

namespace Cogwright.Faults.Tests;

/// <summary>A program that puts a library of parts in is killed midway: what is there afterwards is one library, whole.</summary>
public sealed class ImportKillTests
{
    private const int Parts = 4000;

    [Fact]
    public async Task Import_KilledMidway_LeavesTheLibraryAsItWasBefore()
    {
        var kills = Campaign.Of(12, 200);
        var folder = Directory.CreateTempSubdirectory("cogwright-import-").FullName;
        var options = new StoreOptions(folder);
        var random = new Random(kills);
        var midway = 0;
        var revision = 0L;
        for (var kill = 0; kill < kills; kill++)
        {
            using (var importer = AppenderProcess.Importing(folder, Parts))
            {
                var (done, at) = Kill(
                    importer,
                    (random.Next(0, 3 * Parts / 500), random.Next(2_000_000))
                );
                importer.AssertKilled();
                revision = Math.Max(revision, done);
                midway += at > 0 ? 1 : 0;
            }

            await using var store = await ShopStore.OpenAsync(options);
            var read = await store.PartsAsync();
            // What was answered is there. What was not may have come to the disk before the kill, but then all of it.
            Assert.InRange(read.Revision, revision, revision + 1);
            revision = read.Revision;
            Assert.Equal(revision == 0 ? 0 : Parts, read.Parts.Length);
            Assert.All(
                read.Parts,
                part =>
                    Assert.Equal(
                        string.Create(CultureInfo.InvariantCulture, $"Round {revision}"),
                        part.Name
                    )
            );
            Assert.Empty((await store.CheckAsync()).Findings);
        }
        Assert.True(midway > 0, "No kill came midway.");
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>Kills it some lines after its start.</summary>
    /// <returns>The last revision that it was answered, and how many parts it had written of the next.</returns>
    private static (long Done, int At) Kill(AppenderProcess importer, (int Lines, int Spins) moment)
    {
        importer.Go();
        var (done, at) = (0L, 0);
        for (var line = 0; importer.ReadWholeLine() is { } text; line++)
        {
            var words = text.Split(' ');
            var number = long.Parse(words[1], CultureInfo.InvariantCulture);
            (done, at) = words[0] == "done" ? (number, 0) : (done, (int)number);
            if (line == moment.Lines)
            {
                Thread.SpinWait(moment.Spins);
                importer.Kill();
            }
        }
        return (done, at);
    }
}
