using System.Globalization;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>The shop at a glance: who has what, what waits, what came back; any job found by a few letters.</summary>
public sealed class OverviewTests(Shop shop)
{
    private const string Bike = "demo-road-2x12-wireless";

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Overview_OfAJobThatCameBack_ShowsIt_FindsIt_AndWithoutTheServerWhatTheDeviceKnows(
        string size
    )
    {
        await using var visit = await shop.VisitAsync(
            Size.Named(size),
            size == Size.Desk.Name ? ColorScheme.Dark : ColorScheme.Light
        );
        try
        {
            await GoThroughAsync(visit);
        }
        finally
        {
            // The browser says on its console what did not arrive, and nothing else may stand there.
            Assert.All(visit.Errors, error => Assert.Contains("Failed to load resource", error));
            visit.Errors.Clear();
        }
    }

    private static async Task GoThroughAsync(Visit visit)
    {
        var page = visit.Page;
        // Others write to the same server: the job and the person are of this test alone.
        var sign = string.Create(
            CultureInfo.InvariantCulture,
            $"Z{Random.Shared.Next(1000, 9999)}"
        );
        await visit.GoAsync($"bike/{Bike}/job");
        await page.GetByLabel("What is to be done").FillAsync($"Gears slip, grün {sign}");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the bike in" }).ClickAsync();
        await page.GetByLabel("Kind of work").SelectOptionAsync("gears");
        await page.GetByRole(AriaRole.Button, new() { Name = "It is a comeback" }).ClickAsync();
        await page.GetByLabel("Cause").SelectOptionAsync("cable-settling");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await page.GetByText("Comeback: Cable settled").Sees().ToBeVisibleAsync();
        Assert.Empty(await visit.ViolationsAsync());
        await page.GetByRole(AriaRole.Button, new() { Name = "Take it in hand" }).ClickAsync();
        await page.GetByLabel("Whose sign").FillAsync(sign);
        await page.Locator(".hands form button.main").ClickAsync();
        await Expect(page.Locator(".hands b")).ToContainTextAsync(sign);
        await visit.WalkToAsync("storage");
        await page.GetByRole(AriaRole.Button, new() { Name = "Try now" }).ClickAsync();
        await page.GetByText("All sent").First.Sees().ToBeVisibleAsync();

        await visit.WalkToAsync("");
        await page.GetByRole(AriaRole.Link, new() { Name = "Overview" }).ClickAsync();
        var person = page.Locator(".overview-standing tbody tr").Filter(new() { HasText = sign });
        await Expect(person).ToHaveCountAsync(1);
        await Expect(page.Locator(".overview-causes")).ToContainTextAsync("Cable settled");
        // Beginnings of words, accents and capitals aside.
        await page.GetByLabel("Find a bike or a job")
            .FillAsync($"GRUN {sign.ToLowerInvariant()[..4]}");
        await page.GetByText("Found: 1", new() { Exact = true }).Sees().ToBeVisibleAsync();
        var hit = page.Locator(".open-jobs").First.GetByRole(AriaRole.Link);
        await Expect(hit.First).ToContainTextAsync($"Gears slip, grün {sign}");
        await visit.PictureAsync("overview");
        Assert.Empty(await visit.ViolationsAsync());

        // The server gone.
        await visit.Context.RouteAsync("**/api/**", route => route.AbortAsync());
        await visit.WalkToAsync("");
        await page.GetByRole(AriaRole.Link, new() { Name = "Overview" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Alert).First)
            .ToContainTextAsync("The shop's server does not answer");
        await page.Locator(".open-jobs li")
            .Filter(new() { HasText = $"grün {sign}" })
            .First.Sees()
            .ToBeVisibleAsync();
        await visit.PictureAsync("overview-alone");
        Assert.Empty(await visit.ViolationsAsync());
        await visit.Context.UnrouteAsync("**/api/**");
        await visit.WalkToAsync("storage");
        await page.GetByRole(AriaRole.Button, new() { Name = "Try now" }).ClickAsync();
        await page.GetByText("All sent").First.Sees().ToBeVisibleAsync();
    }
}
