using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>The drawing as a mechanic uses it: a gear is chosen, a screw turned, the figures read, the turn kept or dropped.</summary>
public sealed class MechanismTests(Shop shop)
{
    private const string Bike = "bike/demo-road-2x12-wireless";

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Screw_TurnedHalfATurnIn_MovesTheDrawingAndTellsTheFigures(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = await OpenAsync(visit);
        await visit.PictureAsync("mechanism-at-rest");
        var gap = page.Locator("[data-figure=gap] dd");
        var before = await gap.InnerTextAsync();
        var cage = await CageAsync(page);

        await Knob(page, "screw")
            .GetByRole(AriaRole.Button, new() { Name = ": more" })
            .ClickAsync();
        await Knob(page, "screw")
            .GetByRole(AriaRole.Button, new() { Name = ": more" })
            .ClickAsync();

        await Expect(page.Locator("#knob-screw-value")).ToHaveTextAsync("½ turn in");
        await Expect(gap).ToContainTextAsync("→");
        await Expect(gap).ToContainTextAsync(before.Trim());
        await Expect(page.Locator(".said")).ToContainTextAsync("½ turn in");
        Assert.NotEqual(cage, await CageAsync(page));
        await Expect(page.Locator("#side-view svg")).ToHaveClassAsync(new Regex("has-before"));
        await visit.PictureAsync("mechanism-trial");

        await page.GetByRole(AriaRole.Button, new() { Name = "Back to the spec", Exact = true })
            .ClickAsync();
        await Expect(gap).Not.ToContainTextAsync("→");
        Assert.Equal(cage, await CageAsync(page));
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Trial_Kept_IsTheSpecFromThenOn(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = await OpenAsync(visit);
        await Knob(page, "screw")
            .GetByRole(AriaRole.Button, new() { Name = ": more" })
            .ClickAsync();
        var after = page.Locator("[data-figure=gap] dd b");
        await Expect(page.Locator(".said")).ToContainTextAsync("¼ turn in");
        var tried = await after.InnerTextAsync();

        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this in the spec" })
            .ClickAsync();

        await Expect(page.Locator(".said")).ToContainTextAsync("Kept in the spec");
        await Expect(page.Locator("[data-figure=gap] dd")).Not.ToContainTextAsync("→");
        await Expect(after).ToHaveTextAsync(tried);
        await Expect(page.Locator("#knob-screw-value")).ToHaveTextAsync("as the spec");
        await visit.PictureAsync("mechanism-kept");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Gear_ChosenByStepperAndGridAndKey_IsDrawn(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = await OpenAsync(visit);
        await page.GetByRole(AriaRole.Button, new() { Name = "Smaller cog" }).ClickAsync();
        await Expect(page.Locator(".gear-name")).ToHaveTextAsync("Ring 34 · cog 30");
        await page.GetByText("All gears").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Ring 50, cog 17", Exact = true })
            .ClickAsync();
        await Expect(page.Locator(".gear-name")).ToHaveTextAsync("Ring 50 · cog 17");
        await Expect(page.Locator("#side-view title")).ToContainTextAsync("ring 50 and cog 17");
        await visit.PictureAsync("mechanism-gear-grid");
        await page.Locator("#side-view").FocusAsync();
        await page.Keyboard.PressAsync("Shift+ArrowRight");
        await Expect(page.Locator(".gear-name")).ToHaveTextAsync("Ring 50 · cog 19");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Look_ByButtonKeyAndWheel_ComesNearer(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = await OpenAsync(visit);
        var stage = page.Locator("#side-view");
        var tools = page.Locator("[data-stage=side-view]");
        await tools.GetByRole(AriaRole.Button, new() { Name = "Whole bike" }).ClickAsync();
        await visit.PictureAsync("mechanism-whole");
        var whole = await WidthSeenAsync(page);
        await tools.GetByRole(AriaRole.Button, new() { Name = "Derailleur" }).ClickAsync();
        var close = await WidthSeenAsync(page);
        Assert.True(close < whole);
        await stage.FocusAsync();
        await page.Keyboard.PressAsync("+");
        var nearer = await WidthSeenAsync(page);
        Assert.True(nearer < close);
        await stage.HoverAsync();
        await page.Mouse.WheelAsync(0, -200);
        await page.WaitForFunctionAsync(
            "seen => +document.querySelector('#side-view svg').getAttribute('viewBox').split(' ')[2] < seen - 1",
            nearer
        );
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task HangerLean_Inboard_TakesRoomFromTheSpokes(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = await OpenAsync(visit);
        await page.GetByRole(AriaRole.Button, new() { Name = "Spokes (top view)" }).ClickAsync();
        var seen = await page.Locator("#top-view svg").InnerHTMLAsync();
        await page.Locator("#knob-lean").FocusAsync();
        for (var i = 0; i < 6; i++)
        {
            await page.Keyboard.PressAsync("ArrowRight");
        }
        await Expect(page.Locator("#knob-lean-value")).ToHaveTextAsync("3 mm: hangs inboard");
        var room = page.Locator("[data-figure=room] dd");
        await Expect(room).ToContainTextAsync("→");
        await Expect(room.Locator("b")).ToContainTextAsync("mm");
        var (before, after) = (
            await MmAsync(room.Locator(".figure-before")),
            await MmAsync(room.Locator("b"))
        );
        Assert.True(after < before, $"{before} to {after} mm");
        Assert.NotEqual(seen, await page.Locator("#top-view svg").InnerHTMLAsync());
        await visit.PictureAsync("mechanism-lean");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task HangerLean_WhereTheRoomWasMeasured_AsksToMeasureAgain(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = await OpenAsync(visit, "bike/demo-trail-1x12");
        var room = page.Locator("[data-figure=room] dd");
        await Expect(room.Locator("b")).ToHaveTextAsync("4.0 mm");
        await Knob(page, "lean").GetByRole(AriaRole.Button, new() { Name = ": more" }).ClickAsync();
        await Expect(room.Locator("b"))
            .ToHaveTextAsync("the tilt came after the measuring: measure again");
        await visit.PictureAsync("mechanism-lean-measured");
    }

    [Theory]
    [InlineData("demo-full-suspension-1x12", "travel")]
    [InlineData("demo-trail-1x12-coaxial", "body")]
    [InlineData("demo-touring-2x9-sprung", "screw")]
    [InlineData("demo-single-speed", "chain")]
    [InlineData("demo-high-pivot-idler-1x12", "travel")]
    [InlineData("demo-measured-2x12", "chain")]
    [InlineData("demo-gravel-1x13", "ring")]
    public async Task EveryKindOfBike_TriedToBothEnds_IsDrawn(string bike, string knob)
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        var page = await OpenAsync(visit, "bike/" + bike);
        var slider = page.Locator("#knob-" + knob);
        await slider.FocusAsync();
        foreach (var key in (string[])["End", "Home"])
        {
            var said = await page.Locator($"#knob-{knob}-value").InnerTextAsync();
            await page.Keyboard.PressAsync(key);
            await Expect(page.Locator($"#knob-{knob}-value")).Not.ToHaveTextAsync(said);
            await Expect(page.Locator(".said")).Not.ToBeEmptyAsync();
        }
        await visit.PictureAsync("mechanism-" + bike);
    }

    [Fact]
    public async Task Mechanism_OnADarkScreen_IsDrawnInItsColours()
    {
        await using var visit = await shop.VisitAsync(Size.Phone, ColorScheme.Dark);
        var page = await OpenAsync(visit);
        var ink = await page.EvaluateAsync<string>(
            "getComputedStyle(document.querySelector('#side-view .cw-part')).stroke"
        );
        Assert.Equal("rgb(228, 233, 236)", ink);
        await visit.PictureAsync("mechanism");
    }

    private static async Task<IPage> OpenAsync(Visit visit, string bike = Bike)
    {
        await visit.GoAsync(bike);
        await visit.Page.WaitForSelectorAsync(
            "#side-view [data-chain=pins], #top-view svg",
            new() { State = WaitForSelectorState.Attached }
        );
        return visit.Page;
    }

    private static ILocator Knob(IPage page, string key) =>
        page.Locator(".knob", new() { Has = page.Locator("#knob-" + key) });

    private static async Task<double> MmAsync(ILocator figure) =>
        double.Parse(
            (await figure.InnerTextAsync()).Split(' ')[0].Replace('−', '-'),
            System.Globalization.CultureInfo.InvariantCulture
        );

    private static async Task<string?> CageAsync(IPage page) =>
        await page.Locator("#side-view [data-part='9']").GetAttributeAsync("transform");

    private static Task<double> WidthSeenAsync(IPage page) =>
        page.EvaluateAsync<double>(
            "+document.querySelector('#side-view svg').getAttribute('viewBox').split(' ')[2]"
        );
}
