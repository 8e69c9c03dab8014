using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

public sealed class GearTableTests(Shop shop)
{
    [Theory]
    [InlineData("phone", "demo-touring-3x9-cable", 27)]
    [InlineData("desk", "demo-touring-3x9-cable", 27)]
    [InlineData("phone", "demo-gravel-1x13", 13)]
    [InlineData("desk", "demo-gravel-1x13", 13)]
    public async Task Table_OfABike_ShowsEveryGearInWordsWithoutScrollingSideways(
        string size,
        string bike,
        int gears
    )
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync($"bike/{bike}/gears");
        await visit.SettleAsync();
        await page.Locator("button.gear").Sees().ToHaveCountAsync(gears);
        var words = await page.Locator("button.gear b").AllTextContentsAsync();
        Assert.All(words, word => Assert.NotEqual("", word.Trim()));
        Assert.Equal(gears, await page.Locator("button.gear svg.mark").CountAsync());
        var table = (await page.Locator(".gear-grid").BoundingBoxAsync())!;
        Assert.True(
            table.X + table.Width <= Size.Named(size).Width,
            "the table is wider than the window"
        );
        await visit.PictureAsync("gears-" + bike);
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Cell_Chosen_GivesFiguresDrawingAndReasons(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size), ColorScheme.Dark);
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/gears");
        await visit.SettleAsync();
        var notUsed = page.Locator("button.gear.not-used");
        await notUsed.Sees().ToHaveCountAsync(2);
        await notUsed.First.Sees().ToContainTextAsync("not used");
        await notUsed.First.ClickAsync();
        await page.Locator("#detail-title").Sees().ToHaveTextAsync("Gear 26/11");
        await page.Locator("#detail-title").Sees().ToBeInViewportAsync();
        await page.Locator(".gears-detail .scene svg").Sees().ToBeVisibleAsync();
        await page.Locator(".gears-detail .stamp").Sees().ToHaveTextAsync("not used");
        await page.Locator(".gears-detail").Sees().ToContainTextAsync("Chain out of line");
        await visit.PictureAsync("gear-detail");
    }

    [Fact]
    public async Task ArrowKeys_InTheTable_WalkAndEnterChooses()
    {
        await using var visit = await shop.VisitAsync(Size.Phone);
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/gears");
        await visit.SettleAsync();
        await page.Locator("button.gear.chosen").FocusAsync();
        await page.Keyboard.PressAsync("Control+Home");
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("ArrowDown");
        await page.Keyboard.PressAsync("Enter");
        await page.Locator("#detail-title").Sees().ToHaveTextAsync("Gear 36/13");
        await page.Keyboard.PressAsync("End");
        await page.Keyboard.PressAsync("Space");
        await page.Locator("#detail-title").Sees().ToHaveTextAsync("Gear 26/13");
        // One cell of the table is in the order of Tab: the one that is chosen.
        Assert.Equal(1, await page.Locator("button.gear[tabindex='0']").CountAsync());
    }

    [Fact]
    public async Task News_OfTheWorst_LeadsToItsGear()
    {
        await using var visit = await shop.VisitAsync(Size.Phone);
        var page = visit.Page;
        await visit.GoAsync("bike/demo-touring-3x9-cable/gears");
        await visit.SettleAsync();
        var first = page.Locator(".gears-news li button").First;
        var gear = (await first.TextContentAsync())!.Trim();
        await first.ClickAsync();
        await page.Locator("#detail-title").Sees().ToHaveTextAsync("Gear " + gear);
    }
}
