using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

public sealed class PlotTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Plots_OfThreeRings_DrawALineForEachWithWordsAndTable(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size), ColorScheme.Dark);
        var page = visit.Page;
        var asked = new List<string>();
        page.Request += (_, request) => asked.Add(request.Url);
        await visit.GoAsync($"bike/{Routes.Bike}/gears");
        Assert.DoesNotContain(asked, url => url.Contains("chartist", StringComparison.Ordinal));
        await page.GetByRole(AriaRole.Link, new() { Name = "Plots" }).ClickAsync();
        await page.Locator(".plot").Sees().ToHaveCountAsync(3);
        await visit.SettleAsync();
        var gap = page.Locator(".plot").First;
        await gap.Locator(
                ".plot-place .line-0 .ct-line, .plot-place .line-1 .ct-line, .plot-place .line-2 .ct-line"
            )
            .Sees()
            .ToHaveCountAsync(3);
        await gap.Locator(".plot-place .plot-point").Sees().ToHaveCountAsync(27);
        await gap.Locator("figcaption").Sees().ToContainTextAsync("Least");
        await gap.Locator("summary").ClickAsync();
        await gap.Locator("tbody tr").Sees().ToHaveCountAsync(9);
        await visit.PictureAsync("plots");
        Assert.All(asked, url => Assert.StartsWith(shop.Address, url));
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Plots_OfSuspension_ShowGrowthOverTheTravel(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        await visit.GoAsync($"bike/{Routes.Sprung}/plots");
        await visit.SettleAsync();
        await visit.Page.GetByText("Chain growth over the travel").First.Sees().ToBeVisibleAsync();
        await visit.PictureAsync("plots-travel");
    }
}
