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
        Assert.Equal(new ErasureReport(true, ErasedBytes.Gone), report);
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
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        var bench = new Bench(1, Job);
        while (Occurrences(shop.Folder, "a complaint in full"u8.ToArray()) > 0)
        {
            // Nobody waits for it, and a store that is never idle gets to it all the same.
            patience.Token.ThrowIfCancellationRequested();
            await shop.Store.AppendAsync(Job, [bench.Write()]);
        }

        Assert.Equal(new ErasureReport(true, ErasedBytes.Waiting), report);
    }

    [Fact]
    public async Task Open_AfterAKillThatLeftErasedBytes_ClearsThemAway()
    {
        await using var shop = await Shop.OpenAsync(null);
        var datum = Datum(string.Concat(Enumerable.Repeat("a complaint in full", 500)));
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        await using var reader = new Microsoft.Data.Sqlite.SqliteConnection(
            $"Data Source={shop.Options.DatabasePath};Pooling=False"
        );
        await reader.OpenAsync();
        await using var command = reader.CreateCommand();
        command.CommandText = "BEGIN; SELECT COUNT(*) FROM Personal";
        await command.ExecuteScalarAsync();
        await shop.Store.EraseAsync(Job, datum.Digest);
        // What a kill at this moment leaves behind.
        var left = shop.Options with
        {
            DataFolder = Shop.NewFolder(),
        };
        foreach (var ending in (string[])["", "-wal"])
        {
            File.Copy(shop.Options.DatabasePath + ending, left.DatabasePath + ending);
        }
        var before = Occurrences(left.DataFolder, "a complaint in full"u8.ToArray());

        await using var store = await ShopStore.OpenAsync(left);
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        while (Occurrences(left.DataFolder, "a complaint in full"u8.ToArray()) > 0)
        {
            patience.Token.ThrowIfCancellationRequested();
            await Task.Yield();
        }

        Assert.True(before > 0);
        await store.DisposeAsync();
        Directory.Delete(left.DataFolder, recursive: true);
    }

    [Fact]
    public async Task Erase_WithACopyFromBeforeAChangeOfTheTables_DeletesThatToo()
    {
        await using var shop = await Shop.OpenAsync(null);
        var datum = Datum("Ada Invented");
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        var copy = Path.Combine(shop.Folder, "before-20270101000000_Next.db");
        await File.WriteAllTextAsync(copy, "Ada Invented");

        await shop.Store.EraseAsync(Job, datum.Digest);

        Assert.False(File.Exists(copy));
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
                // It may be cut short meanwhile.
                var read = stream.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
                var count = 0;
                for (
                    var rest = bytes.AsSpan(0, read);
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

    [Fact]
    public async Task Erase_WhoseConnectionIsCutWhileClearingAway_LeavesTheWriterAtWork()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = Datum("Ada Invented");
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        await using var source = Npgsql.NpgsqlDataSource.Create(
            shop.Options.ConnectionString + ";Pooling=false"
        );
        await using var inTheWay = await source.OpenConnectionAsync();
        await using var locking = await inTheWay.BeginTransactionAsync();
        await using var command = new Npgsql.NpgsqlCommand(
            """LOCK TABLE cogwright."Personal" IN SHARE UPDATE EXCLUSIVE MODE""",
            inTheWay
        );
        await command.ExecuteNonQueryAsync();

        var erasing = shop.Store.EraseAsync(Job, datum.Digest);
        // Over another connection: within a transaction the same activities are shown again and again.
        await using var cutting = source.CreateCommand(
            """
            SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity
            WHERE datname = current_database() AND query LIKE 'VACUUM%' AND wait_event_type = 'Lock'
            """
        );
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        while (await cutting.ExecuteScalarAsync() is 0L)
        {
            patience.Token.ThrowIfCancellationRequested();
        }
        var report = await erasing;
        var page = await shop.Store.AppendAsync(Job, [new Bench(1, Job).Write()]);

        Assert.Equal(new ErasureReport(true, ErasedBytes.Waiting), report);
        Assert.Equal(AnswerStatus.Created, page.Answers[0].Status);
    }

    [Fact]
    public async Task Erase_Datum_SaysThatTheDatabasesOwnLogKeepsItsBytes()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = Datum("Ada Invented");
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");

        var report = await shop.Store.EraseAsync(Job, datum.Digest);

        Assert.Equal(new ErasureReport(true, ErasedBytes.InDatabaseLog), report);
        Assert.False(report.IsGoneFromFiles);
    }

    [Fact]
    public async Task Erase_WhileAnOlderStateIsRead_SaysThatTheRoomIsNotFreedYet()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = Datum("Ada Invented");
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");
        await using var source = Npgsql.NpgsqlDataSource.Create(
            shop.Options.ConnectionString + ";Pooling=false"
        );
        await using var reader = await source.OpenConnectionAsync();
        await using var reading = await reader.BeginTransactionAsync(
            System.Data.IsolationLevel.RepeatableRead
        );
        await using var command = new Npgsql.NpgsqlCommand("SELECT 1", reader);
        await command.ExecuteScalarAsync();

        var report = await shop.Store.EraseAsync(Job, datum.Digest);

        Assert.Equal(new ErasureReport(true, ErasedBytes.Waiting), report);
    }
}

public abstract class PersonalTests
{
    protected static LogId Job { get; } = Bench.Job(1);

    protected abstract string? Connection { get; }

    [Fact]
    public async Task Erase_UnderTheIdOfAnotherLog_IsRefusedAndBeginsNoLog()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = Datum("Ada Invented");
        await shop.Store.PutPersonalAsync(Job, datum, "text/plain");

        var fault = await Assert.ThrowsAsync<StoreFaultException>(() =>
            shop.Store.EraseAsync(Bench.Job(2), datum.Digest)
        );
        await shop.Store.EraseAsync(Bench.Job(3), Datum("never here").Digest);

        Assert.Equal(StoreFaultKind.Nothing, fault.Fault.Kind);
        Assert.NotNull(await shop.Store.FindPersonalAsync(datum.Digest));
        Assert.Empty((await shop.Store.PersonalOfAsync(Bench.Job(2))).Erased);
        Assert.Equal([Job], (await shop.Store.LogsAsync()).Select(log => log.Log));
    }

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
