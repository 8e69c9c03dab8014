using System.Security.Cryptography;
using System.Text.Json;
using System.Text.RegularExpressions;
using Cogwright.Log;
using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>Serial numbers and photos of labels on the parts of a bike: kept without the server, sent and shown elsewhere with it.</summary>
public sealed class LabelTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Label_WithAPhoto_IsKeptWithoutTheServer_SentWhenItIsBack_AndShownElsewhere(
        string size
    )
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/parts");
        await visit.Context.RouteAsync("**/api/**", route => route.AbortAsync());
        var row = Row(page);
        var label = row.GetByRole(AriaRole.Button, new() { Name = "Label: rear derailleur" });
        await label.FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await row.GetByLabel("Serial number").FillAsync("AB 12-345");
        await row.GetByLabel("A few words").FillAsync("inner face of the cage");
        await row.GetByText("No faces, no number plates").Sees().ToBeVisibleAsync();
        await row.GetByLabel("Photo of the label")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "label.png",
                    MimeType = "image/png",
                    Buffer = PngFile.Bars(2400, 1200),
                }
            );
        await row.GetByText("Photo chosen").Sees().ToBeVisibleAsync();
        await visit.PictureAsync("label-form");
        // With keys alone, as Enter in a field does.
        await row.GetByLabel("Serial number").PressAsync("Enter");

        await ShowsAsync(page);
        var kept = new Uri(page.Url).AbsolutePath[1..];
        Assert.Matches("^bike/[0-9a-f-]{36}/parts$", kept);
        Assert.Equal("1600 × 800", await SizeOfPhotoAsync(page));
        // The bike, the label and its photo.
        await Link(page).Sees().ToHaveTextAsync("3 not sent");
        await visit.GoAsync(kept);
        await ShowsAsync(page);
        await Photo(page).ClickAsync();
        await Photo(page).Sees().ToHaveAttributeAsync("aria-expanded", "true");
        await visit.PictureAsync("label-large");

        await visit.Context.UnrouteAsync("**/api/**");
        // The browser says on its console what did not arrive.
        visit.Errors.Clear();
        await visit.WalkToAsync("storage");
        await page.GetByRole(AriaRole.Button, new() { Name = "Try now" }).ClickAsync();
        await Link(page).Sees().ToHaveTextAsync("All sent");
        await visit.WalkToAsync(kept);

        await using var other = await shop.VisitAsync(Size.Named(size));
        await other.GoAsync(kept);
        await ShowsAsync(other.Page);
        Assert.Equal("1600 × 800", await SizeOfPhotoAsync(other.Page));

        await Row(other.Page)
            .GetByRole(AriaRole.Button, new() { Name = "Take away: AB 12-345" })
            .ClickAsync();
        await Row(other.Page).GetByLabel("Reason").FillAsync("of another bike");
        await other.PictureAsync("label-remove");
        await Row(other.Page)
            .GetByRole(AriaRole.Button, new() { Name = "Take it away" })
            .ClickAsync();
        await Row(other.Page).GetByText("AB 12-345").Sees().ToHaveCountAsync(0);
        // The first one hears of it from the server.
        await Row(page).GetByText("AB 12-345").Sees().ToHaveCountAsync(0);
        await Link(other.Page).Sees().ToHaveTextAsync("All sent");
    }

    /// <summary>What a version before there were photos has stored is there after the upgrade, and is sent.</summary>
    [Fact]
    public async Task Storage_OfTheVersionBeforePhotos_IsUpgraded_AndLosesNothing()
    {
        await using var visit = await shop.FirstVisitAsync(Size.Phone);
        var page = visit.Page;
        var log = new EntryLog(new(Guid.CreateVersion7()));
        var name = $"Hesby {log.Id}";
        var entry = log.Prepare(
            new(Guid.NewGuid()),
            EntryStamp.Next(null, DateTime.UtcNow.Ticks, RandomNumberGenerator.GetBytes(10)),
            new(
                "device:test",
                "spec.set",
                1,
                JsonSerializer.SerializeToUtf8Bytes(new { fields = new { name }, what = "Begun" })
            )
        ).Value!;
        // A page of the server without the program.
        await page.GotoAsync(shop.Address + "health");
        await page.EvaluateAsync(
            """
            rows => new Promise((done, failed) => {
              const request = indexedDB.open("cogwright", 1);
              request.onupgradeneeded = () => {
                const db = request.result;
                db.createObjectStore("entries", { keyPath: "id" }).createIndex("log", "log");
                db.createObjectStore("outbox", { keyPath: "id" });
                db.createObjectStore("bikes", { keyPath: "log" });
                db.createObjectStore("cursors", { keyPath: "log" });
                db.createObjectStore("settings", { keyPath: "name" });
                for (const [store, row] of Object.entries(rows)) request.transaction.objectStore(store).put(row);
              };
              request.onsuccess = () => { request.result.close(); done(); };
              request.onerror = () => failed(request.error);
            })
            """,
            new
            {
                entries = new
                {
                    id = entry.Id.ToString(),
                    log = log.Id.ToString(),
                    bytes = Convert.ToBase64String(entry.Encoded.Span),
                },
                outbox = new
                {
                    id = entry.Id.ToString(),
                    log = log.Id.ToString(),
                    place = 1,
                    hash = entry.Hash.ToString(),
                    sizeBytes = entry.Encoded.Length,
                    isRefused = false,
                    reason = "",
                },
                bikes = new
                {
                    log = log.Id.ToString(),
                    name,
                    utcTicks = 1,
                },
                settings = new { name = "device", value = entry.Device.ToString() },
            }
        );

        await visit.GoAsync("storage");
        await page.GetByText($"This device's id: {entry.Device}").Sees().ToBeVisibleAsync();
        await page.Locator(".rows a", new() { HasText = name }).Sees().ToBeVisibleAsync();
        await Link(page).Sees().ToHaveTextAsync("All sent");

        await using var other = await shop.VisitAsync(Size.Phone);
        await other.GoAsync("storage");
        await other.Page.Locator(".rows a", new() { HasText = name }).Sees().ToBeVisibleAsync();
    }

    private static ILocator Row(IPage page) =>
        page.Locator(".part-rows > li")
            .Filter(
                new()
                {
                    Has = page.Locator(
                        ".part-kind",
                        new() { HasTextRegex = new Regex("^rear derailleur$") }
                    ),
                }
            );

    private static ILocator Link(IPage page) => page.Locator(".storage-link");

    private static ILocator Photo(IPage page) => Row(page).Locator(".label-photo");

    private static async Task ShowsAsync(IPage page)
    {
        await Row(page).GetByText("AB 12-345").Sees().ToBeVisibleAsync();
        await Row(page)
            .GetByAltText("Photo of the label on the rear derailleur, AB 12-345")
            .Sees()
            .ToBeVisibleAsync();
    }

    private static Task<string> SizeOfPhotoAsync(IPage page) =>
        Photo(page)
            .Locator("img")
            .EvaluateAsync<string>(
                "async image => { await image.decode(); return `${image.naturalWidth} × ${image.naturalHeight}`; }"
            );
}
