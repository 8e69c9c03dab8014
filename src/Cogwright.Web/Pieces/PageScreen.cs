using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Cogwright.Web;

/// <summary>What a page needs of the browser beside drawing: the arrow keys in a grid, and bringing a place into view.</summary>
public sealed class PageScreen(IJSRuntime js) : IAsyncDisposable
{
    private IJSObjectReference? module;

    /// <summary>Lets the arrow keys walk from cell to cell.</summary>
    public async ValueTask WalkAsync(ElementReference grid) =>
        await (await ReadyAsync().ConfigureAwait(true))
            .InvokeVoidAsync("walk", grid)
            .ConfigureAwait(true);

    /// <summary>Brings a place into view when it is outside.</summary>
    public async ValueTask RevealAsync(ElementReference place) =>
        await (await ReadyAsync().ConfigureAwait(true))
            .InvokeVoidAsync("reveal", place)
            .ConfigureAwait(true);

    private async ValueTask<IJSObjectReference> ReadyAsync() =>
        module ??= await js.InvokeAsync<IJSObjectReference>("import", "./js/page.js")
            .ConfigureAwait(true);

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (module is not null)
        {
            await module.DisposeAsync().ConfigureAwait(false);
        }
    }
}
