using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>From the address to a first useful answer with what a mechanic has in hand.</summary>
public sealed class ShortPathTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task ShortPath_TeethOfATrailBike_AnswersWhileTypedAndPutsItOnTheStand(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "New bike" }).ClickAsync();
        await page.Locator(".answer").Sees().ToContainTextAsync("Still needed: kind of bike, ring");
        await page.GetByText("Trail", new() { Exact = true }).ClickAsync();
        await page.GetByText("Rigid", new() { Exact = true }).ClickAsync();
        await page.GetByLabel("Large", new() { Exact = true }).FillAsync("32");
        await page.GetByLabel("Smallest").FillAsync("10");
        await page.GetByLabel("Largest").FillAsync("51");
        await page.GetByLabel("How many").FillAsync("12");
        await page.Locator(".big-figures b")
            .First.Sees()
            .ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^1[12][02468]$"));
        await page.GetByLabel("Chainstay").FillAsync("17,2");
        await page.GetByText("Taken as inches: 436.9 mm").Sees().ToBeVisibleAsync();
        await visit.SettleAsync();
        await page.Locator(".answer").Sees().ToContainTextAsync("tip to tip in 32/51");
        await page.Locator(".answer").Sees().ToContainTextAsync("Capacity: 41 teeth asked");
        await page.GetByText("In between taken as 10-").Sees().ToBeVisibleAsync();
        // While the last field is typed in, the answer is still to be seen.
        var answer = (await page.Locator(".answer").BoundingBoxAsync())!;
        Assert.InRange(answer.Y, 0, Size.Named(size).Height - answer.Height);
        await visit.PictureAsync("new");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it on the stand" }).ClickAsync();
        await page.Locator(".bike-line").Sees().ToContainTextAsync("Trail 1×12");
        await page.WaitForSelectorAsync("#side-view svg");
        await page.GetByRole(AriaRole.Link, new() { Name = "Cogwright" }).ClickAsync();
        await visit.SettleAsync();
        await page.Locator(".bikes").First.Sees().ToContainTextAsync("32 × 10–51, 12 cogs");
        await page.Locator(".bikes").First.Sees().ToContainTextAsync("today");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task ShortPath_WrongFigures_SaysSoAtTheField(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size), ColorScheme.Dark);
        var page = visit.Page;
        await visit.GoAsync("new");
        await page.GetByText("Road", new() { Exact = true }).ClickAsync();
        await page.GetByText("Rigid", new() { Exact = true }).ClickAsync();
        await page.GetByLabel("Large", new() { Exact = true }).FillAsync("5o");
        await page.GetByLabel("Smallest").FillAsync("34");
        await page.GetByLabel("Largest").FillAsync("11");
        await page.GetByLabel("How many").FillAsync("12");
        await page.GetByLabel("Chainstay").FillAsync("43 in");
        await page.GetByLabel("Name or tag").FocusAsync();
        await page.Locator("#quick-ring1-error").Sees().ToContainTextAsync("from 16 to 70");
        await page.Locator("#quick-largest-error")
            .Sees()
            .ToContainTextAsync("not more than the smallest cog's 34");
        await page.Locator("#quick-chainstay-error")
            .Sees()
            .ToContainTextAsync("1092 mm is no chainstay");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it on the stand" }).ClickAsync();
        await page.GetByRole(AriaRole.Alert)
            .First.Sees()
            .ToContainTextAsync("Put right what is marked");
        await visit.PictureAsync("new-errors");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task ShortPath_CageTooShortForTheCogs_SaysTheWorstFirst(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync("new");
        await page.GetByText("Road", new() { Exact = true }).ClickAsync();
        await page.GetByText("Rigid", new() { Exact = true }).ClickAsync();
        await page.GetByLabel("Large", new() { Exact = true }).FillAsync("52");
        await page.GetByLabel("Next").FillAsync("34");
        await page.GetByLabel("Smallest").FillAsync("11");
        await page.GetByLabel("Largest").FillAsync("42");
        await page.GetByLabel("How many").FillAsync("11");
        await page.GetByLabel("Rear derailleur like").SelectOptionAsync("road-short");
        await page.Locator(".answer .news.bad")
            .Sees()
            .ToContainTextAsync("Largest cog out of reach by");
        await page.Locator(".answer-more .news.bad")
            .Last.Sees()
            .ToContainTextAsync("Cage short by");
        await visit.SettleAsync();
        await visit.PictureAsync("new-worst");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task ShortPath_SuspendedRearEnd_AsksForItsLongestPositionWithTheCautionBefore(
        string size
    )
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync("new");
        await page.GetByText("Trail", new() { Exact = true }).ClickAsync();
        await page.GetByText("Suspended", new() { Exact = true }).ClickAsync();
        await page.GetByLabel("Large", new() { Exact = true }).FillAsync("32");
        await page.GetByLabel("Smallest").FillAsync("10");
        await page.GetByLabel("Largest").FillAsync("51");
        await page.GetByLabel("How many").FillAsync("12");
        await page.Locator(".answer")
            .Sees()
            .ToContainTextAsync("Still needed: bottom bracket to rear axle at its longest");
        var caution = (await page.Locator(".quick-form .caution").BoundingBoxAsync())!;
        var field = page.GetByLabel("Bottom bracket to rear axle at its longest");
        Assert.True(caution.Y + caution.Height <= (await field.BoundingBoxAsync())!.Y);
        await field.FillAsync("465");
        await page.Locator(".answer").Sees().ToContainTextAsync("for the rear end at its longest");
        await page.Locator(".answer-more .news")
            .First.Sees()
            .ToContainTextAsync("Suspended rear end");
        await visit.SettleAsync();
        await visit.PictureAsync("new-suspended");
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it on the stand" }).ClickAsync();
        await page.Locator(".bike-line").Sees().ToContainTextAsync("chainstay at its longest");
    }

    [Fact]
    public async Task ShortPath_ByKeyboardAlone_ReachesTheStand()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        var keys = visit.Page.Keyboard;
        await visit.GoAsync();
        await visit.SettleAsync();
        await TabTo(visit, "way main");
        await keys.PressAsync("Enter");
        await visit.Page.WaitForSelectorAsync(".quick");
        await TabTo(visit, "", "kind");
        await keys.PressAsync("Space");
        await TabTo(visit, "", "rear");
        await keys.PressAsync("Space");
        foreach (
            var (field, text) in new[]
            {
                ("ring1", "40"),
                ("smallest", "11"),
                ("largest", "42"),
                ("count", "11"),
            }
        )
        {
            await TabTo(visit, "", "quick-" + field);
            await keys.TypeAsync(text);
        }
        await visit.Page.WaitForSelectorAsync(".big-figures");
        await keys.PressAsync("Enter");
        await visit.Page.WaitForSelectorAsync("#side-view svg");
        // On to the gear table: into the grid, two down, choose.
        await TabTo(visit, "", null, "/gears");
        await keys.PressAsync("Enter");
        await visit.Page.WaitForSelectorAsync(".gear-grid");
        await TabTo(visit, "gear ");
        await keys.PressAsync("Control+Home");
        await keys.PressAsync("ArrowDown");
        await keys.PressAsync("ArrowDown");
        await keys.PressAsync("Enter");
        await visit.Page.Locator("#detail-title").Sees().ToHaveTextAsync("Gear 40/14");
    }

    /// <summary>Presses Tab until what has the focus is it; on the way every element shows that it has the focus.</summary>
    private static async Task TabTo(
        Visit visit,
        string cssClass,
        string? idOrName = null,
        string? link = null
    )
    {
        for (var i = 0; i < 80; i++)
        {
            await visit.Page.Keyboard.PressAsync("Tab");
            var at = await visit.Page.EvaluateAsync<string[]>(
                """
                () => { const e = document.activeElement; const shown = e.matches('.tiles input') ? e.nextElementSibling : e;
                  return [e.className ?? '', e.id || e.getAttribute('name') || '', e.getAttribute('href') ?? '', getComputedStyle(shown).outlineStyle, e.outerHTML.slice(0, 100)]; }
                """
            );
            if (at[4].StartsWith("<body", StringComparison.Ordinal))
            {
                // Past the last element the focus goes to the browser and comes in again on top.
                continue;
            }
            Assert.True(at[3] != "none", "no focus to be seen: " + at[4]);
            if (
                idOrName is not null ? at[1] == idOrName
                : link is not null ? at[2].EndsWith(link, StringComparison.Ordinal)
                : at[0].StartsWith(cssClass, StringComparison.Ordinal)
            )
            {
                return;
            }
        }
        Assert.Fail($"Tab never reaches {cssClass}{idOrName}{link}");
    }
}
