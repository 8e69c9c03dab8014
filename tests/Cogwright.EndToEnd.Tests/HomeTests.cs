namespace Cogwright.EndToEnd.Tests;

public sealed class HomeTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Home_FirstVisit_ShowsTheDemoBikesAndOpensOne(string size)
    {
        await using var visit = await shop.FirstVisitAsync(Size.Named(size));
        await visit.GoAsync();
        await visit.PictureAsync("home");
        await visit.Page.Locator(".demo").GetByText("Hesby road").ClickAsync();
        await visit.Page.WaitForSelectorAsync("#side-view svg");
        await Microsoft
            .Playwright.Assertions.Expect(visit.Page.Locator(".bike-line"))
            .ToContainTextAsync("Chain 110 pitches");
        await visit.PictureAsync("mechanism");
    }
}
