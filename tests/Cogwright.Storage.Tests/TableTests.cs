using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage.Tests;

public sealed class SqliteTableTests : TableTests
{
    protected override string? Connection => null;
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
