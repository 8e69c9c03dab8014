using Microsoft.JSInterop;

namespace Cogwright.Web.Device;

/// <summary>The program itself on this device: kept by the service worker so that it opens without the server, and its next version.</summary>
internal sealed class AppVersion(IJSRuntime js) : IDisposable
{
    private DotNetObjectReference<AppVersion>? self;
    private IJSObjectReference? module;

    /// <summary>Something here has changed.</summary>
    internal event Action? Changed;

    /// <summary>Whether a new version waits to be used.</summary>
    internal bool IsNewReady { get; private set; }

    /// <summary>Whether another tab has begun to use the new version: this one is to be loaded again.</summary>
    internal bool IsOld { get; private set; }

    /// <summary>Whether the program opens on this device without the server.</summary>
    internal bool OpensAlone { get; private set; }

    internal async Task BeginAsync()
    {
        module = await js.InvokeAsync<IJSObjectReference>("import", "./js/version.js")
            .ConfigureAwait(true);
        self = DotNetObjectReference.Create(this);
        await module.InvokeVoidAsync("begin", self).ConfigureAwait(true);
    }

    /// <summary>Uses the new version: the page is loaded again.</summary>
    internal async Task UseNewAsync() =>
        await module!.InvokeVoidAsync("useNew").ConfigureAwait(true);

    /// <summary>Called by js/version.js.</summary>
    [JSInvokable]
    public void Stand(bool opensAlone, bool isNewReady, bool isOld)
    {
        (OpensAlone, IsNewReady, IsOld) = (opensAlone, isNewReady, isOld);
        Changed?.Invoke();
    }

    public void Dispose() => self?.Dispose();
}
