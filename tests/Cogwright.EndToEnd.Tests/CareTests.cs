using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>Wear and care of a bike: readings by caliper without the server, forecast, what falls due, the shop's limits, a calendar.</summary>
public sealed class CareTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Care_ReadingsWithoutTheServer_BecomeForecastDueListAndCalendar(string size)
    {
        var isPhone = Size.Named(size) == Size.Phone;
        await using var visit = await shop.VisitAsync(
            Size.Named(size),
            isPhone ? ColorScheme.Dark : ColorScheme.Light
        );
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}");
        await visit.Context.RouteAsync("**/api/**", route => route.AbortAsync());
        await page.GetByRole(AriaRole.Link, new() { Name = "Care" }).ClickAsync();
        await page.GetByText("No chain is entered yet").Sees().ToBeVisibleAsync();
        await page.GetByText("WARNING: a chain that skips under load").Sees().ToBeVisibleAsync();
        Assert.Empty(await visit.ViolationsAsync());

        var fit = Form(page, "A new chain was fitted");
        await fit.GetByLabel("Counter (km)").FillAsync("1000");
        await fit.GetByLabel("Fitted on").FillAsync("2026-01-05");
        await fit.GetByLabel("New cogs").CheckAsync();
        await fit.GetByRole(AriaRole.Button).ClickAsync();
        await page.GetByText("This chain was not measured yet").Sees().ToBeVisibleAsync();

        // What is no whole number of pitches, and a play that nobody vouches for, are not kept.
        var read = Form(page, "Measure the chain");
        var fault = read.GetByRole(AriaRole.Status);
        await read.GetByLabel("Measured with").SelectOptionAsync("TwoPoint");
        await read.GetByLabel("Spot 1").FillAsync("0.3");
        await read.GetByLabel("Pitches").FillAsync("8,5");
        var keep = read.GetByRole(AriaRole.Button, new() { Name = "Keep the reading" });
        await keep.ClickAsync();
        await fault.Sees().ToContainTextAsync("Pitches are counted");
        await read.GetByLabel("Pitches").FillAsync("8");
        await read.GetByText("How sure it is").ClickAsync();
        await read.GetByLabel("Play of the rollers").FillAsync("0.16");
        await fault.Sees().ToContainTextAsync("how sure the play is");
        await read.GetByLabel("Play of the rollers").FillAsync("");
        await read.GetByLabel("Counter (km)").FillAsync("9999999");
        await fault.Sees().ToContainTextAsync("cannot stand at 9999999");
        await read.GetByLabel("Measured with").SelectOptionAsync("Ruler");
        await read.GetByLabel("Pitches").FillAsync("24");

        await ReadAsync(page, "1700", "2026-03-02", "305.15", "305,16", "305.17");
        await ReadAsync(page, "2400", "2026-05-04", "305.50", "12 1/32 in", "305.50");
        await ReadAsync(page, "3000", "2026-07-06", "305.80", "305.81", "305.79");

        // 9 cogs: 0.75 % by common practice.
        var verdict = page.Locator(".care-chain .verdict");
        await verdict.Sees().ToContainTextAsync("Within its limit of 0.75 %");
        await page.GetByText("The limit is reached at about").First.Sees().ToBeVisibleAsync();
        await page.Locator(".plot-place .line-0 .ct-line").Sees().ToHaveCountAsync(1);
        await page.GetByText("It will run, as far as").First.Sees().ToBeVisibleAsync();

        var part = Form(page, "A part that wears or runs out");
        await part.GetByLabel("Part").SelectOptionAsync("CoinCell");
        await part.GetByLabel("Where").SelectOptionAsync("Left");
        // Not yet due whenever this runs.
        var putIn = DateTime.Today.AddDays(-10);
        await part.GetByLabel("Put in on").FillAsync($"{putIn:yyyy-MM-dd}");
        await part.GetByRole(AriaRole.Button).ClickAsync();
        await page.GetByText("Replace: shifter's coin cell, left").First.Sees().ToBeVisibleAsync();
        await part.GetByLabel("Part").SelectOptionAsync("WirelessBattery");
        await part.GetByLabel("Charge (%)").FillAsync("101");
        await part.GetByRole(AriaRole.Button).ClickAsync();
        await part.GetByText("0 to 100").Sees().ToBeVisibleAsync();

        await page.GetByRole(AriaRole.Button, new() { Name = "The shop's own limits" })
            .ClickAsync();
        await page.GetByLabel("Elongation of a chain on 9 cogs").FillAsync("0.2");
        Assert.Empty(await visit.ViolationsAsync());
        await visit.PictureAsync("care");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep the limits" }).ClickAsync();
        await verdict.Sees().ToContainTextAsync("Beyond its limit of 0.2 %");

        var calendar = await page.RunAndWaitForDownloadAsync(() =>
            page.GetByRole(AriaRole.Button, new() { Name = "Reminders" }).ClickAsync()
        );
        Assert.EndsWith(".ics", calendar.SuggestedFilename, StringComparison.Ordinal);
        var text = await File.ReadAllTextAsync(
            await calendar.PathAsync(),
            TestContext.Current.CancellationToken
        );
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.Contains(
            $"DTSTART;VALUE=DATE:{putIn.AddMonths(12):yyyyMMdd}\r\n",
            text,
            StringComparison.Ordinal
        );

        await visit.Context.UnrouteAsync("**/api/**");
        // The browser says on its console what did not arrive.
        visit.Errors.Clear();
        // All of it is on the device, and a reading can be taken back.
        var kept = new Uri(page.Url).AbsolutePath[1..];
        await visit.GoAsync(kept);
        await page.GetByText("Readings of this chain: 3").ClickAsync();
        await page.GetByRole(
                AriaRole.Button,
                new() { Name = "Take back the reading of 2026-07-06" }
            )
            .ClickAsync();
        await page.GetByText("Readings of this chain: 2").Sees().ToBeVisibleAsync();
        // So can what was seen of a part, and that a chain was fitted.
        await page.GetByText("What was seen of parts: 1").ClickAsync();
        await page.GetByText("Chains that were fitted: 1").ClickAsync();
        Assert.Empty(await visit.ViolationsAsync());
        await visit.PictureAsync("care-seen");
        await page.GetByRole(
                AriaRole.Button,
                new() { Name = $"Take back: shifter's coin cell left, {putIn:yyyy-MM-dd}" }
            )
            .ClickAsync();
        await page.GetByText("Replace: shifter's coin cell, left").Sees().ToHaveCountAsync(0);
        await page.GetByRole(
                AriaRole.Button,
                new() { Name = "Take back that a chain was fitted: 2026-01-05" }
            )
            .ClickAsync();
        await page.GetByText("Chains that were fitted").Sees().ToHaveCountAsync(0);
    }

    private static ILocator Form(IPage page, string title) =>
        page.Locator("form")
            .Filter(
                new()
                {
                    Has = page.GetByRole(AriaRole.Heading, new() { Name = title, Exact = true }),
                }
            );

    private static async Task ReadAsync(
        IPage page,
        string counter,
        string day,
        params string[] spots
    )
    {
        var form = Form(page, "Measure the chain");
        await form.GetByLabel("Counter (km)").FillAsync(counter);
        await form.GetByLabel("Day").FillAsync(day);
        // As a caliper types: a value and Enter, three times, then Enter on the key.
        await form.GetByLabel("Spot 1").FocusAsync();
        foreach (var (spot, i) in spots.Select((spot, i) => (spot, i)))
        {
            await page.Keyboard.TypeAsync(spot);
            await page.Keyboard.PressAsync("Enter");
            var next =
                i + 1 < spots.Length
                    ? form.GetByLabel($"Spot {i + 2}")
                    : form.GetByRole(AriaRole.Button, new() { Name = "Keep the reading" });
            await next.Sees().ToBeFocusedAsync();
        }
        await page.Keyboard.PressAsync("Enter");
        await form.GetByLabel("Spot 1").Sees().ToHaveValueAsync("");
    }
}
