using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

public sealed class BikeListTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task List_OfTheDemoWorkshop_TellsGearingAndChainAndGoesAndComesBack(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size), ColorScheme.Dark);
        var page = visit.Page;
        await visit.GoAsync();
        await visit.SettleAsync();
        var road = page.Locator(".demo .bikes a").Filter(new() { HasText = "Hesby road" });
        await road.Sees().ToContainTextAsync("50/34 × 11–34, 12 cogs");
        await road.Sees().ToContainTextAsync("chain 110 pitches");
        await road.Sees().ToContainTextAsync("demo");
        await visit.PictureAsync("home");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the demo bikes away" })
            .ClickAsync();
        await page.Locator(".demo .bikes a").Sees().ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Button, new() { Name = "Bring the demo bikes back" })
            .ClickAsync();
        await road.Sees().ToBeVisibleAsync();
    }

    [Fact]
    public async Task SkipLink_Used_LeadsToTheContentOfThisPage()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        await visit.GoAsync($"bike/{Routes.Bike}/gears");
        var address = visit.Page.Url;
        await visit.Page.Locator(".skip").FocusAsync();
        await visit.Page.Keyboard.PressAsync("Enter");
        await visit.Page.Locator("#content").Sees().ToBeFocusedAsync();
        Assert.Equal(address, visit.Page.Url);
    }
}
