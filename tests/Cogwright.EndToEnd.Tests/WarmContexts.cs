using System.Collections.Concurrent;
using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>What a browser context is made with.</summary>
/// <param name="Width">Width of the window (CSS pixels).</param>
/// <param name="Height">Height of the window (CSS pixels).</param>
/// <param name="Scheme">Light or dark.</param>
/// <param name="HasTouch">Whether the screen hears fingers.</param>
/// <param name="HasWorker">Whether the app may be kept by its service worker.</param>
internal sealed record ContextKind(
    int Width,
    int Height,
    ColorScheme Scheme,
    bool HasTouch,
    bool HasWorker
)
{
    internal Task<IBrowserContext> NewAsync(IBrowser browser) =>
        browser.NewContextAsync(
            new()
            {
                ViewportSize = new() { Width = Width, Height = Height },
                ColorScheme = Scheme,
                HasTouch = HasTouch,
                ServiceWorkers = HasWorker ? ServiceWorkerPolicy.Allow : ServiceWorkerPolicy.Block,
            }
        );
}

/// <summary>
/// Contexts that have been to the shop before: they hold the program and nothing that anybody entered. To load the program anew
/// takes a test longer than what it tests; only a test of the first visit or of the storage needs to.
/// </summary>
/// <param name="browser">The browser that they belong to.</param>
/// <param name="address">Where the shop is.</param>
internal sealed class WarmContexts(IBrowser browser, string address)
{
    private readonly ConcurrentDictionary<ContextKind, ConcurrentBag<IBrowserContext>> idle = new();

    /// <summary>A context with nothing stored but the program, or a new one.</summary>
    internal Task<IBrowserContext> TakeAsync(ContextKind kind) =>
        idle.TryGetValue(kind, out var waiting) && waiting.TryTake(out var context)
            ? Task.FromResult(context)
            : kind.NewAsync(browser);

    /// <summary>Closes its pages and takes away what they stored.</summary>
    internal async Task GiveBackAsync(ContextKind kind, IBrowserContext context)
    {
        await context.UnrouteAllAsync();
        foreach (var page in context.Pages.ToList())
        {
            await page.CloseAsync();
        }
        var blank = await context.NewPageAsync();
        var devTools = await context.NewCDPSessionAsync(blank);
        await devTools.SendAsync(
            "Storage.clearDataForOrigin",
            new()
            {
                ["origin"] = new Uri(address).GetLeftPart(UriPartial.Authority),
                ["storageTypes"] = "cookies,indexeddb,local_storage",
            }
        );
        await blank.CloseAsync();
        idle.GetOrAdd(kind, _ => []).Add(context);
    }
}
