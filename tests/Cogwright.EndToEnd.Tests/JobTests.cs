using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>A job at the stand, from the bike that comes in to the one that goes out.</summary>
public sealed partial class JobTests(Shop shop)
{
    private const string Bike = "demo-road-2x12-wireless";

    /// <summary>
    /// A whole wireless installation with the server gone: every step, a knock in the middle of it, a chain replaced after it, and
    /// back to all good.
    /// </summary>
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Installation_WithAKnockAndAReplacedChain_WithoutTheServer(string size)
    {
        // Each size in another light: both are seen once.
        await using var visit = await shop.VisitAsync(
            Size.Named(size),
            size == Size.Desk.Name ? ColorScheme.Dark : ColorScheme.Light
        );
        try
        {
            await InstallAsync(visit);
        }
        finally
        {
            // The browser says on its console what did not arrive, and nothing else may stand there.
            Assert.All(visit.Errors, error => Assert.Contains("Failed to load resource", error));
            visit.Errors.Clear();
        }
    }

    private static async Task InstallAsync(Visit visit)
    {
        var page = visit.Page;
        await visit.GoAsync($"bike/{Bike}/job");
        await visit.Context.RouteAsync("**/api/**", route => route.AbortAsync());
        await TakeInAsync(visit);
        await BeginAsync(page, "Install two rings and twelve cogs, wireless");
        await visit.PictureAsync("job-step");

        // A step that is not its turn yet says why, and leads to the one that comes first.
        await page.GetByRole(AriaRole.Button, new() { Name = "All steps" }).ClickAsync();
        await page.Locator(".steps button")
            .Filter(new() { HasText = "Shift to the largest cog" })
            .First.ClickAsync();
        await Expect(page.Locator(".blocked")).ToContainTextAsync("The inboard stop was proven");
        await visit.PictureAsync("job-blocked");
        await page.GetByRole(AriaRole.Button, new() { Name = "To the next open step" })
            .ClickAsync();

        await WalkAsync(page, until: "Set the pulley-to-cog gap");
        await Expect(page.Locator(".job-line")).ToContainTextAsync("Last verified");
        await visit.PictureAsync("job-gap");

        // A reading outside is judged at once and becomes a correction.
        await ReadAsync(page, "15,2");
        await Expect(page.Locator(".came")).ToContainTextAsync("outside");
        await Expect(page.Locator(".to-do li").First).ToContainTextAsync("turn");
        await visit.PictureAsync("job-correction");

        // The bike is knocked: what that voids comes first again.
        await HappenedAsync(page, "fell, was knocked");
        await Expect(page.Locator(".way-back")).ToContainTextAsync("Read the hanger");
        await visit.PictureAsync("job-knock");
        await page.ReloadAsync();
        await Expect(page.Locator(".way-back")).ToContainTextAsync("Read the hanger");
        await WalkAsync(page, until: "Shift through every gear in use, up");
        await TryWithAFaultAsync(visit);
        await WalkAsync(page, until: null);
        await Expect(page.Locator(".way-back")).ToHaveCountAsync(0);

        await HappenedAsync(page, "The chain was replaced.");
        await Expect(page.Locator(".way-back")).ToContainTextAsync("Cut the chain");
        await page.Locator(".way-back details").First.Locator("summary").ClickAsync();
        await Expect(page.Locator(".way-back .why").First)
            .ToContainTextAsync("The chain was replaced.");
        await visit.PictureAsync("job-chain-replaced");
        await OpenAsync(page, "Handover");
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Hand the bike over" }))
            .ToBeDisabledAsync();
        await WalkAsync(page, until: null);

        await Expect(page.GetByText("Everything was done, is as it should be")).ToBeVisibleAsync();
        await visit.PictureAsync("job-handover");
        await page.GetByRole(AriaRole.Button, new() { Name = "Hand the bike over" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("No job is open on this bike");
        await Expect(page.Locator(".aftercare"))
            .ToContainTextAsync("The rider was asked to come on 20");
        await page.GetByRole(AriaRole.Link, new() { Name = "Fit a whole drivetrain" }).ClickAsync();
        var record = page.Locator(".record");
        await Expect(record).ToContainTextAsync("handed over");
        await Expect(record).ToContainTextAsync("Do not use these gears (ring / cog): 50 / 34");
        await Expect(record).ToContainTextAsync("The chain was replaced.");
        await Expect(record.Locator(".proof").Nth(1)).ToContainTextAsync(Digests());
        await Expect(page.GetByText("The PDF with its proof is made by the shop's server"))
            .ToBeVisibleAsync();
        await visit.PictureAsync("record");
        var bike = new Uri(page.Url).AbsolutePath.TrimStart('/');
        Assert.Empty(await visit.ViolationsAsync());

        await visit.Context.UnrouteAsync("**/api/**");
        await visit.WalkToAsync("storage");
        await page.GetByRole(AriaRole.Button, new() { Name = "Try now" }).ClickAsync();
        await page.GetByText("All sent").First.Sees().ToBeVisibleAsync();
        await RecordAsync(visit, bike);
    }

    /// <summary>With the server there: countersigned, as a PDF, added to without a change of what was handed over; the passport.</summary>
    private static async Task RecordAsync(Visit visit, string bike)
    {
        var page = visit.Page;
        await visit.WalkToAsync(bike);
        var record = page.Locator(".record");
        await Expect(record).ToContainTextAsync("Countersigned by the shop's server");
        await Expect(record.Locator(".record-code img")).ToBeVisibleAsync();
        var first = await record.Locator("section").First.InnerTextAsync();
        var download = await page.RunAndWaitForDownloadAsync(() =>
            page.GetByRole(AriaRole.Link, new() { Name = "PDF with its proof" }).ClickAsync()
        );
        var bytes = await File.ReadAllBytesAsync(await download.PathAsync());
        Assert.True(bytes.AsSpan().StartsWith("%PDF"u8));

        await page.GetByText("Add to the record").ClickAsync();
        await page.GetByLabel("What is added").FillAsync("The serial number was misread.");
        await page.GetByLabel("Your sign").FillAsync("CD");
        Assert.Empty(await visit.ViolationsAsync());
        await page.GetByRole(AriaRole.Button, new() { Name = "Add it" }).ClickAsync();
        await Expect(record).ToContainTextAsync(new Regex("CD: The serial number was misread\\."));
        Assert.Equal(first, await record.Locator("section").First.InnerTextAsync());
        await visit.PictureAsync("record-amended");

        await page.GetByRole(AriaRole.Link, new() { Name = "Passport of the bike" }).ClickAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("Passport of the bike");
        await Expect(page.Locator(".passport-job")).ToHaveTextAsync("Fit a whole drivetrain");
        await visit.PictureAsync("passport");
        Assert.Empty(await visit.ViolationsAsync());
    }

    [Fact]
    public async Task HardHazard_IsConfirmedBeforeTheStepCanBeDone_WithKeysAlone()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        var page = visit.Page;
        await visit.GoAsync($"bike/{Bike}/job");
        await TakeInAsync(visit);
        await BeginAsync(page, "Install two rings and twelve cogs, wireless");

        var done = page.GetByRole(AriaRole.Button, new() { Name = "Done", Exact = true });
        await Expect(done).ToBeDisabledAsync();
        await page.Locator(".step .confirm input").First.FocusAsync();
        await page.Keyboard.PressAsync("Space");
        await Expect(done).ToBeEnabledAsync();
        await done.FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".step h2")).ToHaveTextAsync("Tighten the cassette lockring");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Procedure_CopiedAndChanged_IsCheckedAsItIsWritten_AndTriedOnABike(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync("procedures");
        await page.GetByRole(
                AriaRole.Button,
                new() { Name = "Take a copy of Install two rings and twelve cogs, wireless" }
            )
            .ClickAsync();
        var text = page.Locator("#procedure-text");
        var file = await text.InputValueAsync();
        await Expect(page.GetByText("Nothing to mend")).ToBeVisibleAsync();

        // The guard of a dangerous act left out.
        await PasteAsync(
            text,
            file.Replace(
                "blockedUntil: [drive-battery-out, inboard-stop-proven-by-hand, hanger-read, chain-joint-loaded]",
                "blockedUntil: [drive-battery-out, hanger-read, chain-joint-loaded]",
                StringComparison.Ordinal
            )
        );
        var fault = page.Locator(".procedure-faults button").First;
        await Expect(fault).ToContainTextAsync("is not blocked until inboard-stop-proven-by-hand");
        await visit.PictureAsync("procedure-fault", isWhole: false);
        Assert.Empty(await visit.ViolationsAsync());
        await fault.ClickAsync();
        await Expect(text).ToBeFocusedAsync();

        // Left and come back to: nothing that was typed is lost.
        await page.ReloadAsync();
        await page.GetByRole(
                AriaRole.Button,
                new() { Name = "Take a copy of Install two rings and twelve cogs, wireless" }
            )
            .ClickAsync();
        await Expect(page.GetByText("This is what you were writing")).ToBeVisibleAsync();
        await Expect(text)
            .ToHaveValueAsync(
                new System.Text.RegularExpressions.Regex(
                    @"blockedUntil: \[drive-battery-out, hanger-read, chain-joint-loaded\]"
                )
            );

        await PasteAsync(
            text,
            file.Replace(
                "title: Install two rings and twelve cogs, wireless",
                "title: Our own way",
                StringComparison.Ordinal
            )
        );
        await Expect(page.GetByText("Nothing to mend")).ToBeVisibleAsync();
        await page.GetByLabel("Tried on").SelectOptionAsync(Bike);
        await Expect(page.Locator(".procedure-preview")).ToContainTextAsync("N·m");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(page.GetByText("Our own way")).ToBeVisibleAsync();
        await page.ReloadAsync();
        await Expect(page.GetByText("Our own way")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Gauge_WhoseCalibrationRanOut_SaysSo()
    {
        await using var visit = await shop.VisitAsync(Size.Phone);
        var page = visit.Page;
        await visit.GoAsync("gauges");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a gauge" }).ClickAsync();
        await page.GetByLabel("What it is called").FillAsync("caliper 2");
        await page.GetByLabel("Standard uncertainty").FillAsync("0,0x");
        await Expect(page.GetByText("is no number")).ToBeVisibleAsync();
        await page.GetByLabel("Standard uncertainty").FillAsync("0,02");
        await page.GetByLabel("Day of its last calibration").FillAsync("2020-03-01");
        await page.GetByLabel("Months that a calibration serves").FillAsync("12");
        await visit.PictureAsync("gauges");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(page.GetByText("2020-03-01, ran out on 2021-03-01")).ToBeVisibleAsync();
    }

    private static async Task TakeInAsync(Visit visit)
    {
        var page = visit.Page;
        await page.GetByLabel("What is to be done").FillAsync("Fit a whole drivetrain");
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the bike in" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "On to compatibility" }))
            .ToBeDisabledAsync();
        await page.GetByLabel("Complaint: in which gear").FillAsync("largest cog");
        await page.GetByLabel("What you found").FillAsync("Hanger straight to the eye, cogs new");
        await page.GetByLabel("Good to work on").CheckAsync();
        await visit.PictureAsync("job-intake");
        await page.GetByRole(AriaRole.Button, new() { Name = "On to compatibility" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "On to the targets" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "On to the set-up" }).ClickAsync();
    }

    private static async Task BeginAsync(IPage page, string procedure)
    {
        await page.GetByLabel("Procedure", new() { Exact = true }).SelectOptionAsync(procedure);
        var begin = page.GetByRole(AriaRole.Button, new() { Name = "Begin", Exact = true });
        await Expect(begin).ToBeDisabledAsync();
        foreach (var box in await page.Locator(".begin .confirm input").AllAsync())
        {
            await box.CheckAsync();
        }
        await begin.ClickAsync();
        await Expect(page.Locator(".step h2")).ToBeVisibleAsync();
    }

    private static async Task OpenAsync(IPage page, string what)
    {
        var heading = page.Locator(".disclosure button").Filter(new() { HasText = what }).First;
        if (await heading.GetAttributeAsync("aria-expanded") != "true")
        {
            await heading.ClickAsync();
        }
    }

    private static async Task HappenedAsync(IPage page, string what)
    {
        await OpenAsync(page, "Something happened");
        var option = page.Locator(".happened option").Filter(new() { HasText = what });
        await page.GetByLabel("What happened")
            .SelectOptionAsync((await option.GetAttributeAsync("value"))!);
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it down" }).ClickAsync();
    }

    private static async Task ReadAsync(IPage page, string text)
    {
        await ConfirmAsync(page);
        await page.Locator("#reading").FocusAsync();
        await page.Locator("#reading").PressSequentiallyAsync(text);
        await page.Keyboard.PressAsync("Enter");
    }

    private static async Task ConfirmAsync(IPage page)
    {
        foreach (var box in await page.Locator(".step .confirm input").AllAsync())
        {
            await box.CheckAsync();
        }
    }

    /// <summary>Does one step after the other, always well, until a step with that action stands there or nothing is left.</summary>
    private static async Task WalkAsync(IPage page, string? until)
    {
        for (var left = 120; ; left--)
        {
            Assert.True(left > 0, "The job has no end.");
            var next = page.GetByRole(AriaRole.Button, new() { Name = "To the next open step" });
            if (await next.CountAsync() > 0)
            {
                await next.ClickAsync();
            }
            var heading = page.Locator(".step h2");
            var action = await heading.InnerTextAsync();
            if (until is not null && action.StartsWith(until, StringComparison.Ordinal))
            {
                return;
            }
            if (
                !(await page.Locator(".job-line").InnerTextAsync()).Contains(
                    "Next",
                    StringComparison.Ordinal
                )
            )
            {
                Assert.Null(until);
                return;
            }
            var entries = await page.Locator(".step").GetAttributeAsync("data-facts");
            await ConfirmAsync(page);
            if (await page.Locator("#reading").CountAsync() > 0)
            {
                await ReadAsync(page, await AimAsync(page));
            }
            else
            {
                if (await page.Locator(".test").CountAsync() > 0)
                {
                    await TryAllAsync(page);
                }
                await page.Locator(".step-keys .main").ClickAsync();
            }
            await Expect(page.Locator(".step")).Not.ToHaveAttributeAsync("data-facts", entries!);
            await Expect(page.Locator(".job-line"))
                .Not.ToHaveAttributeAsync("data-facts", entries!);
        }
    }

    /// <summary>Tries every gear that is left in a pass of the test: the first alone, then the others.</summary>
    private static async Task TryAllAsync(IPage page)
    {
        var over = page.Locator(".step-keys .main");
        if (await page.Locator(".test .rest").CountAsync() > 0)
        {
            await page.Locator(".gear-keys .main").ClickAsync();
            await Expect(over).ToBeDisabledAsync();
            await page.Locator(".test .rest").ClickAsync();
        }
        await Expect(over).ToHaveTextAsync("The pass is over: as it should be");
    }

    /// <summary>One gear rasps, which the model does not expect; it is mended and tried once more.</summary>
    private static async Task TryWithAFaultAsync(Visit visit)
    {
        var page = visit.Page;
        var over = page.Locator(".step-keys .main");
        await ConfirmAsync(page);
        await visit.PictureAsync("job-test");
        await page.GetByRole(AriaRole.Button, new() { Name = "Something is the matter" })
            .ClickAsync();
        await page.GetByLabel("Rasps or ticks.").CheckAsync();
        await visit.PictureAsync("job-test-symptoms");
        await page.Locator(".test-gear .main").ClickAsync();
        await page.Locator(".test .rest").ClickAsync();
        await Expect(over).ToHaveTextAsync("The pass is over: not as it should be");
        await visit.PictureAsync("job-test-wrong");
        Assert.Empty(await visit.ViolationsAsync());
        await page.Locator(".test-map .found-notexpected").ClickAsync();
        await Expect(page.Locator(".test-gear")).ToContainTextAsync("find the cause");
        await page.Locator(".gear-keys .main").ClickAsync();
        await Expect(over).ToHaveTextAsync("The pass is over: as it should be");
    }

    /// <summary>Puts a text in at once, as pasting does; to fill it in would type every line by itself.</summary>
    private static async Task PasteAsync(ILocator area, string text) =>
        await area.EvaluateAsync(
            "(area, text) => { area.value = text; area.dispatchEvent(new Event('input', { bubbles: true })); }",
            text
        );

    /// <summary>The middle of what the step asks for.</summary>
    private static async Task<string> AimAsync(IPage page)
    {
        var numbers = Numbers()
            .Matches(await page.Locator(".step .aim").Last.InnerTextAsync())
            .Select(match =>
                double.Parse(match.Value, System.Globalization.CultureInfo.InvariantCulture)
            )
            .ToList();
        var text = await page.Locator(".step .aim").Last.InnerTextAsync();
        return (
            text.Contains("at least", StringComparison.OrdinalIgnoreCase) ? numbers[0] * 1.5
            : numbers.Count > 1 ? numbers.Average()
            : text.Contains("most", StringComparison.OrdinalIgnoreCase) ? numbers[0] / 4
            : numbers[0]
        ).ToString("0.##", System.Globalization.CultureInfo.InvariantCulture);
    }

    [GeneratedRegex("[0-9a-f]{64}")]
    private static partial Regex Digests();

    [GeneratedRegex(@"\d+(\.\d+)?")]
    private static partial Regex Numbers();
}
