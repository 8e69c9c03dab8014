using System.Text;
using Cogwright.Log;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage.Tests;

/// <summary>
/// Backups that version 1 of the tables made, in testdata/formats: they must be restored for ever, brought to the present
/// tables. The SQLite one is an older database as well.
/// </summary>
public sealed class FormatTests(Postgres postgres)
{
    private static readonly LogId Job = new(new Guid("00000000-0000-7000-8000-00000000a0b1"));

    [Theory]
    [InlineData("sqlite")]
    [InlineData("postgresql")]
    public async Task BackupOfVersion1_IsRestoredWhole(string kind)
    {
        var folder = Shop.NewFolder();
        var options = new StoreOptions(folder)
        {
            ConnectionString = kind == "sqlite" ? null : postgres.Server.NewDatabase(),
        };
        var backup = PathOf($"testdata/formats/storage-v1/{kind}");

        var report = await Restore.RunAsync(
            await Restore.PlanAsync(backup, options),
            replace: false
        );

        await using (var store = await ShopStore.OpenAsync(options))
        {
            await AssertWholeAsync(store);
        }
        Assert.True(report.Check.IsSound);
        Assert.Equal((5, 1), (report.Check.Entries, report.Check.Statements));
        Directory.Delete(folder, recursive: true);
    }

    private static async Task AssertWholeAsync(ShopStore store)
    {
        var log = await store.LoadAsync(Job);
        Assert.Equal((4, 1), (log.Count, log.WaitingCount));
        var named = log.Ordered.SelectMany(entry => entry.Personal).Single();
        var personal = await store.FindPersonalAsync(named);
        Assert.Equal("Ada Invented", Encoding.UTF8.GetString(personal!.Datum.Data.Span));
        Assert.Single((await store.PersonalOfAsync(Job)).Erased);
        Assert.Empty(
            await StatementCheck.AmongAsync(await store.StatementsAsync(Job), new StandInSigner())
        );
        await using var context = store.NewContext();
        Assert.False(context.Database.HasPendingModelChanges());
        Assert.Equal("Ada Invented", (await context.Users.SingleAsync()).DisplayName);
    }

    private static string PathOf(string relative)
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Cogwright.slnx")))
        {
            folder = folder.Parent;
        }
        Assert.NotNull(folder);
        return Path.Combine(folder.FullName, relative);
    }
}
