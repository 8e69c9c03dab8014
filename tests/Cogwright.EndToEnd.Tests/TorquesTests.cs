using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>The walk round the bike: torques, whose figures they are, and the shop's tools for them.</summary>
public sealed class TorquesTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Torques_WithATool_AreSetAndRead_AlsoWithAnAdapter(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/targets");
        await page.GetByRole(AriaRole.Link, new() { Name = "Torques, walking round" }).ClickAsync();
        await Expect(page.GetByText("No torque tool of the shop")).ToBeVisibleAsync();

        await visit.WalkToAsync("gauges");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a gauge" }).First.ClickAsync();
        await page.GetByLabel("What it is called").FillAsync("click wrench 1");
        await page.GetByLabel("What it reads in").SelectOptionAsync("N·m");
        await page.GetByLabel("Type and class").SelectOptionAsync("IIA");
        await page.GetByLabel("Permissible deviation").FillAsync("4");
        await Expect(page.Locator(".gauge-form .error"))
            .ToContainTextAsync("needs the most that its scale shows");
        await page.GetByLabel("Most on its scale").FillAsync("60");
        await page.GetByLabel("Least on its scale").FillAsync("2");
        await page.GetByLabel("Arm").FillAsync("200");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(page.Locator(".open-jobs")).ToContainTextAsync("click wrench 1");

        await visit.WalkToAsync($"bike/{Routes.Bike}/torques");
        // 9 to 15 N·m at the first stop: the middle is set.
        var mount = page.Locator(".target").Filter(new() { HasText = "click wrench 1" }).First;
        await Expect(mount).ToContainTextAsync("Set");
        var before = await mount.Locator("ul li").First.InnerTextAsync();
        // 50 mm in line on an arm of 200 mm: the bolt gets 1.25 of what the wrench is set to.
        await page.GetByLabel("Adapter between tool and bolt").FillAsync("50");
        await Expect(mount.Locator("ul li").First).Not.ToHaveTextAsync(before);
        await page.GetByLabel("Its angle").FillAsync("200");
        await Expect(page.Locator(".error[role=alert]")).ToContainTextAsync("cannot be");
        // Set without the adapter that is there, every bolt would be too tight.
        await Expect(page.Locator(".tool")).ToHaveCountAsync(0);
        await page.GetByLabel("Its angle").FillAsync("90");
        await Expect(mount.Locator("ul li").First).ToHaveTextAsync(before);

        await mount.GetByLabel("It clicked at").First.FillAsync("19");
        await Expect(mount.GetByRole(AriaRole.Status).First).ToContainTextAsync("outside");
        // A wrench that clicks at once on a bolt that is far too tight must not call it right.
        await mount.GetByLabel("It clicked at").First.FillAsync("12");
        await Expect(mount.GetByRole(AriaRole.Status).First).ToContainTextAsync("within");
        await mount.GetByLabel("without turning").First.CheckAsync();
        await Expect(mount.GetByRole(AriaRole.Status).First)
            .ToContainTextAsync("this does not show");
        // What was read at one pedal is not told of the other.
        var pedals = page.Locator(".target")
            .Filter(new() { HasText = "Pedal" })
            .GetByLabel("It clicked at");
        await Expect(pedals).ToHaveCountAsync(2);
        await pedals.First.FillAsync("37");
        await Expect(pedals.First).ToHaveValueAsync("37");
        await Expect(pedals.Last).ToHaveValueAsync("");
        // What is printed on a part is less than what the bolt gets.
        var joint = mount.Locator(".joint");
        await joint.GetByText("Will it bear that?").ClickAsync();
        await joint.GetByLabel("The bolt is of").SelectOptionAsync("8.8");
        await Expect(joint.GetByRole(AriaRole.Status)).ToContainTextAsync("% of the proof load");
        await joint.GetByLabel("Maximum printed there").FillAsync("none");
        await Expect(joint.GetByRole(AriaRole.Alert)).ToContainTextAsync("cannot be");
        await joint.GetByLabel("Maximum printed there").FillAsync("6");
        await Expect(joint.GetByRole(AriaRole.Alert).First).ToContainTextAsync("6");
        await visit.PictureAsync("torques");
        Assert.Empty(await visit.ViolationsAsync());
    }
}
