using System.Globalization;
using Cogwright.Parts;
using Cogwright.Storage;
using Cogwright.Storage.Tests;

namespace Cogwright.Faults.Tests;

/// <summary>A program that puts a library of parts in is killed midway: what is there afterwards is one library, whole.</summary>
public sealed class ImportKillTests
{
    private const int Parts = 4000;

    [Fact]
    public async Task Import_KilledMidway_LeavesTheLibraryAsItWasBefore()
    {
        var kills = Campaign.Of(5, 200);
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

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Postgres_KilledMidwayThroughAnImport_HoldsNothingOrAllOfIt(bool comesBack)
    {
        await using var server = PostgresServer.Start();
        await using var store = await ShopStore.OpenAsync(
            new StoreOptions(Path.GetTempPath()) { ConnectionString = server.NewDatabase() }
        );
        await store.PutPartsAsync(Library(1, "Before"));
        var isKilled = false;

        var import = store.PutPartsAsync(
            Library(Parts, "After"),
            new Told(() =>
            {
                if (!isKilled)
                {
                    isKilled = true;
                    server.Kill();
                    if (comesBack)
                    {
                        server.Resume();
                    }
                }
            })
        );

        if (comesBack)
        {
            // Nothing of it was committed: it is done again from its beginning, and once.
            Assert.Equal(new PartsChange(2, Parts - 1, 1, 0, 0), await import);
        }
        else
        {
            var fault = await Assert.ThrowsAsync<StoreFaultException>(() => import);
            Assert.Equal(StoreFaultKind.Unreachable, fault.Fault.Kind);
            server.Resume();
        }
        var read = await store.PartsAsync();
        Assert.Equal(comesBack ? (2, Parts) : (1, 1), (read.Revision, read.Parts.Length));
        Assert.Equal(comesBack ? "After" : "Before", read.Parts[0].Name);
        Assert.Empty((await store.CheckAsync()).Findings);
    }

    private static Part[] Library(int count, string name) =>
        [
            .. Enumerable
                .Range(1, count)
                .Select(number => new Part
                {
                    Id = string.Create(CultureInfo.InvariantCulture, $"cassette-{number:D5}"),
                    Kind = PartKind.Cassette,
                    Name = name,
                }),
        ];

    private sealed class Told(Action tell) : IProgress<int>
    {
        public void Report(int value) => tell();
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
