using Cogwright.Drawing;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Cogwright.Web;

/// <summary>Puts scenes on the screen, past the renderer: one string a frame, one assignment in the browser.</summary>
public sealed class SceneScreen(IJSRuntime js) : IAsyncDisposable
{
    private IJSInProcessObjectReference? module;

    /// <summary>Loads what it needs; to be awaited once before <see cref="Show"/>.</summary>
    public async ValueTask ReadyAsync() =>
        module ??= await js.InvokeAsync<IJSInProcessObjectReference>("import", "./js/scene.js")
            .ConfigureAwait(true);

    /// <summary>Shows a scene in an element, in place of what it showed.</summary>
    public void Show(ElementReference place, Scene scene) =>
        module!.InvokeVoid("show", place, SvgWriter.Write(scene, Options));

    private static SvgOptions Options { get; } = new() { FillsWidth = true };

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (module is not null)
        {
            await module.DisposeAsync().ConfigureAwait(false);
        }
    }
}
