using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text.Json;
using Cogwright.Log;

namespace Cogwright.Server.Tests;

public sealed class JobTests
{
    private static readonly LogId Job = Bench.Job(1);
    private static readonly string Path = $"api/v1/jobs/{Job}";

    internal static async Task<AppendAnswer> SendAsync(
        HttpClient browser,
        LogId job,
        params IEnumerable<Entry> entries
    )
    {
        var answer = await browser.PostAsJsonAsync(
            $"api/v1/jobs/{job}/entries",
            new AppendRequest([.. entries.Select(each => each.Encoded.ToArray())])
        );
        answer.EnsureSuccessStatusCode();
        return (await answer.Content.ReadFromJsonAsync<AppendAnswer>())!;
    }

    [Fact]
    public async Task Append_SentTwice_IsTakenInOnce()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        var entries = new Bench(1, Job).WriteMany(3);

        var first = await SendAsync(browser, Job, entries);
        var second = await SendAsync(browser, Job, entries);

        Assert.All(first.Answers, each => Assert.Equal("created", each.Status));
        Assert.All(second.Answers, each => Assert.Equal("exists", each.Status));
        Assert.Equal(
            entries.Select(each => each.Hash.ToString()),
            second.Answers.Select(each => each.Hash)
        );
        Assert.Equal(
            3,
            Assert.Single((await browser.GetFromJsonAsync<JobAnswer[]>("api/v1/jobs"))!).LastReceipt
        );
    }

    [Fact]
    public async Task Append_OfOneIdWithOtherContent_IsRefusedAndKeptAsEvidence()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        var one = new Bench(1, Job).Write("{\"a\":1}");
        var other = new Bench(1, Job).Write("{\"a\":2}");
        await SendAsync(browser, Job, one);

        var answer = Assert.Single((await SendAsync(browser, Job, other)).Answers);

        Assert.Equal("refused", answer.Status);
        Assert.Contains("compare", answer.Reason, StringComparison.Ordinal);
        var evidence = Assert.Single(
            (await browser.GetFromJsonAsync<byte[][]>($"{Path}/refused"))!
        );
        Assert.Equal(other.Encoded.ToArray(), evidence);
    }

    [Fact]
    public async Task Pull_PageByPage_BringsEverythingAsItWas()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        var entries = new Bench(1, Job).WriteMany(7);
        await SendAsync(browser, Job, entries);
        var fetched = new List<byte[]>();
        var (epoch, after, hasMore) = (Guid.Empty, 0L, true);
        while (hasMore)
        {
            var page = await browser.GetFromJsonAsync<JsonElement>(
                $"{Path}/entries?epoch={epoch}&after={after}&most=3"
            );
            fetched.AddRange(
                page.GetProperty("entries")
                    .EnumerateArray()
                    .Select(each => each.GetBytesFromBase64())
            );
            (epoch, after, hasMore) = (
                page.GetProperty("epoch").GetGuid(),
                page.GetProperty("last").GetInt64(),
                page.GetProperty("hasMore").GetBoolean()
            );
        }

        Assert.Equal(entries.Select(each => each.Encoded.ToArray()), fetched);
        Assert.Equal(
            entries[^1].Hash.ToString(),
            Assert.Single((await browser.GetFromJsonAsync<TipsAnswer>($"{Path}/tips"))!.Tips).Hash
        );
    }

    [Fact]
    public async Task Statement_Countersigned_HoldsUnderThePublicKey_AlsoAfterARestart()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        await SendAsync(browser, Job, new Bench(1, Job).WriteMany(2));

        var stated = await (
            await browser.PostAsync($"{Path}/statements", null)
        ).Content.ReadFromJsonAsync<JsonElement>();

        var key = stated.GetProperty("key").GetString()!;
        var keys = (await browser.GetFromJsonAsync<Dictionary<string, string>>("api/v1/keys"))!;
        using var known = ECDsa.Create();
        known.ImportSubjectPublicKeyInfo(Convert.FromBase64String(keys[key]), out _);
        var encoded = stated.GetProperty("encoded").GetBytesFromBase64();
        Assert.True(
            known.VerifyData(
                encoded,
                stated.GetProperty("signature").GetBytesFromBase64(),
                HashAlgorithmName.SHA256
            )
        );
        Assert.Equal(2, HeadStatement.Read(encoded).Value!.Count);

        var pem = System.IO.Path.Combine(running.Options.KeyFolder, "statements-p256.pem");
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(pem));
        using var again = await StatementKey.OpenAsync(running.Server.Store, running.Options);
        Assert.Equal(key, again.Key);
    }

    [Fact]
    public async Task Personal_PutFetchedErased_DoesNotComeBack()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        var datum = new PersonalDatum(
            RandomNumberGenerator.GetBytes(PersonalDatum.SaltBytes),
            "Nora Invented"u8
        );

        Assert.Equal(HttpStatusCode.Created, (await PutAsync(browser, datum)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await PutAsync(browser, datum)).StatusCode);
        var fetched = await browser.GetAsync($"{Path}/personal/{datum.Digest}");
        Assert.Equal("Nora Invented", await fetched.Content.ReadAsStringAsync());
        Assert.Equal(
            Convert.ToHexStringLower(datum.Salt.Span),
            fetched.Headers.GetValues(PersonalRoutes.SaltHeader).Single()
        );
        // Another job's address does not lead to it.
        Assert.Equal(
            "not-found",
            await Running.ProblemOfAsync(
                await browser.GetAsync($"api/v1/jobs/{Bench.Job(2)}/personal/{datum.Digest}")
            )
        );

        Assert.Equal(
            HttpStatusCode.OK,
            (await browser.DeleteAsync($"{Path}/personal/{datum.Digest}")).StatusCode
        );

        Assert.Equal(
            "not-found",
            await Running.ProblemOfAsync(await browser.GetAsync($"{Path}/personal/{datum.Digest}"))
        );
        Assert.Equal("erased", await Running.ProblemOfAsync(await PutAsync(browser, datum)));
        Assert.Equal(
            [datum.Digest.ToString()],
            (await browser.GetFromJsonAsync<HoldingsAnswer>($"{Path}/personal"))!.Erased
        );
    }

    [Fact]
    public async Task Photo_OverQuota_TooLarge_OrNotTheOneNamed_IsAProblem()
    {
        await using var running = await Running.StartAsync(options =>
            options with
            {
                Store = options.Store with { MostPhotoBytes = 1000, PhotoQuotaBytesPerJob = 1500 },
            }
        );
        var browser = running.NewBrowser();
        Assert.Equal(HttpStatusCode.Created, (await PutAsync(browser, Photo(1000))).StatusCode);

        Assert.Equal(
            "over-quota",
            await Running.ProblemOfAsync(await PutAsync(browser, Photo(1000)))
        );
        Assert.Equal(
            "too-large",
            await Running.ProblemOfAsync(await PutAsync(browser, Photo(1001)))
        );
        Assert.Equal(
            "digest-differs",
            await Running.ProblemOfAsync(await PutAsync(browser, Photo(10), Photo(10).Digest))
        );
    }

    [Fact]
    public async Task Datum_ThatIsAPage_IsServedAsBytesToSave()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        var datum = new PersonalDatum(
            new byte[PersonalDatum.SaltBytes],
            "<script>alert(1)</script>"u8
        );
        (await PutAsync(browser, datum, type: "text/html")).EnsureSuccessStatusCode();

        var fetched = await browser.GetAsync($"{Path}/personal/{datum.Digest}");

        Assert.Equal("application/octet-stream", fetched.Content.Headers.ContentType?.MediaType);
        Assert.Equal("attachment", fetched.Content.Headers.ContentDisposition?.DispositionType);
        Assert.Contains(
            "sandbox",
            fetched.Headers.GetValues("Content-Security-Policy").Single(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task BackupExportAndCheck_WhileRunning_HoldEverything()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();
        await SendAsync(browser, Job, new Bench(1, Job).WriteMany(4));
        await browser.PostAsync($"{Path}/statements", null);

        var backup = await AnswerAsync<BackupAnswer>(browser, "api/v1/backups");
        var export = await AnswerAsync<ExportAnswer>(browser, "api/v1/exports");
        var check = await AnswerAsync<CheckAnswer>(browser, "api/v1/checks");

        Assert.Equal(4, backup.Entries);
        Assert.True(File.Exists(System.IO.Path.Combine(backup.Folder, "backup.json")));
        Assert.Equal(4, export.Entries);
        Assert.True(
            check is { IsSound: true, Entries: 4, Statements: 1 },
            string.Join(' ', check.Findings)
        );
    }

    private static async Task<T> AnswerAsync<T>(HttpClient browser, string path)
    {
        var answer = await browser.PostAsync(path, null);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        return (await answer.Content.ReadFromJsonAsync<T>())!;
    }

    private static PersonalDatum Photo(int bytes) =>
        new(RandomNumberGenerator.GetBytes(PersonalDatum.SaltBytes), new byte[bytes]);

    private static async Task<HttpResponseMessage> PutAsync(
        HttpClient browser,
        PersonalDatum datum,
        Digest? digest = null,
        string type = "text/plain"
    )
    {
        using var request = new HttpRequestMessage(
            HttpMethod.Put,
            $"{Path}/personal/{digest ?? datum.Digest}"
        );
        request.Content = new ByteArrayContent(datum.Data.ToArray());
        request.Content.Headers.ContentType = new MediaTypeHeaderValue(type);
        request.Headers.Add(PersonalRoutes.SaltHeader, Convert.ToHexString(datum.Salt.Span));
        return await browser.SendAsync(request);
    }
}
