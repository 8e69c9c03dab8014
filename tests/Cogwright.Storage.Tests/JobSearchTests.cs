using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using System.Text;
using Cogwright.Log;
using Npgsql;

namespace Cogwright.Storage.Tests;

public sealed class SqliteJobSearchTests : JobSearchTests
{
    protected override string? Connection => null;

    [Fact]
    public async Task Erase_OfWhatACustomerSaid_LeavesNoByteOfItInTheFiles()
    {
        await using var shop = await Shop.OpenAsync(null);
        var datum = new PersonalDatum(new byte[PersonalDatum.SaltBytes], "kwezilnu"u8);
        await FoldWithWordsAsync(shop.Store, datum, "kwezilnu");
        Assert.True(HasBytes(shop.Folder, "kwezilnu"));

        var report = await shop.Store.EraseAsync(Bench.Job(1), datum.Digest);

        Assert.True(report.IsGoneFromFiles);
        Assert.False(HasBytes(shop.Folder, "kwezilnu"));
    }

    private static bool HasBytes(string folder, string word) =>
        Directory
            .GetFiles(folder, "shop.db*")
            .Any(file =>
            {
                using var open = new FileStream(
                    file,
                    FileMode.Open,
                    FileAccess.Read,
                    FileShare.ReadWrite
                );
                using var copy = new MemoryStream();
                open.CopyTo(copy);
                return copy.ToArray().AsSpan().IndexOf(Encoding.UTF8.GetBytes(word)) >= 0;
            });
}

public sealed class PostgresJobSearchTests(Postgres postgres) : JobSearchTests
{
    protected override string? Connection => postgres.NewDatabase();

    /// <summary>The planner's statistics keep samples of what a table held (PostgreSQL's manual, pg_stats).</summary>
    [Fact]
    public async Task Erase_OfWhatACustomerSaid_LeavesNothingOfItInTheStatistics()
    {
        var connection = Connection!;
        await using var shop = await Shop.OpenAsync(connection);
        var datum = new PersonalDatum(new byte[PersonalDatum.SaltBytes], "kwezilnu"u8);
        await FoldWithWordsAsync(shop.Store, datum, "kwezilnu");
        for (byte other = 1; other <= 20; other++)
        {
            await shop.Store.PutPersonalAsync(
                Bench.Job(1),
                new PersonalDatum(new byte[PersonalDatum.SaltBytes], new byte[] { other }),
                "text/plain"
            );
        }
        await using var source = NpgsqlDataSource.Create(connection);
        await using var analyze = source.CreateCommand("ANALYZE");
        await analyze.ExecuteNonQueryAsync();

        await shop.Store.EraseAsync(Bench.Job(1), datum.Digest);

        await using var look = source.CreateCommand(
            """
            SELECT COUNT(*), COUNT(*) FILTER (WHERE "s"::text LIKE ANY (ARRAY['%kwezilnu%', '%6b77657a696c6e75%']))
            FROM pg_stats AS "s" WHERE "schemaname" = 'cogwright'
            """
        );
        await using var reader = await look.ExecuteReaderAsync();
        await reader.ReadAsync();
        Assert.True(reader.GetInt64(0) > 0, "the statistics can be read");
        Assert.Equal(0, reader.GetInt64(1));
    }

    [Fact]
    public async Task Backup_LeavesOutWhatIsWorkedOutAgain()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.AppendAsync(Bench.Job(1), [new Bench(1, Bench.Job(1)).Write()]);
        await shop.Store.PutFoldedAsync(Folded(1, 1, "kwezilnu"));
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await shop.Store.DisposeAsync();
        await Restore.RunAsync(await Restore.PlanAsync(backup, shop.Options), replace: true);
        await shop.ReopenAsync();

        Assert.Empty((await shop.Store.FindJobsAsync("kwezilnu", true, 10)).Jobs);
        Assert.Equal([Bench.Job(1)], await shop.Store.UnfoldedAsync(1, 10));
    }
}

public abstract class JobSearchTests
{
    private static readonly string[] Stock =
    [
        "Grüne Linie",
        "Señora",
        "Çelik",
        "Łódź",
        "øre",
        "ﬁnish",
        "naïve",
        "Straße",
        "ζυγός",
        "колесо",
        "12-speed",
        "SN-0042/7",
        "cable",
        "cassette",
        "cast",
        "Cadmus",
        "c",
        "x1",
        "ångström",
        "quick link",
    ];

    protected abstract string? Connection { get; }

    /// <summary>200 000 jobs in the long run; what is told of the times is for people.</summary>
    [Fact]
    public async Task Find_FromVeryManyJobs_FindsWhatALookAtEachFinds()
    {
        const int most = 50;
        var count = Environment.GetEnvironmentVariable("COGWRIGHT_LONG") == "1" ? 200_000 : 2_000;
        await using var shop = await Shop.OpenAsync(Connection);
        var invented = new InventedJobs(17);
        var texts = new Dictionary<LogId, string>();
        foreach (var block in Enumerable.Range(0, count).Chunk(1024))
        {
            var made = block.Select(number => invented.Make(number, count)).ToList();
            foreach (var each in made)
            {
                texts.Add(
                    each.Log,
                    " " + string.Join(' ', each.Jobs[0].Words.Concat(each.Jobs[0].Said))
                );
            }
            await Task.WhenAll(made.Select(each => shop.Store.PutFoldedAsync(each)));
        }
        var times = new List<double>();
        foreach (var (what, questions) in invented.Questions(4))
        {
            foreach (var question in questions)
            {
                var began = Stopwatch.GetTimestamp();
                var found = await shop.Store.FindJobsAsync(question, withSaid: true, most);
                times.Add(Stopwatch.GetElapsedTime(began).TotalMilliseconds);

                // In what the shop wrote, or in what was said and the shop wrote together.
                var asked = SearchWords.Asked(question).Select(word => " " + word).ToList();
                var logs = texts
                    .Where(each =>
                        asked.TrueForAll(word =>
                            each.Value.Contains(word, StringComparison.Ordinal)
                        )
                    )
                    .Select(each => each.Key)
                    .ToHashSet();
                Assert.True(
                    found.Jobs.All(job => logs.Contains(job.Log)),
                    $"{what}: \"{question}\" finds only what has the words"
                );
                Assert.Equal(Math.Min(logs.Count, most), found.Jobs.Length);
                Assert.Equal(logs.Count > most, found.HasMore);
            }
        }
        times.Sort();
        TestContext.Current.SendDiagnosticMessage(
            $"search in {count} jobs: median {times[times.Count / 2]:F1} ms, 95th of a hundred {times[times.Count * 95 / 100]:F1} ms, longest {times[^1]:F1} ms"
        );
    }

    [Fact]
    public async Task Find_FromThreeHundredJobs_FindsWhatALookAtEachFinds()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var random = new Random(7);
        var jobs = Enumerable
            .Range(1, 300)
            .Select(number =>
                (
                    Number: number,
                    Text: string.Join(
                        ' ',
                        Enumerable.Range(0, 4).Select(_ => Stock[random.Next(Stock.Length)])
                    )
                )
            )
            .ToList();
        await Task.WhenAll(
            jobs.Select(job => shop.Store.PutFoldedAsync(Folded(job.Number, 1, job.Text)))
        );
        // Some are told anew, and nothing of what they were may be found.
        for (var i = 0; i < jobs.Count; i += 7)
        {
            jobs[i] = (jobs[i].Number, Stock[random.Next(Stock.Length)]);
            await shop.Store.PutFoldedAsync(Folded(jobs[i].Number, 2, jobs[i].Text));
        }
        string[] questions =
        [
            "grune",
            "GRÜNE l",
            "senora",
            "celik",
            "lodz",
            "ore",
            "finish",
            "NAIVE",
            "strasse",
            "ζυγο",
            "КОЛ",
            "12",
            "sn 0042",
            "0042/7",
            "c",
            "ca",
            "cas",
            "cass",
            "cast cable",
            "cadmus x",
            "angstrom",
            "q l",
            "nowhere",
            "c nowhere",
        ];

        foreach (var question in questions)
        {
            var found = await shop.Store.FindJobsAsync(question, withSaid: false, 1000);

            Assert.False(found.HasMore);
            Assert.Equal(
                jobs.Where(job => Naive(job.Text, question)).Select(job => Title(job.Number)),
                found.Jobs.Select(job => job.Title).Order(StringComparer.Ordinal)
            );
        }
        Assert.True((await shop.Store.FindJobsAsync("c", false, 10)).HasMore);
    }

    [Theory]
    [InlineData("")]
    [InlineData("  ' \" * & | ! :* ()")]
    [InlineData("\ud800")]
    public async Task Find_WithoutAWord_FindsNothing(string question)
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutFoldedAsync(Folded(1, 1, "cable"));

        Assert.Empty((await shop.Store.FindJobsAsync(question, true, 10)).Jobs);
    }

    [Fact]
    public async Task Find_WithSigns_TakesThemForGapsAndForNothingElse()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.PutFoldedAsync(Folded(1, 1, "cable NOT near"));

        Assert.Single((await shop.Store.FindJobsAsync("cab* \"near'; --", true, 10)).Jobs);
        Assert.Single((await shop.Store.FindJobsAsync("cable NOT near", true, 10)).Jobs);
        Assert.Empty((await shop.Store.FindJobsAsync("cable OR nothing", true, 10)).Jobs);
    }

    [Fact]
    public async Task WhatACustomerSaid_IsFoundByThoseWhoMay_UntilItIsErased()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = new PersonalDatum(new byte[PersonalDatum.SaltBytes], "Nora Invented"u8);
        await FoldWithWordsAsync(shop.Store, datum, "nora", "invented");

        Assert.Single((await shop.Store.FindJobsAsync("nora title", true, 10)).Jobs);
        Assert.Empty((await shop.Store.FindJobsAsync("nora", false, 10)).Jobs);

        await shop.Store.EraseAsync(Bench.Job(1), datum.Digest);

        Assert.Empty((await shop.Store.FindJobsAsync("nora", true, 10)).Jobs);
        Assert.Single((await shop.Store.FindJobsAsync("title", true, 10)).Jobs);
        Assert.Equal([Bench.Job(1)], await shop.Store.UnfoldedAsync(1, 10));
        // Who had read the words before they were erased comes too late with them.
        Assert.Equal(
            FoldStatus.Overtaken,
            await shop.Store.PutFoldedAsync(
                Folded(1, 1, "title") with
                {
                    SaidHere = [datum.Digest],
                }
            )
        );
        Assert.Empty((await shop.Store.FindJobsAsync("nora", true, 10)).Jobs);
    }

    [Fact]
    public async Task WhatACustomerSaid_ComingAfterItsEntry_HasTheLogWorkedOutAgain()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = new PersonalDatum(new byte[PersonalDatum.SaltBytes], "Nora"u8);
        await shop.Store.AppendAsync(Bench.Job(1), [new Bench(1, Bench.Job(1)).Write()]);
        var without = Folded(1, 1, "title") with { SaidElsewhere = [datum.Digest] };
        Assert.Equal(FoldStatus.Put, await shop.Store.PutFoldedAsync(without));
        Assert.Empty(await shop.Store.UnfoldedAsync(1, 10));

        await shop.Store.PutPersonalAsync(Bench.Job(1), datum, "text/plain");

        Assert.Equal([Bench.Job(1)], await shop.Store.UnfoldedAsync(1, 10));
        Assert.Equal(FoldStatus.Overtaken, await shop.Store.PutFoldedAsync(without));
    }

    [Fact]
    public async Task PutFolded_OfAnEarlierPlaceOrVersion_LeavesWhatIsThere()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        await shop.Store.AppendAsync(Bench.Job(1), new Bench(1, Bench.Job(1)).WriteMany(3));
        await shop.Store.PutFoldedAsync(Folded(1, 2, "second", version: 2));

        Assert.Equal(
            FoldStatus.Behind,
            await shop.Store.PutFoldedAsync(Folded(1, 1, "first", version: 2))
        );
        foreach (var version in (int[])[1, 2])
        {
            Assert.Equal(
                FoldStatus.Behind,
                await shop.Store.PutFoldedAsync(Folded(1, 2, "again", version))
            );
        }
        Assert.Single((await shop.Store.FindJobsAsync("second", false, 10)).Jobs);
        Assert.True(await shop.Store.IsUnfoldedAsync(Bench.Job(1), 2));
        // A server that has gone back to an earlier version tells what came since, and is told over by the later one.
        Assert.Equal(
            FoldStatus.Put,
            await shop.Store.PutFoldedAsync(Folded(1, 3, "between", version: 1))
        );
        Assert.False(await shop.Store.IsUnfoldedAsync(Bench.Job(1), 1));
        Assert.True(await shop.Store.IsUnfoldedAsync(Bench.Job(1), 2));

        Assert.Equal(
            FoldStatus.Put,
            await shop.Store.PutFoldedAsync(Folded(1, 3, "third", version: 2))
        );
        Assert.Empty((await shop.Store.FindJobsAsync("second", false, 10)).Jobs);
        Assert.Empty((await shop.Store.FindJobsAsync("between", false, 10)).Jobs);
        Assert.Empty(await shop.Store.UnfoldedAsync(2, 10));
        Assert.Equal([Bench.Job(1)], await shop.Store.UnfoldedAsync(3, 10));

        await shop.Store.UnfoldAllAsync();

        Assert.Equal([Bench.Job(1)], await shop.Store.UnfoldedAsync(2, 10));
    }

    [Fact]
    public async Task Restore_OfABackupWithWordsErasedSince_FindsThemNoMore()
    {
        await using var shop = await Shop.OpenAsync(Connection);
        var datum = new PersonalDatum(new byte[PersonalDatum.SaltBytes], "Nora"u8);
        await FoldWithWordsAsync(shop.Store, datum, "nora");
        var backup = Path.Combine(shop.Folder, "backup");
        await shop.Store.BackupAsync(backup);
        await shop.Store.EraseAsync(Bench.Job(1), datum.Digest);
        await shop.Store.DisposeAsync();

        await Restore.RunAsync(await Restore.PlanAsync(backup, shop.Options), replace: true);
        await shop.ReopenAsync();

        Assert.Empty((await shop.Store.FindJobsAsync("nora", true, 10)).Jobs);
        Assert.Equal([Bench.Job(1)], await shop.Store.UnfoldedAsync(1, 10));
        Assert.True((await shop.Store.CheckAsync()).IsSound);
    }

    internal static FoldedLog Folded(int number, long receipt, string text, int version = 1) =>
        new(
            Bench.Job(number),
            receipt,
            version,
            [
                new(
                    new ListedJob(Bench.Job(number), "job", "A bike") { Title = Title(number) },
                    SearchWords.Of(text),
                    []
                ),
            ]
        );

    protected static async Task FoldWithWordsAsync(
        ShopStore store,
        PersonalDatum datum,
        params ImmutableArray<string> said
    )
    {
        var log = Bench.Job(1);
        await store.AppendAsync(log, [new Bench(1, log).Write()]);
        await store.PutPersonalAsync(log, datum, "text/plain");
        var folded = Folded(1, 1, "title");
        Assert.Equal(
            FoldStatus.Put,
            await store.PutFoldedAsync(
                folded with
                {
                    Jobs = [folded.Jobs[0] with { Said = said }],
                    SaidHere = [datum.Digest],
                }
            )
        );
    }

    private static string Title(int number) =>
        string.Create(CultureInfo.InvariantCulture, $"title {number:D4}");

    /// <summary>Each word of the question, by the framework's own comparison without accents and case.</summary>
    private static bool Naive(string text, string question)
    {
        var words = Split(text);
        return Split(question)
            .All(asked =>
                words.Any(word =>
                    CultureInfo.InvariantCulture.CompareInfo.IsPrefix(
                        word,
                        asked,
                        CompareOptions.IgnoreCase | CompareOptions.IgnoreNonSpace
                    )
                )
            );
    }

    private static string[] Split(string text) =>
        // The letters that the framework does not hold for one with an accent.
        text.Replace("ß", "ss", StringComparison.Ordinal)
            .Replace("ø", "o", StringComparison.Ordinal)
            .Replace("Ł", "L", StringComparison.Ordinal)
            .Replace("ﬁ", "fi", StringComparison.Ordinal)
            .Split([' ', '-', '/'], StringSplitOptions.RemoveEmptyEntries);
}
