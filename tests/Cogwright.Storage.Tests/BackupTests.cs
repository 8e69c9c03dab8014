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

    [Fact]
    public async Task Plan_WhileSomebodyHoldsTheFileLocked_SaysSoAndTakesNothingForDamaged()
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await shop.Store.DisposeAsync();
        await using var other = new Microsoft.Data.Sqlite.SqliteConnection(
            $"Data Source={shop.Options.DatabasePath};Pooling=False"
        );
        await other.OpenAsync();
        await using var command = other.CreateCommand();
        command.CommandText =
            "PRAGMA journal_mode = DELETE; PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE";
        await command.ExecuteNonQueryAsync();

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            Restore.PlanAsync(backup, shop.Options with { LockWaitSeconds = 1 })
        );

        Assert.Equal(StoreFaultKind.Locked, fault.Fault.Kind);
    }

    [Fact]
    public async Task Plan_OverAFileOfAnotherProgram_SaysThatItReplacesSomething()
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        var options = new StoreOptions(Path.Combine(shop.Folder, "other"));
        Directory.CreateDirectory(options.DataFolder);
        await using (
            var other = new Microsoft.Data.Sqlite.SqliteConnection(
                $"Data Source={options.DatabasePath};Pooling=False"
            )
        )
        {
            await other.OpenAsync();
            await using var command = other.CreateCommand();
            command.CommandText = "CREATE TABLE Recipes (Name TEXT)";
            await command.ExecuteNonQueryAsync();
        }

        var plan = await Restore.PlanAsync(backup, options);

        Assert.Equal(StoreFaultKind.NotOurs, plan.PresentFault?.Kind);
        Assert.True(plan.Replaces);
    }
}

public sealed class PostgresBackupTests(Postgres postgres) : BackupTests
{
    protected override string? Connection => postgres.NewDatabase();

    [Fact]
    public async Task Restore_WhileAServerIsHereUnderAnotherName_IsRefused()
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        var plan = await Restore.PlanAsync(
            backup,
            shop.Options with
            {
                ConnectionString = shop.Options.ConnectionString + ";Application Name=tools",
            }
        );

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            Restore.RunAsync(plan, replace: true)
        );

        Assert.Equal(StoreFaultKind.InUse, fault.Fault.Kind);
        Assert.Equal(3, (await shop.Store.PullAsync(Job, PullCursor.Start)).Entries.Length);
    }

    [Theory]
    [InlineData("cogwright_stepped_aside")]
    [InlineData("cogwright_set_aside_630822816000000000")]
    public async Task Restore_ThatFailsOnItsWay_LeavesThePresentDataAndTheirLife(string obstacle)
    {
        await using var shop = await FilledAsync();
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await shop.Store.AppendAsync(Bench.Job(2), new Bench(2, Bench.Job(2)).WriteMany(2));
        await shop.Store.DisposeAsync();
        await using var source = Npgsql.NpgsqlDataSource.Create(
            shop.Options.ConnectionString + ";Pooling=false"
        );
        await using var make = source.CreateCommand($"CREATE SCHEMA {obstacle}");
        await make.ExecuteNonQueryAsync();
        var options = shop.Options with { Clock = new Standing() };
        var plan = await Restore.PlanAsync(backup, options);

        await Assert.ThrowsAsync<StoreFaultException>(() => Restore.RunAsync(plan, replace: true));

        await using (var present = await ShopStore.OpenAsync(options))
        {
            Assert.Equal(shop.Store.Epoch, present.Epoch);
            Assert.Equal(2, (await present.LogsAsync()).Length);
        }
        // And with the obstacle away, another try goes through.
        await using var drop = source.CreateCommand($"DROP SCHEMA {obstacle}");
        await drop.ExecuteNonQueryAsync();
        var report = await Restore.RunAsync(plan, replace: true);
        Assert.NotEqual(shop.Store.Epoch, report.Epoch);
        Assert.Equal(3, report.Check.Entries);
    }

    private sealed class Standing : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => new(630822816000000000, TimeSpan.Zero);
    }
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
    public async Task Restore_OfPeopleShutOutSince_KeepsThemOut()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var until = new DateTimeOffset(2099, 3, 1, 8, 0, 0, TimeSpan.Zero);
        Account[] people =
        [
            .. ((string[])["stays", "switched off", "taken out", "locked out"]).Select(
                name => new Account { Id = Guid.CreateVersion7(), UserName = name }
            ),
        ];
        await using (var context = shop.Store.NewContext())
        {
            context.AddRange(people);
            await context.SaveChangesAsync();
        }
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await using (var context = shop.Store.NewContext())
        {
            people[1].Active = false;
            people[3].LockoutEnd = until;
            context.UpdateRange(people[1], people[3]);
            context.Remove(people[2]);
            await context.SaveChangesAsync();
        }
        await shop.Store.DisposeAsync();

        var report = await Restore.RunAsync(
            await Restore.PlanAsync(backup, shop.Options),
            replace: true
        );
        await using var restored = await ShopStore.OpenAsync(shop.Options);
        await using var again = restored.NewContext();
        var read = again.Users.ToDictionary(each => each.UserName!);

        Assert.Equal(2, report.ShutOutAgain);
        Assert.Equal(
            [true, false, false, true],
            people.Select(each => read[each.UserName!].Active)
        );
        Assert.Null(read["stays"].LockoutEnd);
        Assert.Equal(until, read["locked out"].LockoutEnd);
    }

    [Fact]
    public async Task Restore_IntoAStoreThatIsNoLaterStateOfTheBackup_LetsItsPeopleIn()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await using (var context = shop.Store.NewContext())
        {
            context.Add(new Account { Id = Guid.CreateVersion7(), UserName = "ada" });
            await context.SaveChangesAsync();
        }
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await using var other = await Shop.OpenAsync(Connection);
        await other.Store.DisposeAsync();

        var report = await Restore.RunAsync(
            await Restore.PlanAsync(backup, other.Options),
            replace: false
        );
        await using var restored = await ShopStore.OpenAsync(other.Options);
        await using var again = restored.NewContext();

        Assert.Equal(0, report.ShutOutAgain);
        Assert.True(again.Users.Single().Active);
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
