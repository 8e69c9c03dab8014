using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

public sealed class TargetTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Targets_OfABike_StandInTheOrderOfWorkWithCautionsFirst(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync("bike/demo-road-2x12-wireless/targets");
        await page.Locator(".target").First.Sees().ToBeVisibleAsync();
        var gap = page.Locator(".target")
            .Filter(new() { HasText = "tooth tip to tooth tip" })
            .First;
        await gap.Locator(".aim b").Sees().ToHaveTextAsync("6 to 8");
        var late = await page.EvaluateAsync<int>(
            "[...document.querySelectorAll('.target .caution')].filter(c => !(c.compareDocumentPosition(c.parentElement.querySelector('h3')) & Node.DOCUMENT_POSITION_FOLLOWING)).length"
        );
        Assert.Equal(0, late);
        // Read from a step away.
        var letters = await gap.Locator(".aim b")
            .EvaluateAsync<double>("e => parseFloat(getComputedStyle(e).fontSize)");
        Assert.True(letters >= 40, $"{letters} px");
        await NothingIsCutOffAsync(page);
        await visit.PictureAsync("targets");
        await gap.Locator("a.see").ClickAsync();
        await page.WaitForSelectorAsync("#side-view svg");
        Assert.EndsWith("bike/demo-road-2x12-wireless", page.Url, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Targets_Printed_LeaveOutWhatPaperCannotUse()
    {
        await using var visit = await shop.VisitAsync(Size.Desk, ColorScheme.Dark);
        var page = visit.Page;
        await visit.GoAsync("bike/demo-road-2x12-wireless/targets");
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await page.Locator("nav.rooms").Sees().ToBeHiddenAsync();
        await page.Locator(".target").First.Sees().ToBeVisibleAsync();
        Assert.Equal(
            "rgb(255, 255, 255)",
            await page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor")
        );
        // The cautions are folded on the screen; on paper every one of them stands, and none twice.
        foreach (
            var caution in (string[])
                [
                    "Follow the component maker's instructions",
                    "Work on brakes, steering and drivetrain can injure",
                    "Battery out before you work",
                    "Eye protection when you cut a chain",
                    "Fingers, rags and gloves away from a turning chain",
                ]
        )
        {
            Assert.Equal(
                1,
                await page.GetByText(caution)
                    .EvaluateAllAsync<int>(
                        "all => all.filter(e => e.checkVisibility({ contentVisibilityAuto: true, visibilityProperty: true }) && e.getBoundingClientRect().height > 0).length"
                    )
            );
        }
        await NothingIsCutOffAsync(page);
        await visit.PictureAsync("targets-print");
    }

    /// <summary>Every target stands whole in its stage, and the sign of a caution is no larger than its line.</summary>
    private static async Task NothingIsCutOffAsync(IPage page)
    {
        var cut = await page.EvaluateAsync<string[]>(
            """
            () => [...document.querySelectorAll('.target')].filter(target => {
              const section = target.closest('section').getBoundingClientRect();
              const own = target.getBoundingClientRect();
              const sign = target.querySelector('.caution .sign')?.getBoundingClientRect();
              return own.height === 0 || own.bottom > section.bottom + 1 || sign?.height > 40;
            }).map(target => target.innerText.slice(0, 60))
            """
        );
        Assert.Empty(cut);
    }
}
