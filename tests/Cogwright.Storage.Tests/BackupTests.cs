using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Cogwright.Log;

namespace Cogwright.Storage.Tests;

public sealed class SqliteBackupTests : BackupTests
{
    protected override string? Connection => null;

    [Fact]
    public async Task Restore_OverADamagedFile_SetsItAsideUnchanged()
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await shop.Store.DisposeAsync();
        var damaged = RandomNumberGenerator.GetBytes(8000);
        await File.WriteAllBytesAsync(shop.Options.DatabasePath, damaged);

        var plan = await Restore.PlanAsync(backup, shop.Options);
        var report = await Restore.RunAsync(plan, replace: true);

        Assert.NotNull(plan.PresentFault);
        Assert.True(report.Check.IsSound);
        Assert.Equal(
            damaged,
            await File.ReadAllBytesAsync(Path.Combine(report.SetAside!, "shop.db"))
        );
    }

    [Fact]
    public async Task Restore_WhileTheStoreIsOpen_IsRefused()
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        var plan = await Restore.PlanAsync(backup, shop.Options);

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            Restore.RunAsync(plan, replace: true)
        );

        Assert.Equal(StoreFaultKind.InUse, fault.Fault.Kind);
        Assert.Equal(3, (await shop.Store.PullAsync(Job, PullCursor.Start)).Entries.Length);
    }
}

public sealed class PostgresBackupTests(Postgres postgres) : BackupTests
{
    protected override string? Connection => postgres.NewDatabase();
}

public abstract class BackupTests
{
    protected static LogId Job { get; } = Bench.Job(1);

    protected abstract string? Connection { get; }

    [Fact]
    public async Task Backup_RestoredElsewhere_HoldsEverythingInANewEpoch()
    {
        await using var shop = await FilledAsync();
        await using var other = await Shop.OpenAsync(Connection);
        await other.Store.DisposeAsync();
        var backup = Path.Combine(shop.Folder, "backup");

        var manifest = await shop.Store.BackupAsync(backup);
        var plan = await Restore.PlanAsync(backup, other.Options);
        var report = await Restore.RunAsync(plan, replace: false);
        await using var restored = await ShopStore.OpenAsync(other.Options);

        Assert.Equal(new StoreCounts(1, 3, 1, 1, 0), manifest.Counts);
        Assert.False(plan.Replaces);
        Assert.Empty(report.Check.Findings);
        Assert.Equal(
            (1, 3, 1, 1),
            (
                report.Check.Logs,
                report.Check.Entries,
                report.Check.Statements,
                report.Check.Personal
            )
        );
        Assert.Equal(restored.Epoch, report.Epoch);
        Assert.NotEqual(shop.Store.Epoch, restored.Epoch);
        Assert.Equal(
            (await shop.Store.PullAsync(Job, PullCursor.Start)).Entries,
            (await restored.PullAsync(Job, PullCursor.Start)).Entries
        );
    }

    [Fact]
    public async Task Restore_OverData_RefusesUntilToldAndThenSetsThemAside()
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await shop.Store.AppendAsync(Bench.Job(2), new Bench(2, Bench.Job(2)).WriteMany(2));
        await shop.Store.DisposeAsync();

        var plan = await Restore.PlanAsync(backup, shop.Options);
        var refused = await Assert.ThrowsAsync<StoreFaultException>(() =>
            Restore.RunAsync(plan, replace: false)
        );
        var report = await Restore.RunAsync(plan, replace: true);

        Assert.True(plan.Replaces);
        Assert.Equal((5, 2), (plan.Present!.Entries, plan.EntriesOnlyHere));
        Assert.Equal(StoreFaultKind.WouldReplace, refused.Fault.Kind);
        Assert.NotNull(report.SetAside);
        Assert.Equal(3, report.Check.Entries);
    }

    [Fact]
    public async Task Restore_OfADatumErasedSince_ErasesItAgain()
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        var digest = (await shop.Store.PersonalOfAsync(Job)).Held[0];
        await shop.Store.BackupAsync(backup);
        await shop.Store.EraseAsync(Job, digest);
        await shop.Store.DisposeAsync();

        var report = await Restore.RunAsync(
            await Restore.PlanAsync(backup, shop.Options),
            replace: true
        );
        await using var restored = await ShopStore.OpenAsync(shop.Options);

        Assert.Equal(1, report.ErasedAgain);
        Assert.Null(await restored.FindPersonalAsync(digest));
        Assert.Equal([digest], (await restored.PersonalOfAsync(Job)).Erased);
    }

    [Fact]
    public async Task Restore_OfABackupWithOneByteChanged_IsRefused()
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        var manifest = await shop.Store.BackupAsync(backup);
        var data = Path.Combine(backup, manifest.DataFile);
        var bytes = await File.ReadAllBytesAsync(data);
        bytes[bytes.Length / 2] ^= 1;
        await File.WriteAllBytesAsync(data, bytes);

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            Restore.PlanAsync(backup, shop.Options)
        );

        Assert.Equal(StoreFaultKind.BadBackup, fault.Fault.Kind);
    }

    [Fact]
    public async Task Backup_IntoAFolderThatIsThere_IsRefused()
    {
        await using var shop = await FilledAsync();

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            shop.Store.BackupAsync(shop.Folder)
        );

        Assert.Equal(StoreFaultKind.WouldReplace, fault.Fault.Kind);
    }

    [Fact]
    public async Task Backup_FromBeside_SeesWhatTheOpenStoreHas()
    {
        await using var shop = await FilledAsync();

        var manifest = await Backup.RunAsync(shop.Options, Path.Combine(shop.Folder, "backup"));

        Assert.Equal(3, manifest.Counts.Entries);
    }

    [Fact]
    public async Task Export_FilledStore_WritesFilesThatReadWithoutUs()
    {
        await using var shop = await FilledAsync();

        var report = await shop.Store.ExportAsync(Path.Combine(shop.Folder, "export"));

        var log = Path.Combine(report.Folder, "logs", Job.ToString());
        var lines = await File.ReadAllLinesAsync(Path.Combine(log, "entries.jsonl"));
        var raw = await File.ReadAllBytesAsync(Path.Combine(log, "entries.bin"));
        var personal = JsonNode.Parse(
            await File.ReadAllTextAsync(Path.Combine(report.Folder, "personal.jsonl"))
        )!;
        var held = (await shop.Store.PullAsync(Job, PullCursor.Start)).Entries;
        Assert.Equal(3, lines.Length);
        Assert.Equal(2, JsonNode.Parse(lines[1])!["body"]!["n"]!.GetValue<int>());
        Assert.Equal(
            held.Select(entry => entry.Encoded.ToArray()),
            lines.Select(line =>
                Convert.FromBase64String(JsonNode.Parse(line)!["encodedBase64"]!.GetValue<string>())
            )
        );
        Assert.Equal(held.Sum(entry => entry.Encoded.Length + 4), raw.Length);
        Assert.Equal(
            "Ada Invented",
            await File.ReadAllTextAsync(
                Path.Combine(report.Folder, personal["file"]!.GetValue<string>())
            )
        );
    }

    private protected async Task<Shop> FilledAsync()
    {
        var shop = await Shop.OpenAsync(Connection);
        await shop.Store.AppendAsync(Job, new Bench(1, Job).WriteMany(3));
        await shop.Store.CountersignAsync(Job, new StandInSigner());
        await shop.Store.PutPersonalAsync(
            Job,
            new PersonalDatum(
                RandomNumberGenerator.GetBytes(32),
                Encoding.UTF8.GetBytes("Ada Invented")
            ),
            "text/plain"
        );
        return shop;
    }
}
