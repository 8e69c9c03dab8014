using System.Net.Http.Json;
using Cogwright.Files;
using Microsoft.Data.Sqlite;
using static Cogwright.Server.Tests.PartTests;

namespace Cogwright.Server.Tests;

/// <summary>A parts file over HTTP: looked at before, and stored whole or not at all.</summary>
public sealed class PartImportTests
{
    [Fact]
    public async Task Preview_OfAFile_TellsWhatBecomesOfEachAndStoresNothing()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        await ImportAsync(browser, Good);
        var file =
            Good.Replace("Quiet 12,Osmead,7", "Quiet 12,Osmead,6", StringComparison.Ordinal)
                .Replace("fenwold-11-34", "fenwold-11-36", StringComparison.Ordinal) + BadRow;

        var answer = await browser.PostAsync("api/v1/parts/preview", Csv(file));
        var preview = (await answer.Content.ReadFromJsonAsync<PreviewAnswer>())!;

        Assert.Equal("fenwold-11-36", Assert.Single(preview.Added).Id);
        var changed = Assert.Single(preview.Changed);
        Assert.Equal("quiet-12", changed.Id);
        Assert.Equal(new ChangedField("inStock", "7", "6"), Assert.Single(changed.Fields));
        Assert.Equal(["fenwold-11-28"], preview.Same);
        Assert.Equal((4, 1), (preview.Entries, preview.BadCount));
        Assert.Equal(5, preview.Bad[0].Line);
        Assert.Equal("kind", preview.Bad[0].Field);
        Assert.Equal(2, (await SearchAsync(browser, "")).Revision);
    }

    [Fact]
    public async Task Import_WithABadRow_IsRefusedUnlessToldToSkipIt()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();

        var refused = await ImportAsync(browser, Good + BadRow);
        var count = (await SearchAsync(browser, "")).Count;
        var skipped = await ImportAsync(browser, Good + BadRow, "?skip=bad");

        Assert.Equal("refused", refused[^1].GetProperty("at").GetString());
        Assert.Equal(
            "bad-parts",
            refused[^1].GetProperty("problem").GetProperty("code").GetString()
        );
        Assert.Equal(5, refused[^1].GetProperty("bad")[0].GetProperty("line").GetInt32());
        Assert.Equal(0, count);
        Assert.Equal(
            ["reading", "storing", "done"],
            skipped.Select(line => line.GetProperty("at").GetString())
        );
        Assert.Equal(3, skipped[^1].GetProperty("change").GetProperty("added").GetInt32());
        Assert.Equal(1, skipped[^1].GetProperty("badCount").GetInt32());
        Assert.Equal(3, (await SearchAsync(browser, "")).Count);
    }

    [Fact]
    public async Task Import_OfAFileThatBreaksHalfway_StoresNothing()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();

        var lines = await ImportAsync(
            browser,
            "parts:\n  - {id: a, kind: chain, name: A}\n  - id: [\n",
            "",
            "application/yaml"
        );

        Assert.Equal("refused", lines[^1].GetProperty("at").GetString());
        Assert.Equal(0, (await SearchAsync(browser, "")).Count);
    }

    [Fact]
    public async Task Import_OfATableWithFewerColumns_KeepsWhatItDoesNotSpeakOf()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        await ImportAsync(browser, Good);

        var lines = await ImportAsync(browser, "id,kind,name\nquiet-12,chain,Quiet twelve\n");

        Assert.Equal("done", lines[^1].GetProperty("at").GetString());
        var part = Assert.Single((await SearchAsync(browser, "words=quiet")).Parts);
        Assert.Equal(("Quiet twelve", "Osmead", 7), (part.Name, part.Maker, part.InStock));
    }

    [Fact]
    public async Task Import_AfterTheLibraryWasChangedBehindThePreview_FailsAndStoresNothing()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        var preview = (
            await (
                await browser.PostAsync("api/v1/parts/preview", Csv(Good))
            ).Content.ReadFromJsonAsync<PreviewAnswer>()
        )!;
        await PutAsync(browser, Chain.Id, PartsWriter.ToYaml([Chain]));

        var late = await ImportAsync(browser, Good, $"?revision={preview.Revision}");
        var seen = await ImportAsync(browser, Good, $"?revision={preview.Revision + 1}");

        Assert.Equal("failed", late[^1].GetProperty("at").GetString());
        Assert.Equal("conflict", late[^1].GetProperty("problem").GetProperty("code").GetString());
        Assert.Equal("done", seen[^1].GetProperty("at").GetString());
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("nothing,that,is\na,parts,file")]
    [InlineData("parts:\n  - {id: a, kind: chain, name: A}\n  - id: [\n", "application/yaml")]
    [InlineData("id,kind,name\na,chain,A\nb,chain,\"B\nc,chain,C\n")]
    [InlineData("id,kind,name,instok\na,chain,A,3\n")]
    public async Task Import_OfSomethingElse_IsRefusedEvenIfBadRowsAreSkipped(
        string body,
        string type = "text/csv"
    )
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();

        var lines = await ImportAsync(browser, body, "?skip=bad", type);

        Assert.Equal("refused", lines[^1].GetProperty("at").GetString());
        Assert.Equal(1, (await SearchAsync(browser, "")).Revision);
    }

    [Fact]
    public async Task Import_WhoseCallerGoesAway_StoresNothing()
    {
        var aborted = new TaskCompletionSource();
        await using var running = await Running.StartAsync(options =>
            options with
            {
                DemoParts = () => [],
                Pretend = context =>
                {
                    if (context.Request.Path.Value!.EndsWith("/import", StringComparison.Ordinal))
                    {
                        context.RequestAborted.Register(() => aborted.TrySetResult());
                    }
                },
            }
        );
        var browser = running.NewBrowser();
        // Somebody else writes at this moment, so that the import has to wait for its turn.
        await using var other = new SqliteConnection(
            $"Data Source={Path.Combine(running.Options.Store.DataFolder, "shop.db")};Pooling=False"
        );
        await other.OpenAsync();
        await using (var transaction = other.BeginTransaction(deferred: false))
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "api/v1/parts/import")
            {
                Content = Csv(Good),
            };
            using (
                var answer = await browser.SendAsync(
                    request,
                    HttpCompletionOption.ResponseHeadersRead
                )
            )
            {
                using var lines = new StreamReader(await answer.Content.ReadAsStreamAsync());
                while (
                    await lines.ReadLineAsync() is { } line
                    && !line.Contains("storing", StringComparison.Ordinal)
                ) { }
            }
            await aborted.Task;
        }

        var later = await ImportAsync(
            running.NewBrowser(),
            Good.Split('\n')[0] + "\nlater,chain,Later,,,"
        );

        Assert.Equal("done", later[^1].GetProperty("at").GetString());
        Assert.Equal("later", Assert.Single((await SearchAsync(browser, "")).Parts).Id);
    }

    [Fact]
    public async Task Import_ThatTheStoreCannotTake_EndsWithWhatToDo()
    {
        await using var running = await Running.StartAsync(options =>
            WithoutDemo(options) with
            {
                Store = options.Store with { LockWaitSeconds = 1 },
            }
        );
        await using var other = new SqliteConnection(
            $"Data Source={Path.Combine(running.Options.Store.DataFolder, "shop.db")};Pooling=False"
        );
        await other.OpenAsync();
        await using var transaction = other.BeginTransaction(deferred: false);

        var lines = await ImportAsync(running.NewBrowser(), Good);

        var problem = lines[^1].GetProperty("problem");
        Assert.Equal("failed", lines[^1].GetProperty("at").GetString());
        Assert.Equal("store", problem.GetProperty("code").GetString());
        Assert.NotEmpty(problem.GetProperty("next").GetString()!);
    }
}
