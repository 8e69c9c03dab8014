using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>The bench with a caliper that types: digits in one burst, then Enter.</summary>
public sealed class MeasureTests(Shop shop)
{
    private const string Bench = "bike/demo-road-2x12-wireless/measure";

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Bursts_IntoTheArmedField_AreTakenOneDistanceAfterTheOther(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await OpenAsync(visit);
        await Expect(page.Locator(".bench h2"))
            .ToContainTextAsync("Rear axle to bottom-bracket axis");
        await Expect(page.Locator(".arm")).ToContainTextAsync("Not ready");
        await page.Locator("#reading").FocusAsync();
        await Expect(page.Locator(".arm")).ToContainTextAsync("Ready");
        await visit.PictureAsync("measure-armed");
        await Burst(page, "411.5");
        await Expect(page.Locator(".bench h2")).ToContainTextAsync("Rear axle to hanger bolt");
        await Expect(page.Locator(".bench-state")).ToContainTextAsync("1 of ");
        // The demo bike became one of our own, and the field is still ready.
        await Expect(page.Locator(".arm")).ToContainTextAsync("Ready");
        await Burst(page, "29,1");
        await Expect(page.Locator(".bench h2"))
            .ToContainTextAsync("Hanger bolt to bottom-bracket axis");
        await Expect(page.Locator(".bench-state")).ToContainTextAsync("2 of ");
        await Expect(page.Locator(".fit")).ToContainTextAsync("The gap is known to ±");
        await Expect(page.Locator(".fit table")).ToContainTextAsync("411.5");
        await visit.PictureAsync("measure-two");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task ABurst_WhileNothingIsArmed_IsKeptAndAskedAbout(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await OpenAsync(visit);
        await Expect(page.Locator(".arm")).ToContainTextAsync("Not ready");
        // The focus on a button: its Enter must not press it.
        await page.GetByRole(AriaRole.Button, new() { Name = "Skip" }).FocusAsync();
        await Burst(page, "410.8");
        var stray = page.Locator(".stray");
        await Expect(stray).ToContainTextAsync("A reading arrived: 410.8");
        await Expect(page.Locator(".bench h2")).ToContainTextAsync("1 of ");
        await visit.PictureAsync("measure-stray");
        await stray.GetByRole(AriaRole.Button, new() { Name = "Here:" }).ClickAsync();
        await Expect(stray).ToHaveCountAsync(0);
        await Expect(page.Locator(".bench-state")).ToContainTextAsync("1 of ");
        await Expect(page.Locator(".bench h2")).ToContainTextAsync("Rear axle to hanger bolt");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task AnImpossibleReading_IsAskedAboutBeforeItIsKept(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await OpenAsync(visit);
        await page.Locator("#reading").FocusAsync();
        await Burst(page, "16.2");
        var doubt = page.Locator(".doubt");
        await Expect(doubt).ToContainTextAsync("16.2 mm was read");
        await visit.PictureAsync("measure-doubt");
        await doubt
            .GetByRole(AriaRole.Button, new() { Name = "It was inches: 411.5 mm" })
            .ClickAsync();
        await Expect(page.Locator(".bench-said")).ToContainTextAsync("411.48 mm");
        await page.GetByRole(AriaRole.Button, new() { Name = "Back" }).ClickAsync();
        // A second reading of the same distance: their mean and their spread.
        await Expect(page.Locator(".arm")).ToContainTextAsync("Ready");
        await Burst(page, "411.8");
        await page.GetByRole(AriaRole.Button, new() { Name = "Back" }).ClickAsync();
        await Expect(page.Locator("#reading-about"))
            .ToContainTextAsync("Read 2 times: 411.48, 411.8. Mean 411.64 mm, spread 0.32 mm");
    }

    [Fact]
    public async Task Readings_AfterTheReload_AreThereOneByOneWithWhatWasAskedAbout()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        var page = visit.Page;
        await OpenAsync(visit);
        await page.Locator("#reading").FocusAsync();
        await Burst(page, "411.4");
        await Expect(page.Locator(".bench-state")).ToContainTextAsync("1 of ");
        await page.WaitForURLAsync(url => !url.Contains("demo-", StringComparison.Ordinal));
        await page.GetByRole(AriaRole.Button, new() { Name = "Back" }).ClickAsync();
        await Burst(page, "411.8");
        await Expect(page.Locator(".bench h2")).ToContainTextAsync("Rear axle to hanger bolt");
        await Burst(page, "290");
        await Expect(page.Locator(".doubt")).ToContainTextAsync("290.0 mm was read");
        // An open question stays with its distance.
        await page.GetByRole(AriaRole.Button, new() { Name = "Skip" }).ClickAsync();
        await page.Locator("h1").ClickAsync();
        await Burst(page, "1/2 in");
        await Expect(page.Locator(".stray")).ToContainTextAsync("A reading arrived: 1/2 in");
        // What is seen at once is kept a moment later.
        await Expect(page.Locator(".stray")).ToHaveAttributeAsync("aria-busy", "false");

        await page.ReloadAsync();
        await Expect(page.Locator(".stray")).ToContainTextAsync("A reading arrived: 1/2 in");
        await Expect(page.Locator(".bench h2"))
            .ToContainTextAsync("Hanger bolt to bottom-bracket axis");
        await page.GetByRole(AriaRole.Button, new() { Name = "Back" }).ClickAsync();
        await Expect(page.Locator(".doubt")).ToContainTextAsync("290.0 mm was read");
        await page.GetByRole(AriaRole.Button, new() { Name = "Back" }).ClickAsync();
        await Expect(page.Locator("#reading-about"))
            .ToContainTextAsync("Read 2 times: 411.4, 411.8. Mean 411.60 mm");
    }

    [Fact]
    public async Task AReading_FromAKeyboardThatSendsNoKeys_GoesToTheDistanceItBeganWith()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        var page = visit.Page;
        await OpenAsync(visit);
        await page.Locator("#reading").FocusAsync();
        await page.Keyboard.InsertTextAsync("411.4");
        // Another distance comes up while the text stands in the field.
        await page.EvaluateAsync("document.getElementById('reading').dataset.place = 'Gap-34-50'");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".bench-said")).ToContainTextAsync("411.40 mm");
    }

    [Fact]
    public async Task ABurst_WithLetters_IsNeverMadeIntoAnotherNumber()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        var page = visit.Page;
        await OpenAsync(visit);
        await Expect(page.Locator(".arm")).ToContainTextAsync("Not ready");
        await StrayBurst(page, "12x5");
        await Expect(page.Locator(".bench-said")).ToContainTextAsync("\"12x5\" is no length");
        await Expect(page.Locator(".stray")).ToHaveCountAsync(0);
        // A letter before the figure belongs to it as well.
        await StrayBurst(page, "x12");
        await Expect(page.Locator(".bench-said")).ToContainTextAsync("\"x12\" is no length");
    }

    /// <summary>Goes to the page and waits until it listens: its ear is a module that comes after the first picture.</summary>
    private static async Task OpenAsync(Visit visit)
    {
        await visit.GoAsync(Bench);
        await visit.Page.WaitForFunctionAsync(
            "() => performance.getEntriesByType('resource').some(e => e.name.includes('/js/reading'))"
        );
        await visit.Page.EvaluateAsync("() => new Promise(heard => requestIdleCallback(heard))");
    }

    /// <summary>
    /// The same into no field at all, at one moment: a machine under test can be so busy that keys sent one by one come as
    /// far apart as readings.
    /// </summary>
    private static async Task StrayBurst(IPage page, string signs) =>
        await page.EvaluateAsync(
            """
            signs => {
              for (const key of [...signs, 'Enter'])
                (document.activeElement ?? document.body).dispatchEvent(
                  new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
            }
            """,
            signs
        );

    /// <summary>What a caliper does: all keys within a few milliseconds.</summary>
    private static async Task Burst(IPage page, string digits)
    {
        await page.Keyboard.TypeAsync(digits);
        await page.Keyboard.PressAsync("Enter");
    }
}
