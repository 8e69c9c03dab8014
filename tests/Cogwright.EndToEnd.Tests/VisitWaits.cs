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

    /// <summary>The expectation on an element.</summary>
    internal static ILocatorAssertions Sees(this ILocator locator) => Assertions.Expect(locator);
}
