using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>WCAG 2.2 A and AA on every page, as far as axe can tell (W3C Recommendation of 2023-10-05 and later).</summary>
public sealed class AccessibilityTests(Shop shop)
{
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = new()
        {
            Type = "tag",
            Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
        },
    };

    [Theory]
    [MemberData(nameof(Routes.AtEverySizeAndScheme), MemberType = typeof(Routes))]
    public async Task Page_CheckedWithAxe_HasNoViolation(string route, string size, string scheme)
    {
        await using var visit = await shop.VisitAsync(
            Size.Named(size),
            scheme == "dark" ? ColorScheme.Dark : ColorScheme.Light
        );
        await visit.GoAsync(route);
        await visit.SettleAsync();
        var result = await visit.Page.RunAxe(Rules);
        Assert.True(
            result.Violations.Length == 0,
            string.Join(
                '\n',
                result.Violations.SelectMany(v =>
                    v.Nodes.Select(node => $"{v.Id} ({v.Help}): {node.Html}")
                )
            )
        );
    }

    [Theory]
    [MemberData(nameof(Routes.Each), MemberType = typeof(Routes))]
    public async Task Page_WithLettersTwiceAsLarge_LosesNothing(string route)
    {
        await using var visit = await shop.VisitAsync(Size.Desk);
        await visit.GoAsync(route);
        await visit.SettleAsync();
        await visit.Page.EvaluateAsync("document.documentElement.style.fontSize = '200%'");
        var clipped = await visit.Page.EvaluateAsync<string[]>(
            """
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
            """
        );
        Assert.Empty(clipped);
    }

    [Theory]
    [MemberData(nameof(Routes.Each), MemberType = typeof(Routes))]
    public async Task Page_OnAPhone_DoesNotScrollSidewaysAndHasLargeTargets(string route)
    {
        await using var visit = await shop.VisitAsync(Size.Phone);
        await visit.GoAsync(route);
        await visit.SettleAsync();
        var found = await visit.Page.EvaluateAsync<string[]>(
            """
            () => {
              const out = [];
              if (document.documentElement.scrollWidth > innerWidth) out.push('page scrolls sideways: ' + document.documentElement.scrollWidth);
              for (const e of document.querySelectorAll('button, select, input:not([type=radio]):not([type=checkbox]), summary, nav a, .bikes a')) {
                const box = e.getBoundingClientRect();
                if (box.width > 0 && box.height > 0 && box.height < 47.5) out.push(Math.round(box.height) + ' px: ' + e.outerHTML.slice(0, 120));
              }
              return out;
            }
            """
        );
        Assert.Empty(found);
    }
}
