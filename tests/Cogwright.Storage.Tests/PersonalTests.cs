using System.Security.Cryptography;
using System.Text;
using Cogwright.Log;

namespace Cogwright.Storage.Tests;

public sealed class SqlitePersonalTests : PersonalTests
{
    protected override string? Connection => null;

    [Fact]
    public async Task Erase_Datum_TakesItsBytesOutOfTheFiles()
    {
        await using var shop = await Shop.OpenAsync(null);
        var secret = RandomNumberGenerator.GetHexString(64, lowercase: true);
        var datum = Datum(string.Concat(Enumerable.Repeat(secret, 300)));
        // Rows around it, so that its pages are not simply cut off.
        for (var i = 0; i < 20; i++)
        {
            await shop.Store.PutPersonalAsync(Job, Datum($"neighbour {i}"), "text/plain");
        }
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        await shop.Store.PutPersonalAsync(Job, Datum("a last one"), "text/plain");
        var before = Occurrences(shop.Folder, Encoding.UTF8.GetBytes(secret));

        var report = await shop.Store.EraseAsync(Job, datum.Digest);

        Assert.True(before > 0);
        Assert.Equal(new ErasureReport(true, true), report);
        Assert.Equal(0, Occurrences(shop.Folder, Encoding.UTF8.GetBytes(secret)));
        Assert.Equal(0, Occurrences(shop.Folder, datum.Salt.ToArray()));
    }

    [Fact]
    public async Task Erase_WhileSomebodyReads_IsGoneFromTheFilesAfterALaterWrite()
    {
        await using var shop = await Shop.OpenAsync(
            null,
            options => options with { LockWaitSeconds = 1 }
        );
        var datum = Datum(string.Concat(Enumerable.Repeat("a complaint in full", 500)));
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        ErasureReport report;
        await using (
            var reader = new Microsoft.Data.Sqlite.SqliteConnection(
                $"Data Source={shop.Options.DatabasePath};Pooling=False"
            )
        )
        {
            await reader.OpenAsync();
            await using var reading = reader.BeginTransaction(deferred: true);
            await using var command = reader.CreateCommand();
            command.Transaction = reading;
            command.CommandText = "SELECT COUNT(*) FROM Personal";
            await command.ExecuteScalarAsync();

            report = await shop.Store.EraseAsync(Job, datum.Digest);
        }
        await shop.Store.AppendAsync(Job, [new Bench(1, Job).Write()]);

        Assert.Equal(new ErasureReport(true, false), report);
        Assert.Equal(0, Occurrences(shop.Folder, "a complaint in full"u8.ToArray()));
    }

    private static int Occurrences(string folder, byte[] sought) =>
        Directory
            .GetFiles(folder, "shop.db*")
            .Sum(file =>
            {
                using var stream = new FileStream(
                    file,
                    FileMode.Open,
                    FileAccess.Read,
                    FileShare.ReadWrite
                );
                var bytes = new byte[stream.Length];
                stream.ReadExactly(bytes);
                var count = 0;
                for (
                    var rest = bytes.AsSpan();
                    rest.IndexOf(sought) is >= 0 and var at;
                    rest = rest[(at + 1)..]
                )
                {
                    count++;
                }
                return count;
            });
}

public sealed class PostgresPersonalTests(Postgres postgres) : PersonalTests
{
    protected override string? Connection => postgres.NewDatabase();
}

public abstract class PersonalTests
{
    protected static LogId Job { get; } = Bench.Job(1);

    protected abstract string? Connection { get; }

    [Fact]
    public async Task Put_Datum_ComesBackWithItsSaltAndType()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = Datum("Ada Invented, 3 No Such Street");

        var answer = await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        var again = await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        var found = await shop.Store.FindPersonalAsync(datum.Digest);

        Assert.Equal(PersonalStatus.Stored, answer.Status);
        Assert.Equal(PersonalStatus.Exists, again.Status);
        Assert.NotNull(found);
        Assert.Equal((Job, "text/plain"), (found.Log, found.ContentType));
        Assert.Equal(datum.Data.ToArray(), found.Datum.Data.ToArray());
        Assert.Equal(datum.Salt.ToArray(), found.Datum.Salt.ToArray());
    }

    [Fact]
    public async Task Erase_Datum_LeavesEntryAndChainAsTheyWere()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = Datum("Ada Invented");
        var bench = new Bench(1, Job);
        Entry[] entries = [bench.Write(), bench.Write("{}", datum.Digest), bench.Write()];
        await shop.Store.AppendAsync(Job, entries);
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");

        var report = await shop.Store.EraseAsync(Job, datum.Digest);

        Assert.True(report.WasHere);
        Assert.Null(await shop.Store.FindPersonalAsync(datum.Digest));
        Assert.Equal(entries, (await shop.Store.PullAsync(Job, PullCursor.Start)).Entries);
        Assert.Empty((await shop.Store.CheckAsync()).Findings);
    }

    [Fact]
    public async Task Put_ErasedDatum_IsRefused()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = Datum("Ada Invented");
        var neverHere = Datum("Bo Invented");
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        await shop.Store.EraseAsync(Job, datum.Digest);
        var report = await shop.Store.EraseAsync(Job, neverHere.Digest);

        var answers = new[]
        {
            await shop.Store.PutPersonalAsync(Job, datum, "text/plain"),
            await shop.Store.PutPersonalAsync(Job, neverHere, "text/plain"),
        };

        Assert.False(report.WasHere);
        Assert.All(answers, answer => Assert.Equal(StoreFaultKind.Erased, answer.Fault?.Kind));
        Assert.Equal(
            [.. new[] { datum.Digest, neverHere.Digest }.Order()],
            (await shop.Store.PersonalOfAsync(Job)).Erased
        );
    }

    [Fact]
    public async Task Put_LargerThanAllowed_SaysHowLarge()
    {
        await using var shop = await Shop.OpenAsync(
            Connection,
            options => options with { MostPhotoBytes = 1000 }
        );

        var fits = await shop.Store.PutPersonalAsync(
            Job,
            Datum(new string('x', 1000)),
            "image/jpeg"
        );
        var answer = await shop.Store.PutPersonalAsync(
            Job,
            Datum(new string('x', 1001)),
            "image/jpeg"
        );

        Assert.Equal(PersonalStatus.Stored, fits.Status);
        Assert.Equal(StoreFaultKind.TooLarge, answer.Fault?.Kind);
        Assert.Contains("1001", answer.Fault!.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Put_BeyondAQuota_IsRefusedUntilSomethingIsErased()
    {
        await using var shop = await Shop.OpenAsync(
            Connection,
            options => options with { PhotoQuotaBytesPerJob = 250, PhotoQuotaBytes = 400 }
        );
        var first = Datum(new string('a', 100));
        await shop.Store.PutPersonalAsync(Job, first, "image/jpeg");
        await shop.Store.PutPersonalAsync(Job, Datum(new string('b', 100)), "image/jpeg");

        var ofJob = await shop.Store.PutPersonalAsync(
            Job,
            Datum(new string('c', 100)),
            "image/jpeg"
        );
        await shop.Store.PutPersonalAsync(Bench.Job(2), Datum(new string('d', 150)), "image/jpeg");
        var ofShop = await shop.Store.PutPersonalAsync(
            Bench.Job(3),
            Datum(new string('e', 100)),
            "image/jpeg"
        );
        await shop.Store.EraseAsync(Job, first.Digest);
        var afterErasing = await shop.Store.PutPersonalAsync(
            Job,
            Datum(new string('f', 100)),
            "image/jpeg"
        );

        Assert.Equal(StoreFaultKind.OverQuota, ofJob.Fault?.Kind);
        Assert.Equal(StoreFaultKind.OverQuota, ofShop.Fault?.Kind);
        Assert.Equal(PersonalStatus.Stored, afterErasing.Status);
    }

    [Fact]
    public async Task Put_ManyAtOnce_StaysWithinTheQuota()
    {
        await using var shop = await Shop.OpenAsync(
            Connection,
            options => options with { PhotoQuotaBytes = 1000 }
        );

        var answers = await Task.WhenAll(
            Enumerable
                .Range(1, 20)
                .Select(job =>
                    shop.Store.PutPersonalAsync(
                        Bench.Job(job),
                        Datum(new string('x', 100)),
                        "image/jpeg"
                    )
                )
        );

        Assert.Equal(10, answers.Count(answer => answer.Status == PersonalStatus.Stored));
    }

    protected static PersonalDatum Datum(string text) =>
        new(RandomNumberGenerator.GetBytes(PersonalDatum.SaltBytes), Encoding.UTF8.GetBytes(text));
}
