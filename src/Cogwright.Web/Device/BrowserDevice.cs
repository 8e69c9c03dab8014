using Microsoft.JSInterop;

namespace Cogwright.Web.Device;

/// <summary>What only the browser can tell or do, through js/device.js.</summary>
internal sealed class BrowserDevice(IJSRuntime js) : ISignals, IDisposable
{
    private DotNetObjectReference<BrowserDevice>? self;
    private Task<IJSObjectReference>? module;

    public event Action? Woke;

    public event Action? Slept;

    public event Action<string>? Grown;

    public event Action? StreamEnded;

    public bool IsAwake { get; private set; } = true;

    public async ValueTask BeginAsync()
    {
        self = DotNetObjectReference.Create(this);
        IsAwake = await CallAsync<bool>("begin", self).ConfigureAwait(true);
    }

    public void Listen() => _ = TellAsync("listen");

    public void StopListening() => _ = TellAsync("stopListening");

    /// <summary>Waits until the page has nothing to do for a moment, 2 s at most.</summary>
    internal Task QuietAsync() => CallAsync<object?>("quiet");

    /// <summary>Whether the browser warns before the page is closed.</summary>
    internal Task GuardAsync(bool on) => CallAsync<object?>("guard", on);

    /// <summary>Whether the browser promised to keep what is stored; asks it first, if wanted.</summary>
    internal Task<bool> PersistAsync(bool ask) => CallAsync<bool>("persist", ask);

    /// <summary>Bytes used and bytes allowed; empty when the browser does not say.</summary>
    internal Task<double[]> RoomAsync() => CallAsync<double[]>("room");

    /// <summary>Hands a file to the person.</summary>
    internal Task DownloadAsync(string name, string text) =>
        CallAsync<object?>("download", name, text);

    /// <summary>Hands the person a text as a file of that type.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="text">Its content.</param>
    /// <param name="type">Its type, such as text/calendar.</param>
    internal Task DownloadAsync(string name, string text, string type) =>
        CallAsync<object?>("download", name, text, type);

    /// <summary>Called by js/device.js.</summary>
    [JSInvokable]
    public void Turn(bool isAwake)
    {
        IsAwake = isAwake;
        (isAwake ? Woke : Slept)?.Invoke();
    }

    /// <summary>Called by js/device.js.</summary>
    [JSInvokable]
    public void Grow(string data) => Grown?.Invoke(data);

    /// <summary>Called by js/device.js.</summary>
    [JSInvokable]
    public void EndStream() => StreamEnded?.Invoke();

    public void Dispose() => self?.Dispose();

    private async Task TellAsync(string what)
    {
        try
        {
            await CallAsync<object?>(what).ConfigureAwait(true);
        }
        catch (JSException)
        {
            // No stream: as when it breaks off.
            EndStream();
        }
    }

    private async Task<T> CallAsync<T>(string what, params object?[] values)
    {
        if (module is null or { IsFaulted: true })
        {
            // The network may have been gone when it was fetched.
            module = js.InvokeAsync<IJSObjectReference>("import", "./js/device.js").AsTask();
        }
        return await (await module.ConfigureAwait(true))
            .InvokeAsync<T>(what, values)
            .ConfigureAwait(true);
    }
}
