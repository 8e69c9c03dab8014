using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>
/// What must hold on every page of <see cref="Routes.All"/>. One visit walks through all of them without loading the app again.
/// </summary>
public sealed class AccessibilityTests(Shop shop)
{
    /// <summary>Lists what is wider than its place.</summary>
    private const string Clipped = """
        () => {
          const out = [];
          if (document.documentElement.scrollWidth > innerWidth) out.push('page scrolls sideways: ' + document.documentElement.scrollWidth);
          for (const e of document.querySelectorAll('main :is(p, h1, h2, h3, b, span, a, button, label, dt, dd, li, summary), nav a')) {
            if (e.closest('svg, .unseen, .wide-table, .plot-place')) continue;
            const style = getComputedStyle(e);
            if (style.overflowX === 'hidden' && e.scrollWidth > e.clientWidth + 1) out.push('cut: ' + e.outerHTML.slice(0, 120));
            if (e.tagName === 'BUTTON' && (e.scrollWidth > e.clientWidth + 2 || e.scrollHeight > e.clientHeight + 2)) out.push('overflows: ' + e.outerHTML.slice(0, 120));
          }
          return out;
        }
        """;

    /// <summary>Lists controls that a thumb in a glove misses: lower than 48 px.</summary>
    private const string Small = """
        () => {
          const out = [];
          for (const e of document.querySelectorAll('button, select, input:not([type=radio]):not([type=checkbox]):not([type=range]), summary, nav a, .bikes a')) {
            const box = e.getBoundingClientRect();
            if (box.width > 0 && box.height > 0 && box.height < 47.5) out.push(Math.round(box.height) + ' px: ' + e.outerHTML.slice(0, 120));
          }
          return out;
        }
        """;

    /// <summary>Size and scheme: each of both once; all four in the long campaign.</summary>
    public static TheoryData<string, ColorScheme> Looks =>
        Shop.IsLong
            ? new()
            {
                { "phone", ColorScheme.Light },
                { "phone", ColorScheme.Dark },
                { "desk", ColorScheme.Light },
                { "desk", ColorScheme.Dark },
            }
            : new() { { "phone", ColorScheme.Light }, { "desk", ColorScheme.Dark } };

    [Theory]
    [MemberData(nameof(Looks))]
    public async Task EveryPage_CheckedWithAxe_HasNoViolation(string size, ColorScheme scheme)
    {
        await using var visit = await shop.VisitAsync(Size.Named(size), scheme);
        await WalkAsync(visit, visit.ViolationsAsync);
    }

    [Fact]
    public async Task EveryPage_WithLettersTwiceAsLarge_LosesNothing()
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        await WalkAsync(
            visit,
            async () =>
            {
                await visit.Page.EvaluateAsync("document.documentElement.style.fontSize = '200%'");
                return await visit.Page.EvaluateAsync<string[]>(Clipped);
            }
        );
    }

    [Fact]
    public async Task EveryPage_OnAPhone_DoesNotScrollSidewaysAndHasLargeTargets()
    {
        await using var visit = await shop.VisitAsync(Size.Phone);
        await WalkAsync(
            visit,
            async () =>
                [
                    .. await visit.Page.EvaluateAsync<string[]>(Clipped),
                    .. await visit.Page.EvaluateAsync<string[]>(Small),
                ]
        );
    }

    /// <summary>Walks through all pages and fails with everything that was found, each with its page.</summary>
    private static async Task WalkAsync(Visit visit, Func<Task<IEnumerable<string>>> look)
    {
        var found = new List<string>();
        await visit.GoAsync();
        foreach (var route in Routes.All)
        {
            await visit.WalkToAsync(route);
            await visit.SettleAsync();
            found.AddRange((await look()).Select(what => $"/{route}: {what}"));
        }
        Assert.True(found.Count == 0, string.Join('\n', found));
    }
}
