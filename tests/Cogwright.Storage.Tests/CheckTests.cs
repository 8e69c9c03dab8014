using System.Security.Cryptography;
using Cogwright.Log;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Storage.Tests;

public sealed class SqliteCheckTests : CheckTests
{
    protected override string? Connection => null;
}

public sealed class PostgresCheckTests(Postgres postgres) : CheckTests
{
    protected override string? Connection => postgres.NewDatabase();
}

public abstract class CheckTests
{
    private static readonly LogId Job = Bench.Job(1);

    /// <summary>What somebody may do to the tables behind our back; each must be found.</summary>
    public static TheoryData<string> Tamperings =>
        [
            """UPDATE "Entries" SET "Sequence" = 77 WHERE "Receipt" = 2""",
            """UPDATE "Entries" SET "Hash" = "Previous" WHERE "Receipt" = 2""",
            """UPDATE "Entries" SET "Encoded" = (SELECT "Encoded" FROM "Entries" WHERE "Receipt" = 3) WHERE "Receipt" = 2""",
            """DELETE FROM "Entries" WHERE "Receipt" = 2""",
            """DELETE FROM "Entries" WHERE "Receipt" = 4""",
            """DELETE FROM "Tips" """,
            """UPDATE "Tips" SET "Sequence" = 3""",
            """UPDATE "Logs" SET "LastReceipt" = 9""",
            """DELETE FROM "Statements" WHERE "Serial" = 2""",
            """UPDATE "Statements" SET "Signature" = "Encoded" WHERE "Serial" = 1""",
            """UPDATE "Personal" SET "Data" = "Salt" """,
            """UPDATE "Personal" SET "Salt" = "Data" """,
        ];

    protected abstract string? Connection { get; }

    [Fact]
    public async Task Check_SoundStore_CountsAndFindsNothing()
    {
        await using var shop = await FilledAsync();

        var report = await shop.Store.CheckAsync(new StandInSigner());

        Assert.Empty(report.Findings);
        Assert.Equal(
            (1, 4, 3, 1),
            (report.Logs, report.Entries, report.Statements, report.Personal)
        );
    }

    [Theory]
    [MemberData(nameof(Tamperings))]
    public async Task Check_TamperedTable_FindsDamage(string tampering)
    {
        await using var shop = await FilledAsync();
        await using (var context = shop.Store.NewContext())
        {
            Assert.True(await context.Database.ExecuteSqlRawAsync(tampering) > 0);
        }

        var report = await shop.Store.CheckAsync(new StandInSigner());

        Assert.False(report.IsSound);
    }

    [Fact]
    public async Task Check_EntriesThatWait_IsSoundAndNotesThem()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var entries = new Bench(1, Job).WriteMany(3);
        await shop.Store.AppendAsync(Job, [entries[0], entries[2]]);

        var report = await shop.Store.CheckAsync();

        Assert.True(report.IsSound);
        Assert.NotEmpty(report.Findings);
    }

    private async Task<Shop> FilledAsync()
    {
        var shop = await Shop.OpenAsync(Connection);
        var bench = new Bench(1, Job);
        var signer = new StandInSigner();
        await shop.Store.AppendAsync(Job, bench.WriteMany(2));
        await shop.Store.CountersignAsync(Job, signer);
        await shop.Store.CountersignAsync(Job, signer);
        await shop.Store.AppendAsync(Job, bench.WriteMany(2));
        await shop.Store.CountersignAsync(Job, signer);
        await shop.Store.PutPersonalAsync(
            Job,
            new PersonalDatum(RandomNumberGenerator.GetBytes(32), "Ada Invented"u8),
            "text/plain"
        );
        return shop;
    }
}
