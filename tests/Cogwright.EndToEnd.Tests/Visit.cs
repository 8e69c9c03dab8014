using Microsoft.Playwright;

namespace Cogwright.EndToEnd.Tests;

/// <summary>One person at one browser, in which nothing is stored yet.</summary>
public sealed class Visit : IAsyncDisposable
{
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

    /// <summary>Keeps a picture of what is to be seen.</summary>
    /// <param name="name">What it shows.</param>
    public Task PictureAsync(string name) =>
        Page.ScreenshotAsync(
            new()
            {
                Path = Path.Combine(
                    Shop.Pictures,
                    $"{name}-{size.Name}-{(scheme == ColorScheme.Dark ? "dark" : "light")}.png"
                ),
                FullPage = true,
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
