using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>The gears as the rider has them.</summary>
public sealed class RiderTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Gears_WithAnotherTyreAndAnotherBike_AreToldOnOneScale(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/gears");
        await page.GetByRole(AriaRole.Link, new() { Name = "Gears for the rider" }).ClickAsync();
        await Expect(page.Locator(".record-table tbody tr")).ToHaveCountAsync(27);

        var tyre = page.GetByLabel("Tyre of the driven wheel");
        await tyre.FillAsync("a large one");
        await Expect(page.Locator(".error")).ToContainTextAsync("a large one");
        await tyre.FillAsync("2000mm");
        await Expect(page.GetByText("Rolled out: 2000 mm a turn")).ToBeVisibleAsync();

        // 26 teeth on 26 go as far as the wheel rolls: 2.00 m.
        var even = page.Locator(".record-table tr").Filter(new() { HasText = "26/26" });
        await Expect(even).ToContainTextAsync("2.00");
        await page.GetByLabel("Beside it").SelectOptionAsync(Routes.Sprung);
        await Expect(page.GetByText("different gears of 12")).ToBeVisibleAsync();
        await visit.PictureAsync("rider");

        await page.ReloadAsync();
        await Expect(tyre).ToHaveValueAsync("2000mm");
    }
}
