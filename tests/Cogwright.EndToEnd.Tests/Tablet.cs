using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Cogwright.Log;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>A device with the app: a browser's storage with one tab open. It may lose the server, so only errors of the page count.</summary>
internal sealed class Tablet : IAsyncDisposable
{
    private readonly string address;
    private readonly IBrowserContext context;
    private readonly List<string> errors = [];

    private readonly Func<ValueTask> leave;

    private Tablet(string address, IBrowserContext context, Func<ValueTask> leave, IPage page)
    {
        this.leave = leave;
        this.address = address;
        this.context = context;
        Page = page;
        page.PageError += (_, error) => errors.Add(error);
    }

    internal IPage Page { get; }

    /// <summary>The link in the bar that says whether everything is safe.</summary>
    internal ILocator Link => Page.Locator(".storage-link");

    /// <summary>One that was never at this address, and that may keep the program.</summary>
    internal static async Task<Tablet> FirstAsync(IBrowser browser, string address)
    {
        var context = await Kind(hasWorker: true).NewAsync(browser);
        return await BeginAsync(address, context, context.DisposeAsync);
    }

    /// <summary>One that holds nothing but the program, and gets it from the server at each visit.</summary>
    /// <param name="shop">Where it goes.</param>
    /// <param name="before">A script that runs before those of the page.</param>
    internal static async Task<Tablet> NewAsync(Shop shop, string? before = null)
    {
        var kind = Kind(hasWorker: false);
        var context = await shop.Warm.TakeAsync(kind);
        return await BeginAsync(
            shop.Address,
            context,
            async () => await shop.Warm.GiveBackAsync(kind, context),
            before
        );
    }

    private static ContextKind Kind(bool hasWorker) =>
        new(Size.Phone.Width, Size.Phone.Height, ColorScheme.Light, false, hasWorker);

    private static async Task<Tablet> BeginAsync(
        string address,
        IBrowserContext context,
        Func<ValueTask> leave,
        string? before = null
    )
    {
        var page = await context.NewPageAsync();
        if (before is not null)
        {
            await page.AddInitScriptAsync(before);
        }
        var tablet = new Tablet(address, context, leave, page);
        await tablet.GoAsync("storage");
        return tablet;
    }

    /// <summary>Another tab of the same browser.</summary>
    internal async Task<Tablet> NewTabAsync()
    {
        var tab = new Tablet(
            address,
            context,
            () => ValueTask.CompletedTask,
            await context.NewPageAsync()
        );
        await tab.GoAsync("storage");
        return tab;
    }

    internal async Task GoAsync(string path)
    {
        await Page.GotoAsync(address + path);
        await Page.WaitForSelectorAsync("main h1", new() { Timeout = 120_000 });
    }

    /// <summary>As when the Wi-Fi goes: nothing that the page asks the server for arrives.</summary>
    internal Task LoseServerAsync() => context.RouteAsync("**/api/**", route => route.AbortAsync());

    internal async Task FindServerAsync()
    {
        await context.UnrouteAsync("**/api/**");
        await Page.GetByRole(AriaRole.Button, new() { Name = "Try now" }).ClickAsync();
    }

    internal async Task LogInAsync()
    {
        await Page.GetByLabel("User name").FillAsync(OwnServer.UserName);
        await Page.GetByLabel("Password").FillAsync(OwnServer.Password);
        await Page.GetByRole(AriaRole.Button, new() { Name = "Log in" }).ClickAsync();
    }

    /// <summary>Takes in a file with one new bike.</summary>
    /// <returns>The bike's id.</returns>
    internal async Task<string> BringBikeAsync(string name)
    {
        var log = new EntryLog(new(Guid.CreateVersion7()));
        var body = JsonSerializer.Serialize(new { fields = new { name }, what = "Begun" });
        var entry = log.Prepare(
            new(Guid.NewGuid()),
            EntryStamp.Next(null, DateTime.UtcNow.Ticks, RandomNumberGenerator.GetBytes(10)),
            new("device:test", "spec.set", 1, Encoding.UTF8.GetBytes(body))
        ).Value!;
        var file = JsonSerializer.Serialize(
            new
            {
                format = "cogwright-device",
                version = 1,
                device = entry.Device.ToString(),
                made = "2026-03-02T09:00:00Z",
                logs = new[]
                {
                    new
                    {
                        log = entry.Log.ToString(),
                        entries = new[] { Convert.ToBase64String(entry.Encoded.Span) },
                    },
                },
            }
        );
        await ImportAsync(Encoding.UTF8.GetBytes(file));
        await Expect(Page.GetByText("New: 1.")).ToBeVisibleAsync();
        return entry.Log.ToString();
    }

    internal Task ImportAsync(byte[] file) =>
        Page.GetByLabel("Take in such a file")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "device.json",
                    MimeType = "application/json",
                    Buffer = file,
                }
            );

    internal async Task<byte[]> ExportAsync()
    {
        var download = await Page.RunAndWaitForDownloadAsync(() =>
            Page.GetByRole(AriaRole.Button, new() { Name = "Export everything" }).First.ClickAsync()
        );
        return await File.ReadAllBytesAsync(await download.PathAsync());
    }

    /// <summary>An edit: gives a bike another name, where the server's others are on the list too.</summary>
    internal async Task RenameAsync(string bike, string name)
    {
        var row = Page.Locator(".rows li")
            .Filter(new() { Has = Page.Locator($"a[href='bike/{bike}']") });
        await row.GetByLabel("Name", new() { Exact = true }).FillAsync(name);
        await row.GetByRole(AriaRole.Button, new() { Name = "Rename" }).ClickAsync();
        await ShowsAsync(name);
    }

    internal Task ShowsAsync(string name) =>
        Expect(Page.Locator(".rows a").Filter(new() { HasText = name })).ToBeVisibleAsync();

    /// <summary>The link says so many are not sent; none: all sent.</summary>
    internal Task HasUnsentAsync(int count) =>
        Expect(Link).ToHaveTextAsync(count == 0 ? "All sent" : $"{count} not sent");

    /// <summary>Keeps a picture of what is to be seen.</summary>
    internal Task PictureAsync(string name) =>
        Page.ScreenshotAsync(
            new() { Path = Path.Combine(Shop.Pictures, name + "-phone-light.png"), FullPage = true }
        );

    public async ValueTask DisposeAsync()
    {
        await Page.LooksWellAsync();
        await leave();
        Assert.True(errors.Count == 0, string.Join('\n', errors));
    }
}
