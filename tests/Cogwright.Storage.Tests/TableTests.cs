using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage.Tests;

public sealed class SqliteTableTests : TableTests
{
    protected override string? Connection => null;

    [Fact]
    public async Task Open_AfterAKillInTheMidstOfMakingTheTables_MakesThem()
    {
        var options = new StoreOptions(Shop.NewFolder());
        await using (
            var killed = new Microsoft.Data.Sqlite.SqliteConnection(
                $"Data Source={options.DatabasePath};Pooling=False"
            )
        )
        {
            await killed.OpenAsync();
            await using var command = killed.CreateCommand();
            // What Entity Framework writes before it changes anything, and deletes when it is done.
            command.CommandText = $"""
                PRAGMA application_id = {SqliteDatabase.ApplicationId};
                CREATE TABLE "__EFMigrationsLock" (
                    "Id" INTEGER NOT NULL CONSTRAINT "PK___EFMigrationsLock" PRIMARY KEY, "Timestamp" TEXT NOT NULL);
                INSERT INTO "__EFMigrationsLock" VALUES (1, '2026-03-01 08:00:00+00:00');
                """;
            await command.ExecuteNonQueryAsync();
        }

        await using (var store = await ShopStore.OpenAsync(options))
        {
            var page = await store.AppendAsync(Bench.Job(1), [new Bench(1, Bench.Job(1)).Write()]);
            Assert.Equal(Cogwright.Log.AnswerStatus.Created, page.Answers[0].Status);
        }
        Directory.Delete(options.DataFolder, recursive: true);
    }

    [Fact]
    [System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
    public async Task Open_NewDataFolder_IsForItsOwnerAlone()
    {
        var above = Shop.NewFolder();
        var options = new StoreOptions(Path.Combine(above, "shops", "one"));
        await using (var store = await ShopStore.OpenAsync(options))
        {
            await store.AppendAsync(Bench.Job(1), [new Bench(1, Bench.Job(1)).Write()]);
            const UnixFileMode Others = (UnixFileMode)0b111_111;

            Assert.Equal(UnixFileMode.None, Others & File.GetUnixFileMode(options.DataFolder));
            Assert.All(
                Directory.GetFiles(options.DataFolder),
                file => Assert.Equal(UnixFileMode.None, Others & File.GetUnixFileMode(file))
            );
        }
        Directory.Delete(above, recursive: true);
    }
}

public sealed class PostgresTableTests(Postgres postgres) : TableTests
{
    protected override string? Connection => postgres.NewDatabase();

    [Fact]
    public async Task TwoStores_OpeningOneEmptyDatabaseAtOnce_MakeTheTablesOnce()
    {
        var options = new StoreOptions(Path.GetTempPath())
        {
            ConnectionString = postgres.Server.NewDatabase(),
        };

        var stores = await Task.WhenAll(
            Enumerable.Range(0, 3).Select(_ => ShopStore.OpenAsync(options))
        );

        Assert.Single(stores.Select(store => store.Epoch).Distinct());
        foreach (var store in stores)
        {
            await store.DisposeAsync();
        }
    }
}

public sealed class PostgresConnectionTests(Postgres postgres)
{
    [Theory]
    [InlineData("Options=-c synchronous_commit=off -c lock_timeout=1h")]
    [InlineData("Options='-csynchronous_commit=off --lock_timeout=1h'")]
    public async Task Open_WithOptionsThatWouldLoseEntries_KeepsItsOwn(string options)
    {
        await using var shop = await Shop.OpenAsync(postgres.NewDatabase() + ";" + options);
        await using var context = shop.Store.NewContext();

        Assert.Equal(
            ["on", "10s"],
            [
                await context.Database.SqlQueryRaw<string>("SHOW synchronous_commit").ToListAsync()
                    is [var commit]
                    ? commit
                    : "",
                await context.Database.SqlQueryRaw<string>("SHOW lock_timeout").ToListAsync()
                    is [var wait]
                    ? wait
                    : "",
            ]
        );
    }

    [Fact]
    public void Settings_ForThePrograms_AskForNoLessThanTheDriver()
    {
        var settings = PostgresPrograms
            .Settings(
                "Host=h;Port=7;Username=u;Password=p;Database=d;SSL Mode=VerifyFull;Root Certificate=/r;SSL Certificate=/c;SSL Key=/k;Options=-c role=x"
            )
            .ToDictionary();

        Assert.Equal(
            new Dictionary<string, string>
            {
                ["PGHOST"] = "h",
                ["PGPORT"] = "7",
                ["PGUSER"] = "u",
                ["PGPASSWORD"] = "p",
                ["PGDATABASE"] = "d",
                ["PGOPTIONS"] = "-c role=x",
                ["PGSSLMODE"] = "verify-full",
                ["PGSSLROOTCERT"] = "/r",
                ["PGSSLCERT"] = "/c",
                ["PGSSLKEY"] = "/k",
            },
            settings
        );
    }

    [Fact]
    public async Task Append_AfterARestoreDuringALostConnection_IsRefused()
    {
        await using var shop = await Shop.OpenAsync(postgres.NewDatabase());
        await using var source = Npgsql.NpgsqlDataSource.Create(
            shop.Options.ConnectionString + ";Pooling=false"
        );
        await using var command = source.CreateCommand(
            """
            INSERT INTO cogwright."Epochs" SELECT 2, gen_random_uuid(), 0;
            SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database() AND pid <> pg_backend_pid()
            """
        );
        await command.ExecuteNonQueryAsync();

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            shop.Store.AppendAsync(Bench.Job(1), [new Bench(1, Bench.Job(1)).Write()])
        );

        Assert.Equal(StoreFaultKind.Closed, fault.Fault.Kind);
    }
}

public abstract class TableTests
{
    protected abstract string? Connection { get; }

    [Fact]
    public async Task Migrations_TogetherGiveTheTablesOfTheModel()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await using var context = shop.Store.NewContext();

        Assert.False(context.Database.HasPendingModelChanges());
        Assert.Empty(await context.Database.GetPendingMigrationsAsync());
        Assert.Equal(
            await context.Database.GetAppliedMigrationsAsync(),
            Connection is null ? MigrationList.Sqlite : MigrationList.Postgres
        );
    }

    [Fact]
    public async Task Open_DatabaseOfALaterVersion_IsRefused()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await using (var context = shop.Store.NewContext())
        {
            await context.Database.ExecuteSqlRawAsync(
                """INSERT INTO "__EFMigrationsHistory" ("MigrationId", "ProductVersion") VALUES ('99990101000000_Later', '99')"""
            );
        }
        await shop.Store.DisposeAsync();

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            ShopStore.OpenAsync(shop.Options)
        );

        Assert.Equal(StoreFaultKind.FromLaterVersion, fault.Fault.Kind);
    }

    [Fact]
    public async Task Accounts_SessionsAndLinks_ComeBackAsStored()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var account = new Account
        {
            Id = Guid.CreateVersion7(),
            UserName = "ada",
            DisplayName = "Ada Invented",
            LockoutEnd = new DateTimeOffset(2026, 3, 1, 9, 0, 0, TimeSpan.FromHours(1)),
        };
        var session = new DeviceSession
        {
            Id = Guid.CreateVersion7(),
            AccountId = account.Id,
            TokenHash = new byte[32],
            ExpiresTicks = 5,
        };
        var link = new CustomerLink
        {
            Id = Guid.CreateVersion7(),
            Log = Bench.Job(1).Value,
            TokenHash = new byte[32],
            RevokedTicks = 7,
        };
        await using (var context = shop.Store.NewContext())
        {
            context.AddRange(
                account,
                session,
                link,
                new ShopSetting { Name = "shop.name", Value = "The Invented Workshop" }
            );
            await context.SaveChangesAsync();
        }

        await using var again = shop.Store.NewContext();
        var read = await again.Users.SingleAsync(each => each.Id == account.Id);

        Assert.Equal("Ada Invented", read.DisplayName);
        Assert.Equal(account.LockoutEnd, read.LockoutEnd);
        Assert.True(
            await again.DeviceSessions.AnyAsync(each =>
                each.AccountId == account.Id && each.RevokedTicks == null
            )
        );
        Assert.Equal(
            7,
            (await again.CustomerLinks.SingleAsync(each => each.Log == link.Log)).RevokedTicks
        );
        Assert.Equal("The Invented Workshop", (await again.ShopSettings.SingleAsync()).Value);
    }

    [Fact]
    public async Task Sessions_WithTheSameToken_AreRefused()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await using var context = shop.Store.NewContext();
        var account = new Account { Id = Guid.CreateVersion7(), UserName = "ada" };
        context.Add(account);
        context.AddRange(
            Enumerable
                .Range(0, 2)
                .Select(_ => new DeviceSession
                {
                    Id = Guid.CreateVersion7(),
                    AccountId = account.Id,
                    TokenHash = new byte[32],
                })
        );

        await Assert.ThrowsAsync<DbUpdateException>(() => context.SaveChangesAsync());
    }
}
