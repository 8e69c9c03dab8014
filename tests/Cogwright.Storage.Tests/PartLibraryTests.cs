using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using Cogwright.Log;
using Cogwright.Parts;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage.Tests;

public sealed class SqlitePartLibraryTests : PartLibraryTests
{
    protected override string? Connection => null;

    [Fact]
    public async Task Put_AHundredThousandParts_TakesThemAllInOneGo()
    {
        // The time is told and not asserted: under 20 s is asked for, reading the file included.
        var count = Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1" ? 100_000 : 5_000;
        await using var shop = await Shop.OpenAsync(Connection);
        var parts = InventedParts.Many(count);
        var reports = new List<int>();
        var clock = Stopwatch.StartNew();

        var put = await shop.Store.PutPartsAsync(parts, new Told(reports.Add));
        var putSeconds = clock.Elapsed.TotalSeconds;
        var read = await shop.Store.PartsAsync();
        var readSeconds = clock.Elapsed.TotalSeconds - putSeconds;

        TestContext.Current.SendDiagnosticMessage(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{count} parts put in {putSeconds:F1} s, read in {readSeconds:F1} s."
            )
        );
        Assert.Equal(new PartsChange(1, count, 0, 0, 0), put);
        Assert.Equal(count, read.Parts.Length);
        Assert.Equal(reports.Order(), reports);
        Assert.Equal(count, reports[^1]);
    }
}

public sealed class PostgresPartLibraryTests(Postgres postgres) : PartLibraryTests
{
    protected override string? Connection => postgres.NewDatabase();

    [Fact]
    public async Task Put_OnBothServersAtOnce_LosesNothingAndEachSeesTheOthers()
    {
        await using var here = await Shop.OpenAsync(Connection);
        await using var there = await ShopStore.OpenAsync(here.Options);

        await Task.WhenAll(
            Enumerable
                .Range(1, 40)
                .Select(number =>
                    (number % 2 == 0 ? here.Store : there).PutPartsAsync([
                        InventedParts.Cassette(number),
                        // All change this one too.
                        InventedParts.Cassette(1000, "Fenwold " + number),
                    ])
                )
        );

        Assert.Equal(40, await there.PartsRevisionAsync());
        Assert.Equal(40, await here.Store.PartsRevisionAsync());
        var read = await here.Store.PartsAsync();
        Assert.Equal(41, read.Parts.Length);
        Assert.Equal(read.Parts, (await there.PartsAsync()).Parts);
    }
}

/// <summary>The shop's library of parts in the store.</summary>
public abstract class PartLibraryTests
{
    protected abstract string? Connection { get; }

    [Fact]
    public async Task Put_Parts_AreReadBackEqualInTheOrderOfTheirIds()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        // A database's own order would put these otherwise.
        Part[] parts =
        [
            InventedParts.Cassette(2),
            InventedParts.Cassette(10),
            InventedParts.Cassette(1) with
            {
                Id = "a.b-c",
                Name = "",
                InStock = null,
            },
            new()
            {
                Id = "a-b",
                Kind = PartKind.Adapter,
                Name = "Spacer",
            },
        ];

        var put = await shop.Store.PutPartsAsync(parts);
        await shop.ReopenAsync();
        var read = await shop.Store.PartsAsync();

        Assert.Equal(new PartsChange(1, 4, 0, 0, 0), put);
        Assert.Equal(1, read.Revision);
        Assert.Equal(parts.OrderBy(part => part.Id, StringComparer.Ordinal), read.Parts);
        Assert.Empty(read.Demo);
    }

    [Fact]
    public async Task Put_SomeOfThemThereAlready_TellsWhatBecameOfEach()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutPartsAsync(InventedParts.Many(5));

        var mixed = await shop.Store.PutPartsAsync([
            .. InventedParts.Many(3),
            InventedParts.Cassette(4, "Changed"),
            InventedParts.Cassette(6),
        ]);
        var same = await shop.Store.PutPartsAsync(InventedParts.Many(3));
        var removed = await shop.Store.RemovePartAsync("fenwold-5");
        var nothing = await shop.Store.RemovePartAsync("fenwold-5");

        Assert.Equal(new PartsChange(2, 1, 1, 3, 0), mixed);
        Assert.Equal(new PartsChange(2, 0, 0, 3, 0), same);
        Assert.Equal(new PartsChange(3, 0, 0, 0, 1), removed);
        Assert.Equal(new PartsChange(3, 0, 0, 0, 0), nothing);
        Assert.Equal(3, await shop.Store.PartsRevisionAsync());
        Assert.Equal(
            ["Fenwold 1", "Fenwold 2", "Fenwold 3", "Changed 4", "Fenwold 6"],
            (await shop.Store.PartsAsync()).Parts.Select(part => part.Name)
        );
    }

    [Fact]
    public async Task PartsAfter_ARevision_AreThoseThatCameOrChangedSince()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutPartsAsync(InventedParts.Many(3));
        await shop.Store.PutPartsAsync([
            InventedParts.Cassette(1),
            InventedParts.Cassette(2, "Changed"),
        ]);
        await shop.Store.PutPartsAsync([InventedParts.Cassette(4)]);

        var (later, count) = await shop.Store.PartsAfterAsync(1);
        var (none, _) = await shop.Store.PartsAfterAsync(3);

        Assert.Equal((3, 4), (later.Revision, count));
        Assert.Equal(["fenwold-2", "fenwold-4"], later.Parts.Select(part => part.Id));
        Assert.Empty(none.Parts);
    }

    [Fact]
    public async Task Put_IdTwice_KeepsTheLater()
    {
        await using var shop = await Shop.OpenAsync(Connection);

        var put = await shop.Store.PutPartsAsync([
            InventedParts.Cassette(1, "First"),
            InventedParts.Cassette(1, "Second"),
        ]);

        Assert.Equal(1, put.Added);
        Assert.Equal("Second 1", (await shop.Store.PartsAsync()).Parts[0].Name);
    }

    [Fact]
    public async Task Put_OnARevisionThatIsNoLongerThePresentOne_ChangesNothing()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutPartsAsync([InventedParts.Cassette(1)], seen: 0);
        await shop.Store.PutPartsAsync([InventedParts.Cassette(2)], seen: 1);

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            shop.Store.PutPartsAsync([InventedParts.Cassette(2, "Unseen")], seen: 1)
        );

        Assert.Equal(StoreFaultKind.WouldReplace, fault.Fault.Kind);
        var read = await shop.Store.PartsAsync();
        Assert.Equal((2, "Fenwold 2"), (read.Revision, read.Parts[1].Name));
    }

    [Fact]
    public async Task PutOne_ThatWasChangedSinceItWasSeen_ChangesNothing()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutPartsAsync(InventedParts.Many(2));
        await shop.Store.PutPartAsync(InventedParts.Cassette(1, "Changed"), seen: 1);
        // Another part was changed since; this one was not.
        await shop.Store.PutPartAsync(InventedParts.Cassette(2, "Changed"), seen: 1);
        await shop.Store.PutPartAsync(InventedParts.Cassette(3), seen: 3);
        await shop.Store.RemovePartAsync("fenwold-3");

        foreach (var (number, seen) in new (int, long)[] { (1, 1), (3, 4), (1, 6) })
        {
            var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
                shop.Store.PutPartAsync(InventedParts.Cassette(number, "Unseen"), seen)
            );
            Assert.Equal(StoreFaultKind.WouldReplace, fault.Fault.Kind);
        }

        var read = await shop.Store.PartsAsync();
        Assert.Equal(
            (5, "Changed 1, Changed 2"),
            (read.Revision, string.Join(", ", read.Parts.Select(part => part.Name)))
        );
    }

    [Fact]
    public async Task Put_EndedOnItsWay_LeavesNothingAndTheStoreGoesOn()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutPartsAsync([InventedParts.Cassette(1)]);
        using var ending = new CancellationTokenSource();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() =>
            shop.Store.PutPartsAsync(
                [InventedParts.Cassette(1, "Changed"), .. InventedParts.Many(3000).Skip(1)],
                new Told(written =>
                {
                    if (written >= 1000)
                    {
                        ending.Cancel();
                    }
                }),
                cancellation: ending.Token
            )
        );

        var read = await shop.Store.PartsAsync();
        Assert.Equal((1, "Fenwold 1"), (read.Revision, read.Parts.Single().Name));
        var page = await shop.Store.AppendAsync(Bench.Job(1), [new Bench(1, Bench.Job(1)).Write()]);
        Assert.Equal(AnswerStatus.Created, page.Answers[0].Status);
        Assert.Equal(2, (await shop.Store.PutPartsAsync([InventedParts.Cassette(2)])).Revision);
    }

    [Fact]
    public async Task Put_AmongEntriesThatComeIn_LeavesEachWhatItIs()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var entries = new Bench(1, Bench.Job(1)).WriteMany(50);

        var appends = entries.Select(entry => shop.Store.AppendAsync(Bench.Job(1), [entry]));
        var puts = Enumerable
            .Range(1, 20)
            .Select(number => shop.Store.PutPartsAsync([InventedParts.Cassette(number)]));
        await Task.WhenAll(appends.Zip(puts).SelectMany(pair => (Task[])[pair.First, pair.Second]));

        Assert.Equal(20, (await shop.Store.PartsAsync()).Revision);
        Assert.Empty((await shop.Store.CheckAsync()).Findings);
    }

    [Fact]
    public async Task DemoParts_NewShop_BeginsWithThemAndOneActionTakesThemAway()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var demo = InventedParts.Many(4);

        var begun = await shop.Store.PutDemoPartsAsync(demo, onlyIfNew: true);
        var again = await shop.Store.PutDemoPartsAsync(demo, onlyIfNew: true);
        // The shop's own: one beside them, and one of theirs made its own.
        await shop.Store.PutPartsAsync([
            InventedParts.Cassette(9),
            InventedParts.Cassette(2, "Changed"),
        ]);
        var demoNow = (await shop.Store.PartsAsync()).Demo;
        var removed = await shop.Store.RemoveDemoPartsAsync();
        var later = await shop.Store.PutDemoPartsAsync(demo, onlyIfNew: true);

        Assert.Equal((1, 4), (begun.Revision, begun.Added));
        Assert.Equal((1, 0), (again.Revision, again.Added));
        Assert.Equal(["fenwold-1", "fenwold-3", "fenwold-4"], demoNow.Order());
        Assert.Equal(3, removed.Removed);
        Assert.Equal(0, later.Added);
        Assert.Equal(
            ["Changed 2", "Fenwold 9"],
            (await shop.Store.PartsAsync()).Parts.Select(part => part.Name)
        );

        var back = await shop.Store.PutDemoPartsAsync(demo, onlyIfNew: false);
        Assert.Equal((3, 0), (back.Added, back.Changed));
        Assert.Equal("Changed 2", (await shop.Store.PartsAsync()).Parts[1].Name);
    }

    [Fact]
    public async Task DemoParts_ShopThatWorksAlready_GetsNoneThen_NorLater()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.AppendAsync(Bench.Job(1), [new Bench(1, Bench.Job(1)).Write()]);

        await shop.Store.PutDemoPartsAsync(InventedParts.Many(2), onlyIfNew: true);

        Assert.Empty((await shop.Store.PartsAsync()).Parts);
        Assert.Equal(1, await shop.Store.PartsRevisionAsync());
    }

    [Fact]
    public async Task Backup_RestoredElsewhere_HoldsTheLibrary()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await using var other = await Shop.OpenAsync(Connection);
        await shop.Store.PutDemoPartsAsync([InventedParts.Cassette(7)], onlyIfNew: true);
        await other.Store.PutDemoPartsAsync([InventedParts.Cassette(7)], onlyIfNew: true);
        await other.Store.DisposeAsync();
        await shop.Store.PutPartsAsync(InventedParts.Many(3));
        var backup = Path.Combine(shop.Folder, "backup");

        var manifest = await shop.Store.BackupAsync(backup);
        var plan = await Restore.PlanAsync(backup, other.Options);
        var report = await Restore.RunAsync(plan, replace: false);
        await using var restored = await ShopStore.OpenAsync(other.Options);

        // Demo parts are nothing that anybody could miss.
        Assert.Equal(3, manifest.Counts.Parts);
        Assert.False(plan.Replaces);
        Assert.Equal(4, report.Check.Parts);
        Assert.Empty(report.Check.Findings);
        var (before, after) = (await shop.Store.PartsAsync(), await restored.PartsAsync());
        Assert.Equal(before.Parts, after.Parts);
        Assert.Equal(before.Revision, after.Revision);
        Assert.Equal(["fenwold-7"], after.Demo);
    }

    [Fact]
    public async Task Restore_OverPartsAlone_IsRefusedUntilTold()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await shop.Store.PutPartsAsync(InventedParts.Many(1));
        await shop.Store.DisposeAsync();

        var plan = await Restore.PlanAsync(backup, shop.Options);

        Assert.True(plan.Replaces);
    }

    [Fact]
    public async Task Export_HoldsEachPartOnALine()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutPartsAsync(InventedParts.Many(2));

        var made = await shop.Store.ExportAsync(Path.Combine(shop.Folder, "export"));

        var lines = await File.ReadAllLinesAsync(Path.Combine(made.Folder, "parts.jsonl"));
        Assert.Equal(
            ["Fenwold 1", "Fenwold 2"],
            lines.Select(line => (string?)JsonNode.Parse(line)!["name"])
        );
        Assert.Equal(2, made.Counts.Parts);
    }

    [Theory]
    [InlineData("""UPDATE "Parts" SET "Name" = 'other' WHERE "Id" = 'fenwold-1'""")]
    [InlineData("""UPDATE "Parts" SET "Maker" = 'other' WHERE "Id" = 'fenwold-1'""")]
    [InlineData("""UPDATE "Parts" SET "Kind" = 'chain' WHERE "Id" = 'fenwold-1'""")]
    [InlineData("""UPDATE "Parts" SET "Content" = 'x' WHERE "Id" = 'fenwold-1'""")]
    [InlineData("""UPDATE "Parts" SET "Id" = 'other' WHERE "Id" = 'fenwold-1'""")]
    [InlineData("""UPDATE "Parts" SET "Revision" = 9 WHERE "Id" = 'fenwold-1'""")]
    [InlineData("""DELETE FROM "PartLibrary" """)]
    public async Task Check_TamperedLibrary_FindsDamage(string tampering)
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutPartsAsync(InventedParts.Many(2));
        var sound = await shop.Store.CheckAsync();
        await using (var context = shop.Store.NewContext())
        {
            Assert.True(await context.Database.ExecuteSqlRawAsync(tampering) > 0);
        }

        var report = await shop.Store.CheckAsync();

        Assert.Empty(sound.Findings);
        Assert.Equal(2, sound.Parts);
        Assert.False(report.IsSound);
    }

    [Theory]
    [InlineData("x")]
    [InlineData("[]")]
    [InlineData("""{"id":"fenwold-2","id":"fenwold-2"}""")]
    [InlineData(
        """{"id":"fenwold-2","kind":"chain","name":"","maker":"","source":"","values":{"width":5,"width":6},"spec":{}}"""
    )]
    [InlineData(
        """{"id":"fenwold-1","kind":"chain","name":"","maker":"","source":"","values":{},"spec":{}}"""
    )]
    public async Task Read_DamagedPart_IsLeftOutAndToldAndExportedAsItIs(string content)
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutPartsAsync(InventedParts.Many(3));
        await using (var context = shop.Store.NewContext())
        {
            await context.Database.ExecuteSqlAsync(
                $"""UPDATE "Parts" SET "Content" = {content} WHERE "Id" = 'fenwold-2'"""
            );
        }

        var read = await shop.Store.PartsAsync();
        var check = await shop.Store.CheckAsync();
        var made = await shop.Store.ExportAsync(Path.Combine(shop.Folder, "export"));
        var again = await shop.Store.PutPartAsync(InventedParts.Cassette(2));

        Assert.Equal(["fenwold-1", "fenwold-3"], read.Parts.Select(part => part.Id));
        Assert.Equal("fenwold-2", Assert.Single(read.Damaged));
        Assert.False(check.IsSound);
        var lines = await File.ReadAllLinesAsync(Path.Combine(made.Folder, "parts.jsonl"));
        Assert.Equal(3, lines.Length);
        var damaged = JsonNode.Parse(lines[1])!;
        Assert.Equal(
            ("fenwold-2", content),
            ((string?)damaged["id"], (string?)damaged["unreadable"])
        );
        Assert.Equal(1, again.Changed);
        Assert.Empty((await shop.Store.PartsAsync()).Damaged);
    }

    /// <summary>Told at once and on the thread that reports.</summary>
    private protected sealed class Told(Action<int> tell) : IProgress<int>
    {
        public void Report(int value) => tell(value);
    }
}
