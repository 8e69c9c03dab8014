using System.Net;
using System.Net.Http.Headers;
using System.Text;
using Cogwright.Facts;
using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Bikes;
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

    [Theory]
    [InlineData(true, true, ImportEnd.Stored)]
    [InlineData(false, true, ImportEnd.NotStored)]
    [InlineData(true, false, ImportEnd.NotKnown)]
    public async Task AnImport_ThatWasCancelled_SaysWhatBecameOfIt(
        bool wasStored,
        bool isReached,
        ImportEnd end
    )
    {
        shop.Hold([]);
        var shelf = new PartShelf(keep, shop);
        var preview = await PreviewAsync(shelf, PartsWriter.ToCsv([.. Some]));
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(Ending);
        shop.Stores = wasStored;
        shop.Imports = new OperationCanceledException();
        shop.Importing = ending.Cancel;
        shop.Fails = isReached ? null : new HttpRequestException("gone");

        Assert.Equal(end, await ImportAsync(shelf, preview, ending.Token));
    }

    /// <summary>Somebody who taps "cancel" just when it is done must not read that nothing was stored.</summary>
    [Fact]
    public async Task AnImport_ThatIsDoneWhenItIsCancelled_IsStored()
    {
        var shelf = new PartShelf(keep, shop);
        var preview = await PreviewAsync(shelf, PartsWriter.ToCsv([.. Some]));
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(Ending);
        shop.Importing = ending.Cancel;

        Assert.Equal(ImportEnd.Stored, await ImportAsync(shelf, preview, ending.Token));
        Assert.Equal(3, shelf.Library.Count);
    }

    [Fact]
    public async Task APreview_IsOfTheShopsLibraryAsItIsNow_AndTheImportIsMeantForThat()
    {
        shop.Hold(Some[0]);
        var shelf = new PartShelf(keep, shop);
        await shelf.RefreshAsync(Ending);
        // Another device brings one in meanwhile.
        shop.Hold(Some[0], Some[1]);

        var preview = await PreviewAsync(shelf, PartsWriter.ToCsv([.. Some]));
        Assert.Equal((1, 2), (preview.Import.Added.Length, preview.Import.Same.Length));
        var seen = shop.Mark;
        shop.Hold(Some[0]);
        shop.Stores = false;
        shop.Imports = new HttpRequestException("changed", null, HttpStatusCode.Conflict);

        await Assert.ThrowsAsync<HttpRequestException>(() => ImportAsync(shelf, preview, Ending));
        Assert.Equal(seen, shop.ImportedOn);
        Assert.Equal(2, shelf.Again(preview).Import.Added.Length);
    }

    [Fact]
    public async Task AFile_InAnotherEncoding_IsToldAsSuchAndBringsNoWrongLetters()
    {
        var shelf = new PartShelf(keep, shop);
        var bytes = Encoding.Latin1.GetBytes("id,kind,name\nx-1,chain,Kürzel\n");

        var preview = await shelf.PreviewAsync(bytes, "parts.csv", null, Ending);

        Assert.Empty(preview.Reading.Parts);
        Assert.True(Assert.Single(preview.Reading.Problems).IsError);
    }

    [Fact]
    public async Task TheImport_SendsTheBytesOfTheFile_AndTheRevisionOfThePreview()
    {
        var heard = new Heard("""{"at":"storing","done":1,"all":2}""" + "\n" + """{"at":"done"}""");
        using var http = new HttpClient(heard) { BaseAddress = new("http://localhost/") };

        await new HttpShopParts(http).ImportAsync(
            new byte[] { 0xEF, 0xBB, 0xBF, 0x61 },
            "a b.csv",
            "\"9f0e-7-csv\"",
            new Progress<ImportProgress>(),
            Ending
        );

        Assert.Equal(
            "/api/v1/parts/import?skip=bad&name=a%20b.csv&revision=7 EFBBBF61",
            heard.Said
        );
    }

    [Theory]
    [InlineData(Hotel, null)]
    [InlineData("""{"at":"storing","done":1,"all":2}""", null)]
    [InlineData(
        """{"at":"failed","problem":{"detail":"It was changed.","next":"Look again."}}""",
        "It was changed. Look again."
    )]
    public async Task AnImport_ThatDoesNotEndWell_SaysWhetherTheServerRefused(
        string body,
        string? refusal
    )
    {
        using var http = new HttpClient(new Heard(body)) { BaseAddress = new("http://localhost/") };

        var e = await Assert.ThrowsAsync<HttpRequestException>(() =>
            new HttpShopParts(http).ImportAsync(
                new byte[] { 0x61 },
                "a.csv",
                "",
                new Progress<ImportProgress>(),
                Ending
            )
        );

        Assert.Equal(refusal is not null, e.StatusCode is not null);
        Assert.Equal(refusal ?? e.Message, e.Message);
    }

    [Fact]
    public async Task TheDemosParts_OfAShopThatRefuses_StayAndItIsSaid()
    {
        shop.Hold(Some);
        var shelf = new PartShelf(keep, shop);
        await shelf.RefreshAsync(Ending);
        Assert.Equal(Some, shelf.DemoParts);
        shop.Fails = new HttpRequestException("not yours", null, HttpStatusCode.Forbidden);

        await Assert.ThrowsAsync<HttpRequestException>(() => shelf.SetDemoAsync(false));
        Assert.Equal(3, shelf.Library.Count);

        shop.Fails = null;
        await shelf.SetDemoAsync(false);
        Assert.Equal((0, 0), (shelf.Library.Count, shelf.DemoParts.Length));
    }

    [Fact]
    public async Task TheDemosParts_WithoutAnyServer_GoAndComeOnThisDevice()
    {
        shop.Fails = new HttpRequestException("gone");
        var shelf = new PartShelf(keep, shop);

        await shelf.SetDemoAsync(false);
        Assert.Equal(0, shelf.Library.Count);
        await shelf.SetDemoAsync(true);
        Assert.Equal(DemoParts.Library.Count, shelf.DemoParts.Length);
    }

    [Fact]
    public async Task NamedParts_AreToldWithTheBikesThatNameThem()
    {
        var device = new PretendDevice(new PretendShop());
        var bike = DemoWorkshop.Sheet("demo-touring-3x9-cable").With("name", "Hesby");
        await device.Shelf.StartAsync(BikeHistory.Empty.To(bike, "begun")!);
        await device.Shelf.StartAsync(
            BikeHistory.Empty.To(bike.With("name", "Kite").Fit(Some[1]), "begun")!
        );

        var named = Assert.Single(await NamedParts.OnAsync(device.Shelf, [.. Some]));

        Assert.Equal("Kite", named.Bike.Name);
        Assert.Equal(Some[1], Assert.Single(named.Parts));
    }

    private static Task<ImportPreview> PreviewAsync(PartShelf shelf, string text) =>
        shelf.PreviewAsync(Encoding.UTF8.GetBytes(text), "parts.csv", null, Ending);

    private static Task<ImportEnd> ImportAsync(
        PartShelf shelf,
        ImportPreview preview,
        CancellationToken cancellation
    ) => shelf.ImportAsync(preview, new Progress<ImportProgress>(), cancellation);

    private sealed class Heard(string body) : HttpMessageHandler
    {
        internal string Said { get; private set; } = "";

        protected override async Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        )
        {
            Said =
                request.RequestUri!.PathAndQuery
                + " "
                + Convert.ToHexString(
                    await request.Content!.ReadAsByteArrayAsync(cancellationToken)
                );
            return new(HttpStatusCode.OK) { Content = new StringContent(body) };
        }
    }

    private sealed class Always(HttpResponseMessage answer) : HttpMessageHandler
    {
        protected override Task<HttpResponseMessage> SendAsync(
            HttpRequestMessage request,
            CancellationToken cancellationToken
        ) => Task.FromResult(answer);
    }
}
