using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Cogwright.Files;
using Cogwright.Parts;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;

namespace Cogwright.Server.Tests;

/// <summary>The shop's library of parts over HTTP.</summary>
public sealed class PartTests
{
    internal const string Good = """
        id,kind,name,maker,inStock,teeth
        fenwold-11-28,cassette,Fenwold 11-28,Osmead,2,11 12 13 14 15 17 19 21 23 25 28
        fenwold-11-34,cassette,Fenwold 11-34,Osmead,,11 13 15 17 19 21 23 25 27 30 34
        quiet-12,chain,Quiet 12,Osmead,7,
        """;

    internal const string BadRow = "\nfenwold-x,cassete,Fenwold X,Osmead,2,11 12";

    internal static readonly Part Chain = new()
    {
        Id = "demo-chain",
        Kind = PartKind.Chain,
        Name = "Chain of the demo",
    };

    [Fact]
    public async Task NewShop_BeginsWithTheDemoParts_AndOneActionTakesThemAway()
    {
        await using var running = await Running.StartAsync();
        var owner = await running.NewOwnerAsync();

        var begun = await SearchAsync(owner, "");
        var removed = await owner.DeleteAsync("api/v1/demo/parts");
        var gone = await SearchAsync(owner, "");
        await running.Server.DisposeAsync();
        await running.StartAgainAsync();
        var browser = await running.LogInAsync("ines");
        var later = await SearchAsync(browser, "");
        var back = await browser.PutAsync("api/v1/demo/parts", null);

        Assert.Equal(DemoParts.Library.Count, begun.Count);
        Assert.All(begun.Parts, part => Assert.True(part.IsDemo));
        Assert.Equal(HttpStatusCode.OK, removed.StatusCode);
        Assert.Equal((0, 2L), (gone.Count, gone.Revision));
        Assert.Equal((0, 2L), (later.Count, later.Revision));
        Assert.Equal(HttpStatusCode.OK, back.StatusCode);
        Assert.Equal(DemoParts.Library.Count, (await SearchAsync(browser, "")).Count);
    }

    [Fact]
    public async Task Search_WordsAndKind_TellsHowManyThereAreAndGivesTheFirst()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        await ImportAsync(browser, Good);

        var all = await SearchAsync(browser, "words=osm");
        var cassettes = await SearchAsync(browser, "words=osm&kind=cassette&most=1");

        Assert.Equal((2L, 3, 3), (all.Revision, all.Count, all.Found));
        Assert.Equal((3, 2), (cassettes.Count, cassettes.Found));
        Assert.Equal(
            new PartSummary("fenwold-11-28", "cassette", "Fenwold 11-28", "Osmead", 2, false),
            Assert.Single(cassettes.Parts)
        );
    }

    [Theory]
    [InlineData("api/v1/parts?most=501", 400, "bad-field")]
    [InlineData("api/v1/parts?most=-1", 400, "bad-field")]
    [InlineData("api/v1/parts?kind=casette", 400, "bad-field")]
    [InlineData("api/v1/parts/file?format=xml", 400, "bad-field")]
    [InlineData("api/v1/parts/none", 404, "not-found")]
    public async Task Request_ThatCannotBe_IsAProblem(string path, int status, string code)
    {
        await using var running = await WithoutDemoAsync();

        var answer = await running.NewBrowser().GetAsync(path);

        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Equal(code, await Running.ProblemOfAsync(answer));
    }

    [Fact]
    public async Task Part_GotAndPutBackChanged_IsThatPart()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        await ImportAsync(browser, Good);
        var got = (await browser.GetFromJsonAsync<PartAnswer>("api/v1/parts/fenwold-11-28"))!;

        var put = await PutAsync(
            browser,
            "fenwold-11-28",
            got.File.Replace("Fenwold 11-28", "Fenwold 11-28 worn", StringComparison.Ordinal)
        );
        var made = await PutAsync(
            browser,
            "quiet-11",
            """{"format":1,"parts":[{"id":"quiet-11","kind":"chain","name":"Quiet 11"}]}""",
            "application/json"
        );
        var again = (await browser.GetFromJsonAsync<PartAnswer>("api/v1/parts/fenwold-11-28"))!;

        Assert.Equal(HttpStatusCode.OK, put.StatusCode);
        Assert.Equal(HttpStatusCode.Created, made.StatusCode);
        Assert.Equal("Fenwold 11-28 worn", again.Part.Name);
        Assert.Equal(got.Values, again.Values);
        Assert.Equal("11 12 13 14 15 17 19 21 23 25 28", again.Values["teeth"]);
        Assert.Equal(4, again.Revision);
    }

    [Fact]
    public async Task Put_OfAPartThatAnotherHasChangedSince_IsRefused()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        await ImportAsync(browser, Good);
        var got = (await browser.GetFromJsonAsync<PartAnswer>("api/v1/parts/quiet-12"))!;
        await PutAsync(browser, Chain.Id, PartsWriter.ToYaml([Chain]));

        var first = await PutQuietAsync("Quiet of one");
        var second = await PutQuietAsync("Quiet of another");
        await browser.DeleteAsync("api/v1/parts/quiet-12");
        var third = await PutQuietAsync("Quiet of a third");

        Assert.Equal(HttpStatusCode.OK, first.StatusCode);
        Assert.Equal("conflict", await Running.ProblemOfAsync(second));
        Assert.Equal("conflict", await Running.ProblemOfAsync(third));
        Assert.Equal(0, (await SearchAsync(browser, "words=quiet")).Found);

        Task<HttpResponseMessage> PutQuietAsync(string name) =>
            PutAsync(
                browser,
                $"quiet-12?revision={got.Revision}",
                got.File.Replace("Quiet 12", name, StringComparison.Ordinal)
            );
    }

    [Fact]
    public async Task Put_PartThatIsWrong_NamesLineColumnAndField()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();

        var answer = await PutAsync(
            browser,
            "quiet-11",
            "format: 1\nparts:\n  - id: quiet-11\n    kind: chain\n    name: Quiet 11\n    width: wide\n"
        );

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var place = JsonSerializer
            .Deserialize<JsonElement>(await answer.Content.ReadAsStringAsync())
            .GetProperty("places")[0];
        Assert.Equal(
            (6, 12),
            (place.GetProperty("line").GetInt32(), place.GetProperty("column").GetInt32())
        );
        Assert.Contains("width", place.GetProperty("field").GetString(), StringComparison.Ordinal);
        Assert.Equal("bad-parts", await Running.ProblemOfAsync(answer));
        Assert.Equal(0, (await SearchAsync(browser, "")).Count);
    }

    [Fact]
    public async Task Put_UnderAnotherId_IsRefused()
    {
        await using var running = await WithoutDemoAsync();

        var answer = await PutAsync(
            running.NewBrowser(),
            "quiet-12",
            "format: 1\nparts: [{id: quiet-11, kind: chain, name: Quiet 11}]\n"
        );

        Assert.Equal("bad-field", await Running.ProblemOfAsync(answer));
    }

    [Fact]
    public async Task Delete_Part_TakesItOutOnce()
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        await ImportAsync(browser, Good);

        var first = await browser.DeleteAsync("api/v1/parts/quiet-12");
        var second = await browser.DeleteAsync("api/v1/parts/quiet-12");

        Assert.Equal(HttpStatusCode.OK, first.StatusCode);
        Assert.Equal("not-found", await Running.ProblemOfAsync(second));
        Assert.Equal(2, (await SearchAsync(browser, "")).Count);
    }

    [Theory]
    [InlineData("yaml", "application/yaml")]
    [InlineData("csv", "text/csv")]
    public async Task File_OfTheLibrary_ReadsBackAndIsFetchedAnewOnlyWhenChanged(
        string format,
        string type
    )
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        await ImportAsync(browser, Good);
        var path = $"api/v1/parts/file?format={format}";

        var first = await browser.GetAsync(path);
        var known = await GetIfChangedAsync(browser, path, first.Headers.ETag!);
        await browser.DeleteAsync("api/v1/parts/quiet-12");
        var changed = await GetIfChangedAsync(browser, path, first.Headers.ETag!);

        Assert.Equal(type, first.Content.Headers.ContentType?.MediaType);
        var read = PartsReader.Read(await first.Content.ReadAsStringAsync(), "parts." + format);
        Assert.Empty(read.Problems);
        Assert.Equal(PartsReader.Read(Good, "good.csv").Parts, read.Parts);
        Assert.Equal(HttpStatusCode.NotModified, known.StatusCode);
        Assert.Empty(await known.Content.ReadAsByteArrayAsync());
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        Assert.NotEqual(first.Headers.ETag, changed.Headers.ETag);
    }

    [Fact]
    public async Task Library_ChangedByAnotherServer_IsSeenAtTheNextUse()
    {
        await using var postgres = PostgresServer.Start();
        var database = postgres.NewDatabase();
        await using var here = await Running.StartAsync(WithoutDemo, database);
        await using var there = await Running.StartAsync(WithoutDemo, database);
        var browser = there.NewBrowser();
        Assert.Equal(0, (await SearchAsync(browser, "")).Count);

        await ImportAsync(here.NewBrowser(), Good);

        Assert.Equal(3, (await SearchAsync(browser, "")).Count);
    }

    [Fact]
    public async Task Demo_PartThatTheShopChanged_StaysWhenTheDemoGoes()
    {
        await using var running = await Running.StartAsync(options =>
            options with
            {
                DemoParts = () => [Chain, Chain with { Id = "demo-chain-2" }],
            }
        );
        var browser = running.NewBrowser();
        await PutAsync(browser, Chain.Id, PartsWriter.ToYaml([Chain with { Name = "Ours now" }]));

        await browser.DeleteAsync("api/v1/demo/parts");

        Assert.Equal("Ours now", Assert.Single((await SearchAsync(browser, "")).Parts).Name);
    }

    [Theory]
    [InlineData("x")]
    [InlineData("[]")]
    [InlineData(
        """{"id":"quiet-12","kind":"chain","name":"Q","maker":"","source":"","values":{"width":5,"width":6},"spec":{}}"""
    )]
    [InlineData(
        """{"id":"fenwold-11-28","kind":"chain","name":"Q","maker":"","source":"","values":{},"spec":{}}"""
    )]
    public async Task Library_WithAPartThatIsDamaged_IsUsedWithoutItAndTellsIt(string content)
    {
        await using var running = await WithoutDemoAsync();
        var browser = running.NewBrowser();
        await ImportAsync(browser, Good);
        await using (
            var database = new SqliteConnection(
                $"Data Source={Path.Combine(running.Options.Store.DataFolder, "shop.db")};Pooling=False"
            )
        )
        {
            await database.OpenAsync();
            await using var damage = database.CreateCommand();
            damage.CommandText =
                """UPDATE "Parts" SET "Content" = @content WHERE "Id" = 'quiet-12'""";
            damage.Parameters.AddWithValue("@content", content);
            Assert.Equal(1, await damage.ExecuteNonQueryAsync());
        }
        // Read anew: what was read before the damage is held.
        await running.Server.DisposeAsync();
        await running.StartAgainAsync();
        browser = running.NewBrowser();

        var found = await SearchAsync(browser, "");
        var file = await browser.GetAsync("api/v1/parts/file?format=csv");
        var got = await browser.GetAsync("api/v1/parts/quiet-12");
        await PutAsync(browser, Chain.Id, PartsWriter.ToYaml([Chain]));
        var later = await SearchAsync(browser, "");
        await ImportAsync(browser, Good);
        var mended = await SearchAsync(browser, "");

        Assert.Equal((2, "quiet-12"), (found.Count, Assert.Single(found.Damaged)));
        Assert.Equal(HttpStatusCode.OK, file.StatusCode);
        Assert.Equal("not-found", await Running.ProblemOfAsync(got));
        Assert.Contains(
            "quiet-12 is damaged",
            await got.Content.ReadAsStringAsync(),
            StringComparison.Ordinal
        );
        Assert.Equal((3, 1), (later.Count, later.Damaged.Length));
        Assert.Equal((4, 0), (mended.Count, mended.Damaged.Length));
    }

    [Fact]
    public async Task Shelf_AfterChangesOfEverySort_HoldsWhatTheStoreHolds()
    {
        await using var running = await WithoutDemoAsync();
        var store = running.Server.Store;
        using var shelf = new PartShelf(store, NullLogger<PartShelf>.Instance);
        var random = new Random(7);
        for (var change = 0; change < 60; change++)
        {
            Part[] parts =
            [
                .. Enumerable
                    .Range(0, random.Next(1, 4))
                    .Select(_ =>
                        Chain with
                        {
                            Id = $"chain-{random.Next(8)}",
                            Name = $"Chain {random.Next(3)}",
                        }
                    ),
            ];
            await (
                random.Next(5) switch
                {
                    0 => store.RemovePartAsync(parts[0].Id),
                    1 => store.PutDemoPartsAsync(parts, onlyIfNew: false),
                    2 => store.RemoveDemoPartsAsync(),
                    _ => store.PutPartsAsync(parts),
                }
            );
            // Several changes can come between two uses.
            if (random.Next(3) > 0)
            {
                var held = await shelf.PresentAsync(CancellationToken.None);
                var stored = await store.PartsAsync();
                Assert.Equal(stored.Revision, held.Revision);
                Assert.Equal(stored.Parts, held.Library.Parts);
                Assert.Equal(stored.Demo.Order(), held.Demo.Order());
            }
        }
    }

    internal static async Task<List<JsonElement>> ImportAsync(
        HttpClient browser,
        string csv,
        string query = "",
        string type = "text/csv"
    ) =>
        await LinesAsync(
            await browser.PostAsync(
                "api/v1/parts/import" + query,
                new StringContent(csv, Encoding.UTF8, type)
            )
        );

    /// <summary>The lines of an answer, after a look at its type.</summary>
    internal static async Task<List<JsonElement>> LinesAsync(HttpResponseMessage answer)
    {
        Assert.Equal(JsonLines.MediaType, answer.Content.Headers.ContentType?.MediaType);
        var text = await answer.Content.ReadAsStringAsync();
        return
        [
            .. text.Split('\n', StringSplitOptions.RemoveEmptyEntries)
                .Select(line => JsonSerializer.Deserialize<JsonElement>(line)),
        ];
    }

    internal static ServerOptions WithoutDemo(ServerOptions options) =>
        options with
        {
            DemoParts = () => [],
        };

    internal static Task<Running> WithoutDemoAsync() => Running.StartAsync(WithoutDemo);

    internal static async Task<PartsAnswer> SearchAsync(HttpClient browser, string query) =>
        (await browser.GetFromJsonAsync<PartsAnswer>("api/v1/parts?" + query))!;

    private static async Task<HttpResponseMessage> GetIfChangedAsync(
        HttpClient browser,
        string path,
        EntityTagHeaderValue known
    )
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.IfNoneMatch.Add(known);
        return await browser.SendAsync(request);
    }

    internal static StringContent Csv(string text) => new(text, Encoding.UTF8, "text/csv");

    internal static Task<HttpResponseMessage> PutAsync(
        HttpClient browser,
        string id,
        string text,
        string type = "application/yaml"
    ) => browser.PutAsync($"api/v1/parts/{id}", new StringContent(text, Encoding.UTF8, type));
}
