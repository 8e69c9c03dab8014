using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>Alone, and together again: docs/how-to/offline.md.</summary>
public sealed class OfflineTests(Shop shop)
{
    // Called when a test wants the storage to be full.
    private const string CanBeFull = """
        const put = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (row) {
          if (window.isFull) throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
          return put.call(this, row);
        };
        """;

    private const string WithoutStorage =
        "Object.defineProperty(window, 'indexedDB', { value: { open() { throw new DOMException('no', 'SecurityError'); } } });";

    [Fact]
    public async Task Server_KilledAndBack_OnATabletOverHttps_LosesNothing()
    {
        await using var server = await OwnServer.StartAsync();
        await using var browser = await server.BrowserAsync(shop.Playwright);
        await using var tablet = await Tablet.FirstAsync(browser, server.Address);
        var bike = await tablet.BringBikeAsync("Hesby stand");
        await tablet.PictureAsync("storage-log-in");
        await tablet.LogInAsync();
        await tablet.HasUnsentAsync(0);
        Assert.Equal(1, await server.CountAsync(bike));
        await Expect(tablet.Page.GetByText("opens on this device without the server"))
            .ToBeVisibleAsync();

        await server.KillAsync();
        await tablet.RenameAsync(bike, "Hesby alone");
        await tablet.HasUnsentAsync(1);
        await tablet.GoAsync("storage");
        await tablet.ShowsAsync("Hesby alone");
        await tablet.HasUnsentAsync(1);
        await tablet.RenameAsync(bike, "Hesby alone again");
        await tablet.HasUnsentAsync(2);
        await Expect(tablet.Page.GetByText("cannot be reached")).ToBeVisibleAsync();
        await tablet.PictureAsync("storage-alone");
        await tablet.GoAsync($"bike/{bike}/gears");
        await Expect(tablet.Page.Locator(".bike-line")).ToContainTextAsync("Hesby alone again");

        await server.StartAgainAsync();
        await tablet.GoAsync("storage");
        await tablet.HasUnsentAsync(0);
        Assert.Equal(3, await server.CountAsync(bike));
        await tablet.PictureAsync("storage-together");

        await tablet.Page.GetByRole(AriaRole.Button, new() { Name = "Log out" }).ClickAsync();
        await Expect(tablet.Page.GetByLabel("User name")).ToBeVisibleAsync();
        await tablet.RenameAsync(bike, "Hesby by nobody");
        await tablet.HasUnsentAsync(1);
    }

    [Fact]
    public async Task Server_BackWhileThePageIsOpen_IsFoundWithoutAnybodyAsking()
    {
        await using var server = await OwnServer.StartAsync();
        await using var browser = await server.BrowserAsync(shop.Playwright);
        await using var tablet = await Tablet.FirstAsync(browser, server.Address);
        var bike = await tablet.BringBikeAsync("Hesby open");
        await tablet.LogInAsync();
        await tablet.HasUnsentAsync(0);
        await server.KillAsync();
        await tablet.RenameAsync(bike, "Hesby waiting");
        await tablet.HasUnsentAsync(1);

        await server.StartAgainAsync();

        await tablet.HasUnsentAsync(0);
        Assert.Equal(2, await server.CountAsync(bike));
    }

    [Fact]
    public async Task TwoTabs_ShowOneAnothersChangesAtOnce_AndMakeOneChain()
    {
        await using var first = await Tablet.NewAsync(shop);
        await first.LoseServerAsync();
        var bike = await first.BringBikeAsync("Hesby tabs");
        var second = await first.NewTabAsync();
        await second.ShowsAsync("Hesby tabs");

        await first.RenameAsync(bike, "Hesby by the first");
        await second.ShowsAsync("Hesby by the first");
        await second.RenameAsync(bike, "Hesby by the second");
        await first.ShowsAsync("Hesby by the second");
        await first.RenameAsync(bike, "Hesby by the first again");
        await second.ShowsAsync("Hesby by the first again");

        await second.HasUnsentAsync(4);
        await first.FindServerAsync();
        await first.HasUnsentAsync(0);
        await second.HasUnsentAsync(0);
        await Expect(first.Link).Not.ToHaveClassAsync(new Regex(@"\bbad\b"));
    }

    [Fact]
    public async Task TwoDevices_NamingABikeUnseen_ShowBothNames_UntilSomebodyChooses()
    {
        await using var here = await Tablet.NewAsync(shop);
        var bike = await here.BringBikeAsync("Hesby both");
        await here.HasUnsentAsync(0);
        await using var there = await Tablet.NewAsync(shop);
        await there.ShowsAsync("Hesby both");
        await here.LoseServerAsync();
        await there.LoseServerAsync();
        await here.RenameAsync(bike, "Hesby here");
        await there.RenameAsync(bike, "Hesby there");
        await here.FindServerAsync();
        await here.HasUnsentAsync(0);
        await there.FindServerAsync();
        await there.HasUnsentAsync(0);

        await here.GoAsync($"bike/{bike}");
        await there.GoAsync($"bike/{bike}");
        await Expect(here.Page.Locator(".conflict button")).ToHaveCountAsync(2);
        await Expect(there.Page.Locator(".conflict button")).ToHaveCountAsync(2);
        await here.PictureAsync("conflict");
        await here.Page.Locator(".conflict button", new() { HasText = "Hesby there" }).ClickAsync();

        // The other device hears of it from the server.
        await Expect(here.Page.Locator(".conflict")).ToHaveCountAsync(0);
        await Expect(there.Page.Locator(".conflict")).ToHaveCountAsync(0);
        await Expect(there.Page.Locator(".bike-line")).ToContainTextAsync("Hesby there");
    }

    [Fact]
    public async Task Storage_Full_SaysSo_WarnsBeforeClosing_Exports_AndTriesAgain()
    {
        await using var tablet = await Tablet.NewAsync(shop, CanBeFull);
        await tablet.LoseServerAsync();
        var bike = await tablet.BringBikeAsync("Hesby room");
        await tablet.Page.EvaluateAsync("window.isFull = true");
        await tablet.RenameAsync(bike, "Hesby full");

        await Expect(tablet.Link).ToHaveTextAsync("1 not kept!");
        await Expect(tablet.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("storage is full");
        await tablet.PictureAsync("storage-full");
        var file = await tablet.ExportAsync();
        var asked = new TaskCompletionSource<string>();
        async void Stay(object? sender, IDialog dialog)
        {
            await dialog.DismissAsync();
            asked.TrySetResult(dialog.Type);
        }
        tablet.Page.Dialog += Stay;
        await tablet.Page.CloseAsync(new() { RunBeforeUnload = true });
        Assert.Equal("beforeunload", await asked.Task);
        tablet.Page.Dialog -= Stay;

        await tablet.Page.EvaluateAsync("window.isFull = false");
        await tablet.Page.GetByRole(AriaRole.Button, new() { Name = "Try again" }).ClickAsync();
        await Expect(tablet.Page.GetByRole(AriaRole.Alert)).ToHaveCountAsync(0);
        await tablet.GoAsync("storage");
        await tablet.ShowsAsync("Hesby full");

        await using var other = await Tablet.NewAsync(shop);
        await other.LoseServerAsync();
        await other.ImportAsync(file);
        await other.ShowsAsync("Hesby full");
        await other.ImportAsync(Encoding.UTF8.GetBytes("no file of ours"));
        await Expect(other.Page.GetByText("is not a file of a device")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Browser_WithoutStorage_SaysSoAtOnce_AndWorks()
    {
        await using var tablet = await Tablet.NewAsync(shop, WithoutStorage);
        await Expect(tablet.Page.GetByRole(AriaRole.Alert)).ToContainTextAsync("keeps nothing");
        await tablet.LoseServerAsync();
        await tablet.BringBikeAsync("Hesby private");
        await Expect(tablet.Link).ToHaveTextAsync("1 not kept!");
        await tablet.PictureAsync("storage-private");

        // What the server has is safe.
        await tablet.FindServerAsync();
        await tablet.HasUnsentAsync(0);
    }

    [Fact]
    public async Task NewVersion_WaitsUntilSomebodyTakesIt_AndKeepsWhatIsNotSent()
    {
        await using var tablet = await Tablet.FirstAsync(shop.Browser, shop.Address);
        await Expect(tablet.Page.GetByText("opens on this device without the server"))
            .ToBeVisibleAsync();
        await tablet.LoseServerAsync();
        var bike = await tablet.BringBikeAsync("Hesby version");

        // The same files under another name: to the browser that is another version of the worker.
        await tablet.Page.EvaluateAsync(
            "navigator.serviceWorker.register('service-worker.js?next', { updateViaCache: 'none' }).then(() => true)"
        );
        await Expect(tablet.Page.GetByText("A new version is ready")).ToBeVisibleAsync();
        await tablet.PictureAsync("storage-new-version");
        await tablet
            .Page.GetByRole(AriaRole.Button, new() { Name = "Load the new version" })
            .ClickAsync();

        await tablet.Page.WaitForFunctionAsync(
            "() => navigator.serviceWorker.controller?.scriptURL.endsWith('?next')"
        );
        await tablet.ShowsAsync("Hesby version");
        await tablet.HasUnsentAsync(1);
        await tablet.RenameAsync(bike, "Hesby of the new version");
    }

    [Fact]
    public async Task Program_OnTheDevice_HoldsAllItNeeds_AndNothingOfTheServer()
    {
        await using var tablet = await Tablet.FirstAsync(shop.Browser, shop.Address);
        await Expect(tablet.Page.GetByText("opens on this device without the server"))
            .ToBeVisibleAsync();

        var kept = await tablet.Page.EvaluateAsync<string[]>(
            """
            async () => {
              const paths = [];
              for (const name of await caches.keys())
                for (const request of await (await caches.open(name)).keys()) paths.push(new URL(request.url).pathname);
              return paths;
            }
            """
        );

        Assert.Contains("/index.html", kept);
        Assert.Contains("/js/store.js", kept);
        Assert.DoesNotContain(kept, path => path.StartsWith("/api", StringComparison.Ordinal));
        // Whatever the page has loaded so far is there.
        var loaded = await tablet.Page.EvaluateAsync<string[]>(
            "performance.getEntriesByType('resource').map(e => new URL(e.name).pathname)"
        );
        Assert.Empty(
            loaded
                .Where(path => !path.StartsWith("/api", StringComparison.Ordinal))
                .Except(kept)
                .Except(["/service-worker.js"])
        );
    }

    [Theory]
    [InlineData("service-worker.js", "no-cache")]
    [InlineData("service-worker-assets.js", "no-cache")]
    [InlineData("manifest.webmanifest", "no-cache")]
    [InlineData("css/app.css", "no-cache")]
    [InlineData("api/v1/session", "no-store")]
    public async Task File_OfTheProgram_SaysHowLongItMayBeKept(string path, string said)
    {
        using var http = new HttpClient { BaseAddress = new(shop.Address) };
        using var answer = await http.GetAsync(
            new Uri(path, UriKind.Relative),
            TestContext.Current.CancellationToken
        );
        answer.EnsureSuccessStatusCode();
        Assert.Equal(said, answer.Headers.GetValues("Cache-Control").Single());
    }
}
