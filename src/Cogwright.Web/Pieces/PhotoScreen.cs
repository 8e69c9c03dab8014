using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Cogwright.Web;

/// <summary>Makes photos small enough to keep, through js/photo.js.</summary>
public sealed class PhotoScreen(IJSRuntime js) : IAsyncDisposable
{
    /// <summary>
    /// The longest side (px). A label fills a third of a picture or more, so its letters, a fiftieth of its width, keep ten pixels and
    /// stay readable.
    /// </summary>
    public const int LongestSidePx = 1600;

    // Where the edges of letters begin to fray, from common practice, with something to spare.
    private const double Quality = 0.85;

    private IJSObjectReference? module;

    /// <summary>The photo chosen in a file field, made smaller; without what the camera has written into the file.</summary>
    /// <returns>A JPEG.</returns>
    /// <exception cref="JSException">The browser cannot show it as a picture.</exception>
    public async Task<byte[]> ShrinkAsync(ElementReference field)
    {
        module ??= await js.InvokeAsync<IJSObjectReference>("import", "./js/photo.js")
            .ConfigureAwait(true);
        return await module
            .InvokeAsync<byte[]>("shrink", field, LongestSidePx, Quality)
            .ConfigureAwait(true);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (module is not null)
        {
            await module.DisposeAsync().ConfigureAwait(false);
        }
    }
}
