using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Parts;

/// <summary>The library of parts on this device: what it takes for the shop's, and what stays.</summary>
public sealed class PartShelfTests
{
    private const string Hotel = "<html>Welcome to our hotel, please log in</html>";

    private readonly PretendParts shop = new();
    private readonly PretendKeep keep = new();

    private static CancellationToken Ending => TestContext.Current.CancellationToken;

    private static Part[] Some => [.. DemoParts.Library.Parts.Take(3)];

    [Theory]
    [InlineData(Hotel)]
    [InlineData("")]
    [InlineData("id,kind,name\n\"half a fi")]
    public async Task AnAnswer_ThatIsNoLibrary_LeavesWhatIsThere(string body)
    {
        shop.Hold(Some);
        var shelf = new PartShelf(keep, shop);
        await shelf.RefreshAsync(Ending);
        var (library, kept) = (shelf.Library, keep.Kept);

        shop.Hold(body);
        await shelf.RefreshAsync(Ending);

        Assert.Equal((library, kept, false), (shelf.Library, keep.Kept, shelf.IsReached));
        Assert.Equal(3, shelf.Library.Count);
    }

    [Fact]
    public async Task ALibrary_FromWhichEverythingWasTaken_IsTaken()
    {
        shop.Hold(Some);
        var shelf = new PartShelf(keep, shop);
        await shelf.RefreshAsync(Ending);

        shop.Hold([]);
        await shelf.RefreshAsync(Ending);

        Assert.Equal((0, true), (shelf.Library.Count, shelf.IsReached));
    }

    [Fact]
    public async Task WhatIsKept_AndIsNoLibrary_IsAsGoodAsNone()
    {
        keep.Kept = new(Hotel, "\"1\"");
        shop.Hold(Some);
        var shelf = new PartShelf(keep, shop);

        await shelf.ReadyAsync();
        Assert.True(shelf.IsDemo);
        // Its mark is worth nothing either: the same state is fetched once more.
        await shelf.RefreshAsync(Ending);
        Assert.Equal(3, shelf.Library.Count);
    }

    [Theory]
    [InlineData(null, false)]
    [InlineData("\"7\"", true)]
    public async Task AnAnswer_WithoutItsMark_IsNoConnection(string? mark, bool isReached)
    {
        var answer = new HttpResponseMessage(HttpStatusCode.OK)
        {
            Content = new StringContent(PartsWriter.ToCsv([.. Some]), Encoding.UTF8, "text/csv"),
        };
        answer.Headers.ETag = mark is null ? null : EntityTagHeaderValue.Parse(mark);
        using var http = new HttpClient(new Always(answer))
        {
            BaseAddress = new("http://localhost/"),
        };
        var shelf = new PartShelf(keep, new HttpShopParts(http));

        await shelf.RefreshAsync(Ending);

        Assert.Equal((isReached, !isReached), (shelf.IsReached, shelf.IsDemo));
        Assert.Equal(isReached, keep.Kept is not null);
    }

    private sealed class Always(HttpResponseMessage answer) : HttpMessageHandler
    {
        protected override Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        ) => Task.FromResult(answer);
    }
}
