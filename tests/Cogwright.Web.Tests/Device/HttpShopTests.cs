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

    [Fact]
    public async Task Photo_Sent_GoesAsItsBytes_WithItsSaltInTheHeader()
    {
        var photo = new PersonalDatum([.. Enumerable.Range(0, 32).Select(i => (byte)i)], [7, 8]);
        var heard = new Heard(new(HttpStatusCode.Created));
        using var http = new HttpClient(heard) { BaseAddress = new("http://localhost/") };

        await new HttpShop(http).SendPhotoAsync(Log, photo, "image/jpeg");

        Assert.Equal(
            $"PUT http://localhost/api/v1/jobs/{Log}/personal/{photo.Digest} image/jpeg 0708 "
                + "000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f",
            heard.Said
        );
    }

    [Fact]
    public async Task Photo_Fetched_IsItsBytesWithTheSaltOfTheHeader()
    {
        var photo = new PersonalDatum([.. Enumerable.Range(0, 32).Select(i => (byte)i)], [7, 8]);
        var answer = new HttpResponseMessage { Content = new ByteArrayContent([7, 8]) };
        answer.Headers.Add("Cogwright-Salt", Convert.ToHexStringLower(photo.Salt.Span));
        using var http = new HttpClient(new Heard(answer))
        {
            BaseAddress = new("http://localhost/"),
        };

        var fetched = await new HttpShop(http).PhotoAsync(Log, photo.Digest);

        Assert.Equal(photo.Digest, fetched?.Digest);
    }

    [Fact]
    public async Task Photo_SentAndAnsweredByAPage_IsNoConnection()
    {
        using var http = Answering("<html>Welcome to our hotel</html>");

        var e = await Assert.ThrowsAsync<ShopException>(() =>
            new HttpShop(http).SendPhotoAsync(Log, new(new byte[32], [1]), "image/jpeg")
        );

        Assert.Equal(ShopFault.Gone, e.Fault);
    }

    [Fact]
    public async Task Photo_AnsweredWithoutItsSalt_IsNoConnection()
    {
        using var http = Answering("<html>Welcome to our hotel</html>");

        var e = await Assert.ThrowsAsync<ShopException>(() =>
            new HttpShop(http).PhotoAsync(Log, Digest.Of([1]))
        );

        Assert.Equal(ShopFault.Gone, e.Fault);
    }

    [Theory]
    [InlineData("erased", HttpStatusCode.Gone, nameof(ShopFault.Erased))]
    [InlineData("over-quota", HttpStatusCode.InsufficientStorage, nameof(ShopFault.Refused))]
    public async Task Photo_NotTaken_SaysWhetherItWasErased(
        string code,
        HttpStatusCode status,
        string fault
    )
    {
        using var http = Answering(
            $$"""{"code": "{{code}}"}""",
            status,
            "application/problem+json"
        );

        var e = await Assert.ThrowsAsync<ShopException>(() =>
            new HttpShop(http).SendPhotoAsync(Log, new(new byte[32], [1]), "image/jpeg")
        );

        Assert.Equal(fault, e.Fault.ToString());
    }

    private static HttpClient Answering(
        string body,
        HttpStatusCode status = HttpStatusCode.OK,
        string type = "application/json"
    ) => new(new Always(body, status, type)) { BaseAddress = new("http://localhost/") };

    private sealed class Heard(HttpResponseMessage answer) : HttpMessageHandler
    {
        internal string Said { get; private set; } = "";

        protected override async Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        )
        {
            var body = request.Content is { } content
                ? await content.ReadAsByteArrayAsync(cancellationToken)
                : [];
            Said = string.Join(
                ' ',
                request.Method,
                request.RequestUri,
                request.Content?.Headers.ContentType,
                Convert.ToHexStringLower(body),
                request.Headers.TryGetValues("Cogwright-Salt", out var salt) ? salt.First() : ""
            );
            return answer;
        }
    }

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
