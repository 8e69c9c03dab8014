using System.Text;
using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>Whether parts belong together, what would, and what comes of replacing one, as a mechanic would ask.</summary>
public sealed class PartsTests(Shop shop)
{
    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Cassette_Replaced_SaysWhatComesOfItBeforeItIsFitted_AndUndoBringsTheOldOneBack(
        string size
    )
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/parts");
        await Overall(page).Sees().ToContainTextAsync("Not all can be said");
        await page.GetByRole(AriaRole.Button, new() { Name = "Choose: cassette" }).ClickAsync();
        await page.GetByLabel("Look for: cassette").FillAsync("11 42");
        await page.Locator(".part-search .part-choice").First.ClickAsync();

        var trial = page.Locator(".part-trial");
        await trial.Sees().ToContainTextAsync("Before the bike is touched");
        await trial.Sees().ToContainTextAsync("To be set again");
        await trial.Sees().ToContainTextAsync("Chain length");
        await visit.PictureAsync("parts-trial");

        var fitted = await trial.Locator("h2").TextContentAsync();
        await trial.GetByRole(AriaRole.Button, new() { Name = "Fit it" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Replace: cassette" })
            .Sees()
            .ToBeVisibleAsync();
        await page.Locator(".part-name")
            .Nth(3)
            .Sees()
            .ToContainTextAsync(fitted!.Replace("Before the bike is touched: ", ""));

        await visit.WalkToAsync(new Uri(page.Url).AbsolutePath[1..].Replace("/parts", "/spec"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).First.ClickAsync();
        await visit.WalkToAsync(new Uri(page.Url).AbsolutePath[1..].Replace("/spec", "/parts"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Choose: cassette" })
            .Sees()
            .ToBeVisibleAsync();
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task Options_AskedFor_AreListedBestFirstAndLeadToWhatComesOfThem(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size), ColorScheme.Dark);
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/parts");
        var ask = page.Locator(".part-options");
        await ask.GetByLabel("cassette", new() { Exact = true }).CheckAsync();
        await ask.GetByLabel("chain", new() { Exact = true }).CheckAsync();
        await ask.GetByRole(AriaRole.Button, new() { Name = "Look for parts that work" })
            .ClickAsync();
        await ask.Locator(".option-list > li").First.Sees().ToBeVisibleAsync();
        await ask.Sees().ToContainTextAsync("combinations; the rules leave");
        await visit.PictureAsync("parts-options");
        await ask.GetByRole(AriaRole.Button, new() { Name = "See what comes of it" })
            .First.ClickAsync();
        await page.Locator(".part-trial h2")
            .Sees()
            .ToContainTextAsync("Before the bike is touched");
    }

    /// <summary>A "no" that a head mechanic answers for stays with the bike, and goes when the parts are others.</summary>
    [Fact]
    public async Task No_AcceptedWithAReason_StandsWithTheNameUntilThePartsAreOthers()
    {
        await using var visit = await shop.VisitAsync(Size.Phone);
        var page = visit.Page;
        await visit.GoAsync($"bike/{Routes.Bike}/parts");
        await FitAsync(page, "cassette", "12 10-51");
        var no = page.Locator(".rule.no", new() { HasText = "Positions of the rear shifter" });
        await no.GetByRole(AriaRole.Button, new() { Name = "Why" }).ClickAsync();
        var accept = no.GetByRole(AriaRole.Button, new() { Name = "Accept it" });
        await accept.Sees().ToBeDisabledAsync();
        await no.GetByLabel("Reason").FillAsync("three cogs stay unused");
        await no.GetByLabel("Who answers for it").FillAsync("Invented Head");
        await accept.ClickAsync();
        await page.GetByText("Accepted by Invented Head: three cogs stay unused")
            .Sees()
            .ToBeVisibleAsync();
        await visit.PictureAsync("parts-accepted");

        await FitAsync(page, "cassette", "11 11-42");
        await page.GetByText("No longer accepted").Sees().ToBeVisibleAsync();
    }

    [Theory]
    [MemberData(nameof(Size.Both), MemberType = typeof(Size))]
    public async Task File_WithABadRow_IsPreviewedAndItsGoodPartsAreStored(string size)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size));
        var page = visit.Page;
        await visit.GoAsync("parts");
        await page.Locator(".part-choice").First.Sees().ToBeVisibleAsync();
        var id = $"invented-{Guid.NewGuid():N}";
        await page.GetByLabel("File of parts")
            .SetInputFilesAsync(
                new FilePayload
                {
                    Name = "parts.csv",
                    MimeType = "text/csv",
                    Buffer = Encoding.UTF8.GetBytes(
                        $"id,kind,name,speeds,width\n{id},chain,Invented chain {id},11,5.6\nbad-one,chain,Bad,many,5.6\n"
                    ),
                }
            );
        await page.GetByText("1 new, 0 changed, 0 as they are, 1 bad.").Sees().ToBeVisibleAsync();
        await page.GetByText("Line 3").Sees().ToBeVisibleAsync();
        await visit.PictureAsync("parts-preview");
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 1 parts" }).ClickAsync();
        await page.GetByText("Stored in the shop's library.").Sees().ToBeVisibleAsync();
        await page.GetByLabel("Name, maker or interface").FillAsync(id);
        await page.Locator(".part-choice").Sees().ToHaveCountAsync(1);
    }

    private static ILocator Overall(IPage page) => page.Locator("main > .verdict").First;

    private static async Task FitAsync(IPage page, string kind, string words)
    {
        await page.GetByRole(
                AriaRole.Button,
                new() { NameRegex = new($"^(Choose|Replace): {kind}$") }
            )
            .ClickAsync();
        await page.GetByLabel($"Look for: {kind}").FillAsync(words);
        await page.Locator(".part-search .part-choice").First.ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Fit it" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = $"Replace: {kind}" })
            .Sees()
            .ToBeVisibleAsync();
    }
}
