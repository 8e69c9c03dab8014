using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>A bike whose spec has an error is still shown, and every page of it says from when.</summary>
public sealed class SpecErrorTests(Shop shop)
{
    [Fact]
    public async Task ASpec_WithAnErrorAfterAReload_IsDrawnAsBeforeItAndEveryPageSaysSo()
    {
        await using var visit = await shop.VisitAsync(Size.Phone);
        var page = visit.Page;
        await visit.GoAsync("bike/demo-road-2x12-wireless/spec");
        var chainstay = page.Locator("#e-frame-chainstay-in");
        await chainstay.FillAsync("about 41");
        await chainstay.BlurAsync();
        var said = page.Locator("body > #app > .message");
        await Expect(said).ToContainTextAsync("from before");
        await page.WaitForURLAsync(url => !url.Contains("demo-", StringComparison.Ordinal));
        var bike = new Uri(page.Url).AbsolutePath.Split('/')[2];

        foreach (var at in new[] { "", "/gears", "/measure", "/targets" })
        {
            await visit.GoAsync($"bike/{bike}{at}");
            await Expect(said).ToContainTextAsync("from before");
            await Expect(page.Locator(".bike-line")).ToContainTextAsync("pitches");
        }
        await visit.GoAsync($"bike/{bike}");
        await page.WaitForSelectorAsync("#side-view svg");
        await visit.PictureAsync("spec-error");
        await visit.WalkToAsync("storage");
        await Expect(said).ToHaveCountAsync(0);

        await visit.WalkToAsync($"bike/{bike}/spec");
        await chainstay.FillAsync("411");
        await chainstay.BlurAsync();
        await Expect(said).ToHaveCountAsync(0);
    }
}
