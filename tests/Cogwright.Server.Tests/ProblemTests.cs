using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;

namespace Cogwright.Server.Tests;

public sealed class ProblemTests
{
    private static readonly Uri Entries = new(
        $"api/v1/jobs/{Bench.IdOf(1)}/entries",
        UriKind.Relative
    );

    public static TheoryData<string> Codes => [.. Problem.All.Select(problem => problem.Code)];

    [Theory]
    [MemberData(nameof(Codes))]
    public void Problem_OfEverySort_SaysWhatAndWhatToDo(string code)
    {
        var problem = Problem.All.Single(each => each.Code == code);

        Assert.NotEmpty(problem.Title);
        Assert.NotEmpty(problem.Detail([1, 2, 3]));
        Assert.NotEmpty(problem.Next);
    }

    [Theory]
    [InlineData("DELETE", "api/v1/jobs")]
    [InlineData("GET", "api/v1/nothing")]
    [InlineData("GET", "API/v1/session")]
    public async Task Answer_ThatIsNoFileOfTheProgram_IsKeptByNobody(string method, string path)
    {
        await using var running = await Running.StartAsync();

        using var answer = await running
            .NewBrowser()
            .SendAsync(new HttpRequestMessage(new(method), new Uri(path, UriKind.Relative)));

        Assert.True(answer.Headers.CacheControl is { NoStore: true });
    }

    [Theory]
    [InlineData("/api/v1/session", true)]
    [InlineData("/API/v1/session", true)]
    [InlineData("/Trust", true)]
    [InlineData("/bike/api", false)]
    [InlineData("/apiary", false)]
    public void Path_InWhateverCase_IsTheServersOwnOrThePrograms(string path, bool isOwn) =>
        Assert.Equal(isOwn, WebClient.IsOwn(path));

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("{\"entries\":[")]
    [InlineData("{\"entries\":null}")]
    [InlineData("{\"entries\":[\"not base 64\"]}")]
    [InlineData("{\"entries\":[],\"entires\":[]}")]
    [InlineData("{\"entries\":[],\"entries\":[]}")]
    [InlineData("[]")]
    [InlineData("null")]
    public async Task Json_ThatIsMalformed_IsAProblem(string body)
    {
        await using var running = await Running.StartAsync();

        var answer = await running
            .NewBrowser()
            .PostAsync(
                Entries,
                new StringContent(body, new MediaTypeHeaderValue("application/json"))
            );

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.True(await Running.ProblemOfAsync(answer) is "malformed" or "bad-request");
    }

    [Fact]
    public async Task Entry_ThatIsNone_IsNamedByItsPlace()
    {
        await using var running = await Running.StartAsync();
        var good = new Bench(1, Bench.Job(1)).Write();

        var answer = await running
            .NewBrowser()
            .PostAsJsonAsync(Entries, new AppendRequest([good.Encoded.ToArray(), [1, 2, 3]]));

        Assert.Contains(
            "number 1",
            await answer.Content.ReadAsStringAsync(),
            StringComparison.Ordinal
        );
        Assert.Equal("bad-entry", await Running.ProblemOfAsync(answer));
        Assert.Empty(await running.Server.Store.LogsAsync());
    }

    [Theory]
    [InlineData("api/v1/session", (16 * 1024) + 1)]
    [InlineData("api/v1/jobs/00000000-0000-0000-0000-000000000001/entries", 1_500_000)]
    public async Task Body_OverTheLimit_IsAProblem(string path, int length)
    {
        await using var running = await Running.StartAsync();

        var answer = await running
            .NewBrowser()
            .PostAsync(
                path,
                new StringContent(
                    new string(' ', length),
                    new MediaTypeHeaderValue("application/json")
                )
            );

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Equal("too-large", await Running.ProblemOfAsync(answer));
    }

    [Theory]
    [InlineData("GET", "nowhere", "not-found")]
    [InlineData("GET", "api/v1/jobs/no-id/entries", "not-found")]
    [InlineData("DELETE", "api/v1/jobs", "wrong-method")]
    [InlineData("OPTIONS", "api/v1/jobs", "wrong-method")]
    [InlineData(
        "GET",
        "api/v1/jobs/00000000-0000-0000-0000-000000000001/entries?after=x",
        "bad-request"
    )]
    [InlineData(
        "GET",
        "api/v1/jobs/00000000-0000-0000-0000-000000000001/entries?after=-1",
        "bad-field"
    )]
    [InlineData(
        "GET",
        "api/v1/jobs/00000000-0000-0000-0000-000000000001/entries?most=0",
        "bad-field"
    )]
    [InlineData(
        "GET",
        "api/v1/jobs/00000000-0000-0000-0000-000000000001/personal/xyz",
        "bad-field"
    )]
    [InlineData("POST", "api/v1/jobs/00000000-0000-0000-0000-000000000001/statements", "not-found")]
    public async Task Request_ThatLeadsNowhere_IsAProblem(string method, string path, string code)
    {
        await using var running = await Running.StartAsync();
        using var request = new HttpRequestMessage(new HttpMethod(method), path);

        Assert.Equal(
            code,
            await Running.ProblemOfAsync(await running.NewBrowser().SendAsync(request))
        );
    }

    [Fact]
    public async Task Body_OfAnotherType_IsAProblem()
    {
        await using var running = await Running.StartAsync();

        var answer = await running.NewBrowser().PostAsync(Entries, new StringContent("entries"));

        Assert.Equal("wrong-type", await Running.ProblemOfAsync(answer));
    }
}
