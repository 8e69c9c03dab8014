using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>Waits for what a page computes after it is shown.</summary>
internal static class VisitWaits
{
    /// <summary>Waits until nothing on the page is still being computed or drawn.</summary>
    internal static async Task SettleAsync(this Visit visit)
    {
        await visit.Page.WaitForFunctionAsync(
            """
            () => !document.querySelector('.computing')
              && ![...document.querySelectorAll('.bike-gearing')].some(e => e.textContent === '…')
              && [...document.querySelectorAll('.scene, .plot-place')].every(e => e.querySelector('svg'))
            """,
            null,
            new() { Timeout = 60_000 }
        );
    }

    /// <summary>Goes to another page without loading the app again, as a link does.</summary>
    internal static async Task WalkToAsync(this Visit visit, string route)
    {
        await visit.Page.EvaluateAsync("route => Blazor.navigateTo(route || '/')", route);
        await visit.Page.WaitForFunctionAsync(
            "route => new URL(location.href).pathname === '/' + route && document.querySelector('main h1')",
            route
        );
    }

    /// <summary>The program has not said that something went wrong: what it catches itself raises no error of the page.</summary>
    internal static async Task LooksWellAsync(this IPage page)
    {
        if (!page.IsClosed)
        {
            await page.Locator("#blazor-error-ui").Sees().ToBeHiddenAsync();
        }
    }

    /// <summary>The expectation on an element.</summary>
    internal static ILocatorAssertions Sees(this ILocator locator) => Assertions.Expect(locator);
}
