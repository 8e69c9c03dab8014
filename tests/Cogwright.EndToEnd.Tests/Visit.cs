using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>One person at one browser, in which nothing is stored yet.</summary>
public sealed class Visit : IAsyncDisposable
{
    /// <summary>WCAG 2.2, levels A and AA (W3C Recommendation), as far as axe can tell.</summary>
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = new()
        {
            Type = "tag",
            Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
        },
    };

    private readonly Shop shop;
    private readonly Size size;
    private readonly ColorScheme scheme;
    private readonly IBrowserContext context;
    private readonly ContextKind? kind;
    private readonly List<string> errors = [];

    private Visit(
        Shop shop,
        Size size,
        ColorScheme scheme,
        IBrowserContext context,
        ContextKind? kind,
        IPage page
    )
    {
        this.kind = kind;
        this.shop = shop;
        this.size = size;
        this.scheme = scheme;
        this.context = context;
        Page = page;
        page.PageError += (_, error) => errors.Add(error);
        page.Console += (_, said) =>
        {
            if (said.Type == "error")
            {
                errors.Add(said.Text);
            }
        };
    }

    /// <summary>The page.</summary>
    public IPage Page { get; }

    /// <summary>The browser's storage and its other pages.</summary>
    public IBrowserContext Context => context;

    /// <summary>What went wrong on the page so far; tests that cause errors on purpose clear it.</summary>
    public IList<string> Errors => errors;

    internal static async Task<Visit> BeginAsync(
        Shop shop,
        Size size,
        ColorScheme scheme,
        bool isFirst
    )
    {
        var kind = new ContextKind(size.Width, size.Height, scheme, size == Size.Phone, true);
        var context = isFirst ? await kind.NewAsync(shop.Browser) : await shop.Warm.TakeAsync(kind);
        return new(
            shop,
            size,
            scheme,
            context,
            isFirst ? null : kind,
            await context.NewPageAsync()
        );
    }

    /// <summary>Goes to an address of the shop and waits until the app shows it.</summary>
    /// <param name="path">The address, without the first slash.</param>
    public async Task GoAsync(string path = "")
    {
        await Page.GotoAsync(shop.Address + path);
        var started = Page.WaitForSelectorAsync("main h1", new() { Timeout = 60_000 });
        while (!started.IsCompleted)
        {
            await Task.WhenAny(started, Task.Delay(500));
            if (
                errors.Exists(error =>
                    error.Contains("Failed to start platform", StringComparison.Ordinal)
                )
            )
            {
                // A busy machine loses one fetch in some thousands, and the program does not start. A person loads the page
                // again, and so does this; what is tested comes after.
                errors.Clear();
                await Page.ReloadAsync();
            }
        }
        await started;
    }

    /// <summary>What axe finds on the page as it is (WCAG 2.2, levels A and AA, as far as it can tell), one line for each place.</summary>
    public async Task<IEnumerable<string>> ViolationsAsync()
    {
        // The bar at the foot covers some other part at each place of the page: with all of the page in the window it covers
        // nothing but the room that is left for it. Twice the height, as the drawing grows with the window.
        var height = await Page.EvaluateAsync<int>(
            "2 * Math.max(780, document.documentElement.scrollHeight)"
        );
        await Page.SetViewportSizeAsync(size.Width, height);
        var seen = await Page.RunAxe(Rules);
        await Page.SetViewportSizeAsync(size.Width, size.Height);
        return seen.Violations.SelectMany(v =>
            v.Nodes.Select(node => $"{v.Id} ({v.Help}): {node.Html}")
        );
    }

    /// <summary>Keeps a picture of what is to be seen.</summary>
    /// <param name="name">What it shows.</param>
    /// <param name="isWhole">Whether the whole page is to be seen, or what the window shows of it.</param>
    public Task PictureAsync(string name, bool isWhole = true) =>
        Page.ScreenshotAsync(
            new()
            {
                Path = Path.Combine(
                    Shop.Pictures,
                    $"{name}-{size.Name}-{(scheme == ColorScheme.Dark ? "dark" : "light")}.png"
                ),
                FullPage = isWhole,
            }
        );

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        await Page.LooksWellAsync();
        if (kind is null)
        {
            await context.DisposeAsync();
        }
        else
        {
            await shop.Warm.GiveBackAsync(kind, context);
        }
        Assert.True(errors.Count == 0, string.Join('\n', errors));
    }
}
