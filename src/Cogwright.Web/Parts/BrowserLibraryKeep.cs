using Microsoft.JSInterop;

namespace Cogwright.Web.Parts;

/// <summary>The library in the browser's cache.</summary>
internal sealed class BrowserLibraryKeep(IJSRuntime js) : ILibraryKeep, IAsyncDisposable
{
    private IJSObjectReference? module;

    public async ValueTask<ShopLibrary?> KeptAsync()
    {
        try
        {
            return await (await ReadyAsync().ConfigureAwait(true))
                .InvokeAsync<ShopLibrary?>("kept")
                .ConfigureAwait(true);
        }
        catch (JSException)
        {
            // A browser that shuts its cache has nothing kept.
            return null;
        }
    }

    public async ValueTask KeepAsync(ShopLibrary library)
    {
        try
        {
            await (await ReadyAsync().ConfigureAwait(true))
                .InvokeVoidAsync("keep", library.Text, library.Mark)
                .ConfigureAwait(true);
        }
        catch (JSException)
        {
            // No room, or none allowed: the shop's server has it, and nobody entered it here.
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (module is not null)
        {
            await module.DisposeAsync().ConfigureAwait(false);
        }
    }

    private async ValueTask<IJSObjectReference> ReadyAsync() =>
        module ??= await js.InvokeAsync<IJSObjectReference>("import", "./js/library.js")
            .ConfigureAwait(true);
}
