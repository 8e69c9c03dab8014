using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>A spec filled in, mended, taken back, saved and brought in again, by somebody who has never seen the file.</summary>
public sealed class SpecTests(Shop shop)
{
    private const string Road = "bike/demo-road-2x12-wireless/spec";

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task NewBike_FromTheEssentials_IsComputed(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Import" }).ClickAsync();
        await Fill(page, "Name of the bike", "Plover");
        await page.GetByLabel("Kind of frame").SelectOptionAsync("gravel");
        await Fill(page, "Teeth", "40");
        await Fill(page, "Cogs, smallest first", "11 13 15 17 19 21 24 28 32 37 42");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the bike" }).ClickAsync();
        // What is still missing is told at its field.
        await Expect(page.Locator("main .wrong").First).ToBeVisibleAsync();
        await page.GetByLabel("Kind of derailleur").SelectOptionAsync("gravel-long");
        await page.GetByLabel("Kind of hanger").SelectOptionAsync("road");
        await visit.PictureAsync("new-bike");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the bike" }).ClickAsync();
        await Expect(page.Locator(".bike-line")).ToContainTextAsync("Plover");
        await Expect(page.Locator(".bike-line")).ToContainTextAsync("pitches");
        await page.WaitForSelectorAsync("#side-view svg");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Field_FilledInWrong_SaysSoThereAndIsMendedAndTakenBack(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync(Road);
        var chainstay = page.Locator("#e-frame-chainstay-in");
        await Type(chainstay, "about 41");
        var field = page.Locator("#e-frame-chainstay");
        await Expect(field.GetByRole(AriaRole.Alert))
            .ToContainTextAsync("\"about 41\" cannot be read");
        await Expect(chainstay).ToHaveValueAsync("about 41");
        await visit.PictureAsync("spec-wrong");

        await Type(chainstay, "16 1/4 in");
        await Expect(field.GetByRole(AriaRole.Alert)).ToHaveCountAsync(0);
        await Expect(field).ToContainTextAsync("412.75 mm");
        var undo = page.Locator(".undo-bar button").First;
        await Expect(undo).ToContainTextAsync("Chainstay length: 16.25 in instead of about 41");
        await Type(chainstay, "421,5");
        await Expect(chainstay).ToHaveValueAsync("421.5");

        await undo.ClickAsync();
        await Expect(chainstay).ToHaveValueAsync("16.25 in");
        await page.Locator("h1").ClickAsync();
        await page.Keyboard.PressAsync("Control+z");
        await Expect(chainstay).ToHaveValueAsync("about 41");
        await page.Keyboard.PressAsync("Control+Shift+Z");
        await Expect(chainstay).ToHaveValueAsync("16.25 in");
        // In a field the keys belong to the typing.
        await chainstay.FocusAsync();
        await page.Keyboard.PressAsync("Control+z");
        await Expect(undo).ToContainTextAsync("16.25 in");
    }

    [Fact]
    public async Task Lengths_InInches_SayWhatIsHeldInMmAndTakeBareNumbersAsInches()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        var page = visit.Page;
        await visit.GoAsync(Road);
        var chainstay = page.Locator("#e-frame-chainstay-in");
        await Type(chainstay, "410");
        await page.WaitForURLAsync(url => !url.Contains("demo-", StringComparison.Ordinal));
        await page.GetByText("inch", new() { Exact = false }).First.ClickAsync();
        await Expect(chainstay).ToHaveValueAsync("410 mm");
        await Type(chainstay, "16.");
        await Expect(page.Locator("#e-frame-chainstay")).ToContainTextAsync("406.4 mm");
        await Type(chainstay, " ");
        await Expect(page.Locator("#e-frame-chainstay .unit")).ToHaveTextAsync("in");
        await visit.PictureAsync("spec-inches");
    }

    [Fact]
    public async Task ARing_Emptied_IsAskedForAndTheOtherKeepsItsPlace()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        var page = visit.Page;
        await visit.GoAsync(Road);
        var first = page.Locator("#e-rings-0-teeth-in");
        var second = page.Locator("#e-rings-1-teeth-in");
        var held = await second.InputValueAsync();
        await Type(first, "");
        await Expect(page.Locator("#e-rings-0-teeth").GetByRole(AriaRole.Alert))
            .ToContainTextAsync("is empty");
        await Expect(first).ToHaveValueAsync("");
        await Expect(second).ToHaveValueAsync(held);
        await visit.PictureAsync("spec-emptied");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task AChange_OfTheSpec_ChangesTheFiguresInTheTopLine(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync(Road);
        var line = page.Locator(".bike-line");
        await Expect(line).ToContainTextAsync("Gap");
        var before = await line.TextContentAsync();
        await Type(page.Locator("#e-frame-chainstay-in"), "450");
        await Expect(line).Not.ToHaveTextAsync(before!);
        await Expect(line).ToContainTextAsync("Gap");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task AFigure_LookedFor_IsFoundWithItsPictureAndWhereItComesFrom(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync(Road);
        await page.GetByRole(AriaRole.Searchbox).FillAsync("slant");
        var field = page.Locator("#f-rearDerailleur-slant");
        await Expect(field).ToContainTextAsync("from the class");
        await Expect(field).ToContainTextAsync("-89 to 89 °");
        await field.Locator("summary").ClickAsync();
        await Expect(field.Locator("svg")).ToBeVisibleAsync();
        await visit.PictureAsync("spec-search");
        var small = await page.EvaluateAsync<string[]>(
            """
            [...document.querySelectorAll('main button, main select, main input:not([type=checkbox]):not([type=radio]), main summary')]
              .filter(e => e.offsetParent && (e.getBoundingClientRect().height < 47.5 || e.getBoundingClientRect().width < 44))
              .map(e => e.outerHTML.slice(0, 120))
            """
        );
        Assert.Empty(small);
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task ASpec_SavedAndBroughtInAgain_IsTheSame(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync(Road);
        await page.GetByRole(AriaRole.Button, new() { Name = "Save to a file" }).ClickAsync();
        var download = await page.RunAndWaitForDownloadAsync(() =>
            page.GetByRole(AriaRole.Button, new() { Name = "Save as" }).ClickAsync()
        );
        Assert.EndsWith(".yaml", download.SuggestedFilename, StringComparison.Ordinal);
        var path = Path.Combine(Shop.Pictures, $"{size}-{download.SuggestedFilename}");
        await download.SaveAsAsync(path);
        Assert.Contains(
            "rings:",
            await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );

        await page.Locator("input[type=file]").SetInputFilesAsync(path);
        await Expect(page.Locator(".intake .right")).ToContainTextAsync("has no error");
        await visit.PictureAsync("spec-file");
        await page.GetByRole(AriaRole.Button, new() { Name = "Start a new bike" }).ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains("demo-", StringComparison.Ordinal));
        await Expect(page.Locator(".bike-line")).ToContainTextAsync("Gap");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task AFile_WithErrors_ShowsEachUnderItsLineAndChangesNothing(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync(Road);
        await page.GetByRole(AriaRole.Button, new() { Name = "Save to a file" }).ClickAsync();
        await page.GetByLabel("Or paste its text")
            .FillAsync(
                "name: Broken\nframe: {class: rode-race}\nrings: [50, 34]\ncogs: {teeth: 11-34}\n"
            );
        await page.GetByRole(AriaRole.Button, new() { Name = "Check the text" }).ClickAsync();
        var lines = page.Locator(".file-problems li");
        await Expect(lines.First).ToContainTextAsync("Line 2, column 16");
        await Expect(lines.First).ToContainTextAsync("did you mean \"road-race\"?");
        await Expect(lines.Nth(1)).ToContainTextAsync("Line 4");
        await visit.PictureAsync("spec-broken");
        await Expect(page.GetByRole(AriaRole.Button, new() { Name = "Start a new bike" }))
            .ToHaveCountAsync(0);
        await Expect(page.Locator(".undo-bar button").First).ToBeDisabledAsync();

        // A text without errors takes the place of the whole spec, and can be taken back as one change.
        await page.GetByLabel("Or paste its text")
            .FillAsync(
                "{\"name\": \"Mended\", \"frame\": {\"class\": \"city\"}, \"rings\": [42], \"cogs\": {\"teeth\": 17}}"
            );
        await page.GetByRole(AriaRole.Button, new() { Name = "Check the text" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Replace this bike" }).ClickAsync();
        await Expect(page.Locator(".bike-line")).ToContainTextAsync("Mended");
        await page.Locator(".undo-bar button").First.ClickAsync();
        await Expect(page.Locator(".bike-line")).ToContainTextAsync("Hesby");
    }

    private static Task Fill(IPage page, string label, string text) =>
        Type(page.GetByLabel(label, new() { Exact = false }).First, text);

    private static async Task Type(ILocator field, string text)
    {
        await field.FillAsync(text);
        await field.BlurAsync();
    }
}
