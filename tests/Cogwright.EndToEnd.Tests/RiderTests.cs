using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Cogwright.EndToEnd.Tests;

/// <summary>The gears as the rider has them.</summary>
public sealed class RiderTests(Shop shop)
{
    private const string Road = "demo-road-2x12-wireless";

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Gears_WithAnotherTyreAndAnotherBike_AreToldOnOneScale(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/gears");
        await page.GetByRole(AriaRole.Link, new() { Name = "Gears for the rider" }).ClickAsync();
        await Expect(page.Locator(".record-table tbody tr")).ToHaveCountAsync(27);

        var tyre = page.GetByLabel("Tyre of the driven wheel");
        await tyre.FillAsync("a large one");
        await Expect(page.Locator(".error")).ToContainTextAsync("a large one");
        await tyre.FillAsync("2000mm");
        await Expect(page.GetByText("Rolled out: 2000 mm a turn")).ToBeVisibleAsync();

        // 26 teeth on 26 go as far as the wheel rolls: 2.00 m.
        var even = page.Locator(".record-table tr").Filter(new() { HasText = "26/26" });
        await Expect(even).ToContainTextAsync("2.00");
        await page.GetByLabel("Beside it").SelectOptionAsync(Routes.Sprung);
        await Expect(page.GetByText("different gears of 12")).ToBeVisibleAsync();
        await visit.PictureAsync("rider");

        await page.ReloadAsync();
        await Expect(tyre).ToHaveValueAsync("2000mm");
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Ride_TypedOrFromATrack_TellsTheSteepestMinute_AndWhatTheLibraryWouldMakeOfIt(
        string size
    )
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/development");
        await page.GetByRole(AriaRole.Button, new() { Name = "A ride in these gears" })
            .ClickAsync();
        var ride = page.GetByRole(AriaRole.Button, new() { Name = "Ride it", Exact = true });
        await ride.ClickAsync();
        await Expect(page.Locator(".error")).ToContainTextAsync("There is no road yet");

        await page.GetByLabel("The road in pieces").FillAsync("3km 5%; 500m steep");
        await ride.ClickAsync();
        await Expect(page.Locator(".error").First).ToContainTextAsync("the road as typed");
        await page.GetByLabel("The road in pieces").FillAsync("3km 5%; 500m 9%; 3km -6%");
        await ride.ClickAsync();
        await Expect(page.Locator(".error")).ToContainTextAsync("is no number");
        await page.GetByLabel("Rider, bike and luggage").FillAsync("95");
        await page.GetByLabel("Power at the pedals").FillAsync("180");
        await ride.ClickAsync();
        await Expect(page.GetByText("Steepest minute: 9.0 %")).ToBeVisibleAsync();

        await page.GetByLabel("Or a track")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "hill.gpx",
                    MimeType = "application/gpx+xml",
                    Buffer = System.Text.Encoding.UTF8.GetBytes(Hill),
                }
            );
        await Expect(page.GetByText("the hill, ")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Ride it also with the library" })
            .ClickAsync();
        // Its parts are not named: what would go with them cannot be said, and is not ridden.
        await page.GetByText("cannot be said to belong together").Sees().ToBeVisibleAsync();
        await Expect(page.GetByText("The ride: the hill")).ToBeVisibleAsync();
        Assert.Empty(await visit.ViolationsAsync());
        await visit.PictureAsync("ride");
    }

    /// <summary>33 teeth on 34 give a lower gear than 34 on 34 for the climb; 11-36 is no part of it, for the derailleur does not serve it here.</summary>
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Ride_OfABikeWhosePartsAreNamed_FindsWhichOfTheLibrarySuitBetterAndByHowMuch(
        string size
    )
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync($"bike/{Road}/development");
        await page.GetByRole(AriaRole.Button, new() { Name = "A ride in these gears" })
            .ClickAsync();
        await page.GetByLabel("The road in pieces").FillAsync("10km 1%; 4km 9%; 5km -4%");
        await page.GetByLabel("Rider, bike and luggage").FillAsync("85");
        await page.GetByLabel("Power at the pedals").FillAsync("180");
        await page.GetByRole(AriaRole.Button, new() { Name = "Ride it also with the library" })
            .ClickAsync();

        await page.GetByText("The library has 870 sets of rings and cassette")
            .Sees()
            .ToBeVisibleAsync();
        var others = page.Locator(".record-table").Filter(new() { HasText = "Beside other gears" });
        var best = others.Locator("tbody tr").Nth(1);
        await Expect(best.Locator("th")).ToContainTextAsync("Rings 46/33 + Pell 12, 11-34");
        await Expect(best).ToContainTextAsync("✓ better");
        // By how much: the figures of now in the row above, and the differences.
        await Expect(others.Locator("tbody tr").Nth(0).Locator("th"))
            .ToHaveTextAsync("as they are");
        await Expect(best.Locator("td small").Nth(1)).ToContainTextAsync("−");
        await Expect(others.Locator("tbody tr")).Not.ToHaveCountAsync(1);
        Assert.Empty(await visit.ViolationsAsync());
        await others.ScrollIntoViewIfNeededAsync();
        await visit.PictureAsync("ride-library");
    }

    /// <summary>A road to the north that rises by 6 % for some two kilometres.</summary>
    private static string Hill =>
        """<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1"><trk><name>the hill</name><trkseg>"""
        + string.Concat(
            Enumerable
                .Range(0, 100)
                .Select(i =>
                    FormattableString.Invariant(
                        $"""<trkpt lat="{46 + (i * 0.0002):F6}" lon="8.0"><ele>{500 + (i * 22.24 * 0.06):F1}</ele></trkpt>"""
                    )
                )
        )
        + "</trkseg></trk></gpx>";
}
