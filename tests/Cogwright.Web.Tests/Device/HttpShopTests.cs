using System.Net;
using System.Text;
using Cogwright.Log;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Device;

public sealed class HttpShopTests
{
    private const string Empty = """
        "epoch": "7f3a1c52-0000-4000-8000-000000000001", "after": 0, "last": 1, "tips": [], "hasMore": false
        """;

    private static readonly LogId Log = new(Guid.CreateVersion7());

    [Theory]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("{" + Empty + ", \"entries\": null}")]
    [InlineData("<html>Welcome to our hotel</html>")]
    public async Task Answer_ThatIsNotThisServers_IsNoConnection(string body)
    {
        using var http = Answering(body);

        var e = await Assert.ThrowsAsync<ShopException>(() =>
            new HttpShop(http).PullAsync(Log, PullCursor.Start)
        );

        Assert.Equal(ShopFault.Gone, e.Fault);
    }

    [Fact]
    public async Task Entries_ThatCannotBeRead_ComeAsBytes()
    {
        using var http = Answering("{" + Empty + ", \"entries\": [\"AQID\"]}");

        var page = await new HttpShop(http).PullAsync(Log, PullCursor.Start);

        Assert.Empty(page.Page.Entries);
        Assert.Equal([1, 2, 3], Assert.Single(page.Unreadable));
    }

    [Fact]
    public async Task Problem_WithoutItsOptionalParts_IsARefusal()
    {
        using var http = Answering(
            "{\"code\": \"too-many\"}",
            HttpStatusCode.TooManyRequests,
            "application/problem+json"
        );

        var e = await Assert.ThrowsAsync<ShopException>(() => new HttpShop(http).PersonAsync());

        Assert.Equal(ShopFault.Refused, e.Fault);
    }

    private static HttpClient Answering(
        string body,
        HttpStatusCode status = HttpStatusCode.OK,
        string type = "application/json"
    ) => new(new Always(body, status, type)) { BaseAddress = new("http://localhost/") };

    private sealed class Always(string body, HttpStatusCode status, string type)
        : HttpMessageHandler
    {
        protected override Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        ) =>
            Task.FromResult(
                new HttpResponseMessage(status)
                {
                    Content = new StringContent(body, Encoding.UTF8, type),
                }
            );
    }
}
