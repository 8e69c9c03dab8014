using System.Collections.Immutable;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Server.Tests;

/// <summary>A search for parts that would work, over HTTP.</summary>
public sealed class OptionTests
{
    private const string Kind = "cassette";

    [Fact]
    public async Task Search_OfTheDemoLibrary_RanksOptionsAndSaysWhy()
    {
        await using var running = await Running.StartAsync();
        var browser = running.NewBrowser();

        var lines = await SearchAsync(
            browser,
            new OptionsRequest(Spec(), [Kind, "chain"], Most: 5)
        );

        var done = lines[^1];
        Assert.Equal("done", done.GetProperty("at").GetString());
        var options = done.GetProperty("options").EnumerateArray().ToList();
        Assert.InRange(options.Count, 1, 5);
        Assert.Equal(
            options.Select(each => RankOf(each.GetProperty("answer").GetString()!)).Order(),
            options.Select(each => RankOf(each.GetProperty("answer").GetString()!))
        );
        Assert.All(
            options,
            option =>
            {
                var parts = option.GetProperty("parts");
                Assert.Equal(
                    PartKind.Cassette,
                    DemoParts.Library.Find(parts.GetProperty(Kind).GetString()!)!.Kind
                );
                Assert.NotEmpty(option.GetProperty("why")[0].GetProperty("sentence").GetString()!);
            }
        );
    }

    [Fact]
    public async Task Search_ManyOptions_SaysWhyOfTheFirstTwenty()
    {
        await using var running = await Running.StartAsync();

        var lines = await SearchAsync(
            running.NewBrowser(),
            new OptionsRequest(Spec(), [Kind, "chain", "rings"], Most: 30)
        );

        var told = lines[^1]
            .GetProperty("options")
            .EnumerateArray()
            .Select(option => option.GetProperty("why").GetArrayLength() > 0)
            .ToList();
        Assert.Equal(30, told.Count);
        Assert.Equal(Enumerable.Range(0, 30).Select(place => place < 20), told);
    }

    [Fact]
    public async Task Search_InStockOnly_ListsNothingElse()
    {
        // The last of a part that would work has been sold; so has the only adapter to another.
        Part[] parts =
        [
            Made("here", PartKind.BottomBracket, 1, (PartFields.Shell, "thread-68")),
            Made("sold", PartKind.BottomBracket, 0, (PartFields.Shell, "thread-68")),
            Made("uncounted", PartKind.BottomBracket, null, (PartFields.Shell, "thread-68")),
            Made("other-shell", PartKind.BottomBracket, 1, (PartFields.Shell, "press-86")),
            Made(
                "sleeve",
                PartKind.Adapter,
                0,
                (PartFields.Joins, "shell"),
                (PartFields.From, "thread-68"),
                (PartFields.To, "press-86")
            ),
            Made("frame", PartKind.Frame, 1, (PartFields.Shell, "thread-68")),
        ];
        await using var running = await Running.StartAsync(options =>
            options with
            {
                DemoParts = () => parts,
            }
        );
        var spec = Spec() + "\nparts: {frame: frame}\n";

        var all = await BracketsAsync(inStockOnly: false);
        var inStock = await BracketsAsync(inStockOnly: true);

        Assert.Equal(
            ["here true", "other-shell false", "sold false", "uncounted "],
            all.Order(StringComparer.Ordinal)
        );
        Assert.Equal(["here true"], inStock);

        async Task<List<string>> BracketsAsync(bool inStockOnly) =>
            [
                .. (
                    await SearchAsync(
                        running.NewBrowser(),
                        new OptionsRequest(spec, ["bottomBracket"], inStockOnly, Most: 200)
                    )
                )[^1]
                    .GetProperty("options")
                    .EnumerateArray()
                    .Select(option =>
                        option.GetProperty("parts").GetProperty("bottomBracket").GetString()
                        + " "
                        + option.GetProperty("inStock").GetRawText().Replace("null", "")
                    ),
            ];

        static Part Made(
            string id,
            PartKind kind,
            int? count,
            params (PartField Field, string Tag)[] tags
        ) =>
            new()
            {
                Id = id,
                Kind = kind,
                Name = id,
                InStock = count,
                Values = tags.ToImmutableDictionary(
                    each => each.Field,
                    PartValue (each) => new PartValue.Tags([each.Tag])
                ),
            };
    }

    [Fact]
    public async Task Search_OfASpecThatIsWrong_NamesThePlaces()
    {
        await using var running = await Running.StartAsync(PartTests.WithoutDemo);

        var answer = await running
            .NewBrowser()
            .PostAsJsonAsync("api/v1/options", new OptionsRequest("rings: nine\n", [Kind]));

        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        var problem = JsonSerializer.Deserialize<JsonElement>(
            await answer.Content.ReadAsStringAsync()
        );
        Assert.Equal(1, problem.GetProperty("places")[0].GetProperty("line").GetInt32());
        Assert.Equal("bad-spec", await Running.ProblemOfAsync(answer));
    }

    [Theory]
    [InlineData("", 5)]
    [InlineData("adapter", 5)]
    [InlineData("casette", 5)]
    [InlineData("cassette", 0)]
    [InlineData("cassette", 201)]
    public async Task Search_ForWhatCannotBe_IsAProblem(string kinds, int most)
    {
        await using var running = await Running.StartAsync(PartTests.WithoutDemo);

        var answer = await running
            .NewBrowser()
            .PostAsJsonAsync(
                "api/v1/options",
                new OptionsRequest(
                    Spec(),
                    kinds.Split(' ', StringSplitOptions.RemoveEmptyEntries),
                    Most: most
                )
            );

        Assert.Equal("bad-field", await Running.ProblemOfAsync(answer));
    }

    [Fact]
    public async Task Search_ThroughTooManyCombinations_IsRefusedAndSaysHowMany()
    {
        // All alike to the rules: none of them can be left out beforehand.
        var many = Enumerable
            .Range(1, OptionSearch.MostOfAKind + 1)
            .Select(number => new Part
            {
                Id = $"bearings-{number}",
                Kind = PartKind.BottomBracket,
                Name = "Bearings",
            })
            .ToList();
        await using var running = await Running.StartAsync(options =>
            options with
            {
                DemoParts = () => many,
            }
        );

        var answer = await running
            .NewBrowser()
            .PostAsJsonAsync(
                "api/v1/options",
                new OptionsRequest(Spec(), [PartKinds.NameOf(PartKind.BottomBracket)])
            );

        Assert.Contains("1001", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("too-many-options", await Running.ProblemOfAsync(answer));
    }

    [Fact]
    public void Searches_OfOneSession_RunOneAtATime()
    {
        var running = new RunningSearches();
        var caller = new Caller(Who.Mechanic, Guid.NewGuid(), Guid.NewGuid());

        using (running.Begin(caller))
        {
            var second = Assert.Throws<ProblemException>(() => running.Begin(caller));
            Assert.Equal(Problem.SearchRuns, second.Problem);
            running.Begin(caller with { Session = Guid.NewGuid() }).Dispose();
        }

        running.Begin(caller).Dispose();
    }

    [Fact]
    public async Task Work_WhoseReportsCannotBeSent_IsEndedAndWaitedFor()
    {
        using var ending = new CancellationTokenSource();
        var progress = new LatestOf<int>(TimeProvider.System);
        var hasEnded = false;

        await Assert.ThrowsAsync<IOException>(() =>
            progress.WhileAsync(
                async () =>
                {
                    progress.Report(1);
                    try
                    {
                        await Task.Delay(Timeout.Infinite, ending.Token);
                        return 0;
                    }
                    finally
                    {
                        hasEnded = true;
                    }
                },
                _ => throw new IOException("The caller has gone."),
                ending.CancelAsync
            )
        );

        Assert.True(hasEnded);
    }

    private static int RankOf(string answer) =>
        Array.IndexOf(["yes", "yesWith", "cannotSay", "no"], answer);

    private static async Task<List<JsonElement>> SearchAsync(
        HttpClient browser,
        OptionsRequest request
    ) => await PartTests.LinesAsync(await browser.PostAsJsonAsync("api/v1/options", request));

    private static string Spec()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Cogwright.slnx")))
        {
            folder = folder.Parent;
        }
        return File.ReadAllText(
            Path.Combine(folder!.FullName, "demo/specs/touring-3x9-cable.yaml")
        );
    }
}
