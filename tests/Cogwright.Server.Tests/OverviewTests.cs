using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using Cogwright.Care;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Setup.Jobs;
using Cogwright.Storage;

namespace Cogwright.Server.Tests;

public sealed class OverviewTests
{
    private static readonly LogId Bike = Bench.Job(1);

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Rows_AfterRandomHistoriesOfThreeDevices_AreThoseOfAFullRefold(bool onPostgres)
    {
        await using var postgres = onPostgres ? PostgresServer.Start() : null;
        await using var running = await Running.StartAsync(postgres: postgres?.NewDatabase());
        var random = new Random(20261130);
        var store = running.Server.Store;
        var whole = new Dictionary<LogId, EntryLog>();
        for (var number = 1; number <= 8; number++)
        {
            var log = Bench.Job(number);
            whole[log] = new EntryLog(log);
            JobBench[] devices =
            [
                .. Enumerable.Range(1, 3).Select(each => new JobBench(each, log, random)),
            ];
            var unsent = new List<Entry>();
            for (var i = 0; i < 60; i++)
            {
                var device = devices[random.Next(3)];
                unsent.Add(device.Happen());
                if (random.Next(8) == 0)
                {
                    device.Log.Merge(devices[random.Next(3)].Log.Ordered);
                }
                // In whatever order, with gaps; worked out in between.
                if (random.Next(6) == 0)
                {
                    var sent = unsent
                        .OrderBy(_ => random.Next())
                        .Take(random.Next(unsent.Count + 1))
                        .ToList();
                    unsent.RemoveAll(sent.Contains);
                    await store.AppendAsync(log, sent);
                    if (random.Next(3) == 0)
                    {
                        await running.Server.Folding.SettledAsync();
                    }
                }
            }
            await store.AppendAsync(log, unsent);
            devices.ToList().ForEach(device => whole[log].Merge(device.Log.Ordered));
        }
        await running.Server.Folding.SettledAsync();

        Assert.Empty(await store.UnfoldedAsync(JobFolding.Version, 10));
        var expected = whole.SelectMany(each => Refold(each.Value)).ToList();
        Assert.Equal(
            Lines(expected.Where(each => each.Job.Length > 0)),
            Lines(await AllAsync(store))
        );
        Assert.True(expected.Count > 30, "the histories have jobs");
        var due = expected.Where(each => each.DueOn is not null).ToList();
        Assert.Contains(due, each => each.Job.Length == 0);
        Assert.Equal(
            Lines(due),
            Lines(
                (
                    await store.OverviewAsync(new(0, DateOnly.MaxValue, 10_000), JobFolding.Version)
                ).Due
            )
        );
        foreach (
            var word in (string[])["bike 3", "p1", "again", "answer", "note 4", "gears", "job 7"]
        )
        {
            var found = await store.FindJobsAsync(word, true, 1000);
            Assert.Equal(
                Lines(whole.SelectMany(each => Refold(each.Value, word))),
                Lines(found.Jobs.Where(job => job.Job.Length > 0))
            );
        }

        // Worked out anew from nothing, it is the same.
        var before = Lines(await AllAsync(store));
        await store.UnfoldAllAsync();
        await running.Server.Folding.SettledAsync();
        Assert.Equal(before, Lines(await AllAsync(store)));
    }

    [Fact]
    public async Task Entries_ThatAKillLeftUncounted_AreCountedAtTheNextStart()
    {
        await using var running = await Running.StartAsync();
        var bench = new JobBench(1, Bike, new Random(1));
        var entries = new[] { bench.Name("Grüne Linie"), bench.Write(JobEntry.Begin("Gears")) };
        await running.Server.DisposeAsync();
        // The store alone, as after a kill between the commit of the entries and that of the rows.
        await using (var store = await ShopStore.OpenAsync(running.Options.Store))
        {
            await store.AppendAsync(Bike, entries);
            await store.AppendAsync(
                Bench.Job(2),
                [new JobBench(2, Bench.Job(2), new Random(2)).Name("Another")]
            );
            // And one that an earlier version has worked out.
            await store.PutFoldedAsync(new FoldedLog(Bench.Job(2), 1, JobFolding.Version - 1, []));
        }

        await running.StartAgainAsync();
        await running.Server.Folding.SettledAsync();

        var browser = running.NewBrowser();
        Assert.Equal("Gears", Assert.Single((await FindAsync(browser, "grune")).Jobs).Title);
        Assert.Equal("Another", Assert.Single((await FindAsync(browser, "another")).Jobs).Name);
    }

    [Fact]
    public async Task TwoServersOnOneDatabase_TellTheSame()
    {
        await using var postgres = PostgresServer.Start();
        var database = postgres.NewDatabase();
        await using var one = await Running.StartAsync(postgres: database);
        await using var other = await Running.StartAsync(postgres: database);
        var bench = new JobBench(1, Bike, new Random(1));
        await one.Server.Store.AppendAsync(
            Bike,
            [bench.Name("Linie"), bench.Write(JobEntry.Begin("Gears"))]
        );
        await other.Server.Store.AppendAsync(
            Bike,
            [bench.Write(JobEntry.Hands(bench.Log[1].Id.ToString(), "AB", ""))]
        );
        await Task.WhenAll(one.Server.Folding.SettledAsync(), other.Server.Folding.SettledAsync());

        var told = await OverviewAsync(one.NewBrowser());
        Assert.Equal("AB", Assert.Single(told.Standing).InHandsOf);
        Assert.Equal(told.Standing, (await OverviewAsync(other.NewBrowser())).Standing);
        Assert.Equal(0, told.Behind);
    }

    [Fact]
    public async Task Overview_OfAShopAtWork_TellsWhoHasWhatWhatWaitsAndWhatCameBack()
    {
        await using var running = await Running.StartAsync();
        var bench = new JobBench(1, Bike, new Random(1))
        {
            Ticks = running.Clock.GetUtcNow().AddDays(-3).UtcTicks,
        };
        bench.Name("Linie");
        var first = bench.Write(JobEntry.Begin("Gears")).Id.ToString();
        bench.Write(JobEntry.Intake(first, IntakeFields.Kind, "gears"));
        bench.Write(JobEntry.Stage(first, JobStage.SetUp));
        bench.Ticks += TimeSpan.FromMinutes(25).Ticks;
        bench.Write(JobEntry.Hands(first, "AB", ""));
        bench.Ticks += TimeSpan.FromHours(2).Ticks;
        var due = DateOnly.FromDateTime(running.Clock.GetUtcNow().UtcDateTime).AddDays(14);
        bench.Write(JobEntry.Close(first, due));
        var second = bench.Write(JobEntry.Begin("Gears again")).Id.ToString();
        bench.Write(JobEntry.Comeback(second, first, "cable-settling", ""));
        bench.Write(JobEntry.Intake(second, IntakeFields.Inspection, IntakeFields.NoGo));
        bench.Write(JobEntry.Hands(second, "CD", ""));
        await running.Server.Store.AppendAsync(Bike, [.. bench.Log.Ordered]);
        await running.Server.Folding.SettledAsync();

        var told = await OverviewAsync(running.NewBrowser());

        Assert.Equal([new StandingAnswer("intake", "CD", 1)], told.Standing);
        var waiting = Assert.Single(told.Waiting);
        Assert.Equal(
            ("no-go", "Gears again", "Linie"),
            (waiting.Waits, waiting.Title, waiting.Name)
        );
        var check = Assert.Single(told.Due);
        Assert.Equal((first, due, "first-check"), (check.Job, check.DueOn!.Value, check.Due));
        Assert.Equal([new CauseAnswer("cable-settling", 1)], told.Comebacks);
        Assert.Equal(first, Assert.Single(told.CameBack).ComebackOf);
        Assert.Equal(1, told.Over);
        var times = Assert.Single(told.Times);
        // 25 min at the set-up; the gap of two hours is a pause.
        Assert.Equal(25 / 60.0, times.StageHours[(int)JobStage.SetUp], 9);
        Assert.Equal(25 / 60.0, times.StageHours.Sum(), 9);
        Assert.Equal(2, times.PauseHours, 9);
        // A look at the bike and it is due no more; one that is due later is not told yet.
        bench.Write(JobEntry.Check(first, "good"));
        bench.Write(JobEntry.Close(second, due.AddDays(1)));
        await running.Server.Store.AppendAsync(Bike, [.. bench.Log.Ordered]);
        await running.Server.Folding.SettledAsync();
        Assert.Empty((await OverviewAsync(running.NewBrowser())).Due);
        Assert.Equal(
            ("gears", 0.4, false),
            (times.Kind, times.PlannedHours!.Value, times.IsOwnPlan)
        );
    }

    /// <summary>A coin cell of 3 February: by common practice for 12 months, by this shop for one.</summary>
    [Fact]
    public async Task Wear_OfABike_IsDueByTheShopsOwnIntervals_AsSoonAsItHasThem()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        var bench = new JobBench(1, Bike, new Random(1));
        bench.Name("Linie");
        bench.Write(JobEntry.Begin("Gears"));
        bench.Write(
            CareEntry.Draft(
                new CarePart(CareKind.CoinCell, CarePlace.Left, new(2026, 2, 3)) { IsNew = true }
            )
        );
        await running.Server.Store.AppendAsync(Bike, [.. bench.Log.Ordered]);
        await running.Server.Folding.SettledAsync();
        Assert.Empty((await OverviewAsync(browser)).Due);

        var shop = new JobBench(2, ShopLog.Id, new Random(2));
        var table = CareTable.CommonPractice with
        {
            Own = CareTable.CommonPractice.Own.SetItem(CareTerm.CoinCellMonths.Name, 1),
        };
        await running.Server.Store.AppendAsync(ShopLog.Id, [shop.Write(CareEntry.Draft(table))]);
        await running.Server.Folding.SettledAsync();

        var due = Assert.Single((await OverviewAsync(browser)).Due);
        Assert.Equal(
            (Bike.Value, "", "coin-cell", new DateOnly(2026, 3, 3)),
            (due.Bike, due.Job, due.Due, due.DueOn!.Value)
        );
        Assert.Equal("Gears", Assert.Single((await FindAsync(browser, "linie")).Jobs).Title);

        // Another entry of the shop's has nothing worked out anew; limits given up do.
        await running.Server.Store.AppendAsync(
            ShopLog.Id,
            [
                shop.Write(ProcedureEntry.Draft(new("", "title: kwezil", false))),
                shop.Write(CareEntry.Draft(CareTable.CommonPractice)),
            ]
        );
        await running.Server.Folding.SettledAsync();
        Assert.Empty((await OverviewAsync(browser)).Due);
    }

    [Fact]
    public async Task Plan_SetByTheShop_StandsUntilItIsTakenBack()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();

        Assert.Equal(HttpStatusCode.NoContent, await PlanAsync(browser, "gears", 0.75));
        Assert.Equal(HttpStatusCode.NoContent, await PlanAsync(browser, "full", 2.25));
        Assert.Equal(HttpStatusCode.NoContent, await PlanAsync(browser, "gears", 0.5));
        var plan = (await OverviewAsync(browser)).Plan;
        Assert.Equal(
            new PlannedWork("gears", 0.5, true),
            plan.Single(each => each.Kind == "gears")
        );
        Assert.Equal(HttpStatusCode.NoContent, await PlanAsync(browser, "gears", null));
        plan = (await OverviewAsync(browser)).Plan;
        Assert.Equal(
            new PlannedWork("gears", 0.4, false),
            plan.Single(each => each.Kind == "gears")
        );
        Assert.True(plan.Single(each => each.Kind == "full").IsOwn);
        var refused = await browser.PutAsJsonAsync("api/v1/overview/plan/gears", new NewPlan(0));
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        Assert.Contains(
            "above 0",
            await refused.Content.ReadAsStringAsync(),
            StringComparison.Ordinal
        );
        await using var context = running.Server.Store.NewContext();
        Assert.All(
            context.ShopSettings.Where(each => each.Name == "overview.plan"),
            each => Assert.Equal(running.Clock.GetUtcNow().UtcTicks, each.ChangedTicks)
        );
        Assert.Equal(HttpStatusCode.BadRequest, await PlanAsync(browser, "nothing", 1));
    }

    [Fact]
    public async Task Search_ForWhatACustomerSaid_IsForWorkersAndEndsWithItsErasure()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();
        await Running.MakePersonAsync(owner, "guest", Roles.Guest);
        var guest = await running.LogInAsync("guest");
        var bench = new JobBench(1, Bike, new Random(1));
        bench.Name("Linie");
        var job = bench.Write(JobEntry.Begin("Gears")).Id.ToString();
        var datum = bench.Said("Es klackert, sagt Nora Zwirnlein");
        bench.Write(JobEntry.Words(job, PersonalWords.Complaint, datum.Digest));
        await JobTests.SendAsync(owner, Bike, [.. bench.Log.Ordered]);
        await running.Server.Folding.SettledAsync();
        Assert.Empty((await FindAsync(owner, "zwirnlein")).Jobs);

        // The words come after the entry that names them.
        using var put = new HttpRequestMessage(HttpMethod.Put, Personal(datum))
        {
            Content = new ByteArrayContent(datum.Data.ToArray()),
        };
        put.Content.Headers.ContentType = new MediaTypeHeaderValue("text/plain");
        put.Headers.Add(PersonalRoutes.SaltHeader, Convert.ToHexString(datum.Salt.Span));
        Assert.Equal(HttpStatusCode.Created, (await owner.SendAsync(put)).StatusCode);
        await running.Server.Folding.SettledAsync();

        Assert.Single((await FindAsync(owner, "ZWIRN gears")).Jobs);
        Assert.Empty((await FindAsync(guest, "zwirn")).Jobs);
        Assert.Single((await FindAsync(guest, "gears")).Jobs);

        (await owner.DeleteAsync(Personal(datum))).EnsureSuccessStatusCode();

        // At once, whether or not anything was worked out again.
        Assert.Empty((await FindAsync(owner, "zwirn")).Jobs);
        await running.Server.Folding.SettledAsync();
        Assert.Empty((await FindAsync(owner, "zwirn")).Jobs);
        Assert.Single((await FindAsync(owner, "gears")).Jobs);
    }

    [Fact]
    public async Task WordsThatLieUnderAnotherBike_AreNotFoundHere_SinceErasingThemWouldLeaveThem()
    {
        await using var running = await Running.StartAsync();
        var store = running.Server.Store;
        var (bench, other) = (
            new JobBench(1, Bike, new Random(1)),
            new JobBench(2, Bench.Job(2), new Random(2))
        );
        var datum = bench.Said("Nora Zwirnlein");
        foreach (var each in (JobBench[])[bench, other])
        {
            var job = each.Write(JobEntry.Begin("Gears")).Id.ToString();
            each.Write(JobEntry.Words(job, PersonalWords.Complaint, datum.Digest));
            await store.AppendAsync(each.Log.Id, [.. each.Log.Ordered]);
        }
        await store.PutPersonalAsync(Bike, datum, "text/plain");
        await running.Server.Folding.SettledAsync();
        var browser = running.NewBrowser();
        Assert.Equal(Bike.Value, Assert.Single((await FindAsync(browser, "zwirnlein")).Jobs).Bike);

        await store.EraseAsync(Bike, datum.Digest);
        await running.Server.Folding.SettledAsync();

        Assert.Empty((await FindAsync(browser, "zwirnlein")).Jobs);
        Assert.Equal(0, (await OverviewAsync(browser)).Behind);
    }

    [Fact]
    public async Task ServerOfAnEarlierVersion_TellsWhatCameAfterALaterOne()
    {
        await using var running = await Running.StartAsync();
        var bench = new JobBench(1, Bike, new Random(1));
        var job = bench.Write(JobEntry.Begin("Gears")).Id.ToString();
        await running.Server.Store.AppendAsync(Bike, [.. bench.Log.Ordered]);
        await running.Server.Folding.SettledAsync();
        await running.Server.Store.PutFoldedAsync(
            new FoldedLog(Bike, 1, JobFolding.Version + 1, [])
        );

        await running.Server.Store.AppendAsync(Bike, [bench.Write(JobEntry.Hands(job, "AB", ""))]);
        await running.Server.Folding.SettledAsync().WaitAsync(TimeSpan.FromSeconds(30));

        var told = await OverviewAsync(running.NewBrowser());
        Assert.Equal("AB", Assert.Single(told.Standing).InHandsOf);
        Assert.Equal(0, told.Behind);
    }

    [Fact]
    public async Task ShopsOwnLog_IsNoJob()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        var bench = new JobBench(1, ShopLog.Id, new Random(1));
        await JobTests.SendAsync(
            browser,
            ShopLog.Id,
            bench.Write(ProcedureEntry.Draft(new("", "title: kwezil", false)))
        );
        await running.Server.Folding.SettledAsync();

        Assert.Empty((await browser.GetFromJsonAsync<JobAnswer[]>("api/v1/jobs"))!);
        Assert.Equal(
            ShopLog.Id.Value,
            Assert.Single((await browser.GetFromJsonAsync<JobAnswer[]>("api/v1/shop/log"))!).Job
        );
        Assert.Empty((await FindAsync(browser, "kwezil")).Jobs);
        Assert.Equal(0, (await OverviewAsync(browser)).Behind);
    }

    [Theory]
    [InlineData("overview?days=0")]
    [InlineData("overview?dueDays=-1")]
    [InlineData("overview?most=501")]
    [InlineData("search?words=a&most=0")]
    [InlineData("overview?days=many")]
    public async Task Question_OutOfRange_IsAProblem(string path)
    {
        await using var running = await Running.StartAsync();

        var answer = await running.NewBrowser().GetAsync("api/v1/" + path);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        await Running.ProblemOfAsync(answer);
    }

    [Fact]
    public async Task Search_OfVeryManyLetters_IsAProblem()
    {
        await using var running = await Running.StartAsync();

        Assert.Equal(
            "bad-field",
            await Running.ProblemOfAsync(
                await running.NewBrowser().GetAsync("api/v1/search?words=" + new string('a', 201))
            )
        );
    }

    [Fact]
    public async Task Export_AsCsv_IsReadByAnotherReader_AndStartsNoFormula()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        string[] titles =
        [
            "=HYPERLINK(\"http://invented.example\")",
            "+1, \"two\"",
            "-3\r\nnew line",
            "@sum",
            "Žluťoučký, \"kůň\"",
            "plain",
        ];
        for (var i = 0; i < titles.Length; i++)
        {
            var log = Bench.Job(i + 1);
            var bench = new JobBench(1, log, new Random(i));
            bench.Ticks += TimeSpan.FromHours(i).Ticks;
            bench.Name("Linie, grün");
            bench.Write(JobEntry.Begin(titles[i]));
            await JobTests.SendAsync(browser, log, [.. bench.Log.Ordered]);
        }
        await running.Server.Folding.SettledAsync();

        var answer = await browser.GetAsync("api/v1/export.csv");
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        var plain = await browser.GetByteArrayAsync("api/v1/export.csv?mark=false");

        Assert.Equal("text/csv", answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition?.DispositionType);
        Assert.Equal(Encoding.UTF8.Preamble, bytes.AsSpan(0, 3));
        Assert.Equal(bytes[3..], plain);
        var rows = ReadCsv(Encoding.UTF8.GetString(plain));
        Assert.Equal(JobCsv.Columns, rows[0]);
        Assert.All(rows, row => Assert.Equal(JobCsv.Columns.Count, row.Count));
        Assert.Equal(
            [
                "'=HYPERLINK(\"http://invented.example\")",
                "'+1, \"two\"",
                "'-3\r\nnew line",
                "'@sum",
                "Žluťoučký, \"kůň\"",
                "plain",
            ],
            rows.Skip(1).Select(row => row[3])
        );
        Assert.All(rows.Skip(1), row => Assert.Equal("Linie, grün", row[1]));
        Assert.Equal("2026-03-01T08:00:00Z", rows[1][8]);
    }

    private static string Personal(PersonalDatum datum) =>
        $"api/v1/jobs/{Bike}/personal/{datum.Digest}";

    private static async Task<HttpStatusCode> PlanAsync(
        HttpClient browser,
        string kind,
        double? hours
    ) =>
        (
            await browser.PutAsJsonAsync($"api/v1/overview/plan/{kind}", new NewPlan(hours))
        ).StatusCode;

    private static async Task<FoundAnswer> FindAsync(HttpClient browser, string words) =>
        (await browser.GetFromJsonAsync<FoundAnswer>("api/v1/search?words=" + words))!;

    private static async Task<OverviewAnswer> OverviewAsync(HttpClient browser) =>
        (await browser.GetFromJsonAsync<OverviewAnswer>("api/v1/overview"))!;

    /// <summary>The jobs of a log read whole; with words: those in which each begins a word.</summary>
    private static IEnumerable<ListedJob> Refold(EntryLog log, string? words = null)
    {
        var listings = new JobListings(log.Id);
        listings.Log.Merge(log.Ordered);
        return listings
            .Jobs(CareTable.CommonPractice)
            .Where(job =>
                (words is null || job.Job.Length > 0)
                && (words ?? "")
                    .Split(' ', StringSplitOptions.RemoveEmptyEntries)
                    .All(word =>
                        job.Texts.SelectMany(text => text.ToLowerInvariant().Split(' ', '-'))
                            .Any(each => each.StartsWith(word, StringComparison.Ordinal))
                    )
            )
            .Select(job => JobFolding.Listed(log.Id, job));
    }

    private static async Task<List<ListedJob>> AllAsync(ShopStore store)
    {
        var all = new List<ListedJob>();
        await foreach (var job in store.ListedJobsAsync())
        {
            all.Add(job);
        }
        return all;
    }

    private static IEnumerable<string> Lines(IEnumerable<ListedJob> jobs) =>
        jobs.Select(job =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{job.Log} {job.Job} {job.Bike}|{job.Title}|{job.Kind}|{job.Stage}|{job.InHandsOf}|{job.Waits}|{job.BegunTicks}|{job.LastTicks}|{job.ClosedTicks}|{job.DueOn}|{job.Due}|{job.Cause}|{job.ComebackOf}|{string.Join(' ', job.StageSeconds)}|{job.PauseSeconds}"
                )
            )
            .Order(StringComparer.Ordinal);

    /// <summary>RFC 4180, section 2, read sign by sign.</summary>
    private static List<List<string>> ReadCsv(string text)
    {
        var rows = new List<List<string>>();
        var row = new List<string>();
        var i = 0;
        while (i < text.Length)
        {
            var field = new StringBuilder();
            if (text[i] == '"')
            {
                i++;
                while (text[i] != '"' || (i + 1 < text.Length && text[i + 1] == '"'))
                {
                    i += text[i] == '"' ? 1 : 0;
                    field.Append(text[i++]);
                }
                i++;
            }
            else
            {
                while (text[i] is not (',' or '\r'))
                {
                    Assert.NotEqual('"', text[i]);
                    field.Append(text[i++]);
                }
            }
            row.Add(field.ToString());
            if (text[i] == ',')
            {
                i++;
                continue;
            }
            Assert.Equal("\r\n", text.Substring(i, 2));
            i += 2;
            rows.Add(row);
            row = [];
        }
        Assert.Empty(row);
        return rows;
    }
}
