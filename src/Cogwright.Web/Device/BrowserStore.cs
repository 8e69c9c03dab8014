using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Microsoft.JSInterop;

namespace Cogwright.Web.Device;

/// <summary>The device's store in a browser: IndexedDB, Web Locks and BroadcastChannel, through js/store.js.</summary>
internal sealed class BrowserStore(IJSRuntime js) : IDeviceStore, IDisposable
{
    private DotNetObjectReference<BrowserStore>? self;
    private IJSObjectReference? module;
    private bool isOpen;
    private KeepFault shut = KeepFault.NoStore;

    public event Action<string>? Heard;

    public async ValueTask OpenAsync()
    {
        try
        {
            module = await js.InvokeAsync<IJSObjectReference>("import", "./js/store.js")
                .ConfigureAwait(true);
            self = DotNetObjectReference.Create(this);
            await module.InvokeVoidAsync("open", self).ConfigureAwait(true);
            isOpen = true;
        }
        catch (JSException e)
        {
            shut = e.Message.Contains("BlockedError", StringComparison.Ordinal)
                ? KeepFault.Held
                : KeepFault.NoStore;
            throw new KeepException(shut, FirstLine(e));
        }
    }

    /// <summary>Called by js/store.js.</summary>
    [JSInvokable]
    public void Hear(string log) => Heard?.Invoke(log);

    public ValueTask<EntryRow[]> EntriesAsync(string? log) =>
        ReadAsync("entries", RowJson.Default.EntryRowArray, [], log);

    public ValueTask<PhotoRow[]> PhotoAsync(string id) =>
        ReadAsync("photo", RowJson.Default.PhotoRowArray, [], id);

    public ValueTask<TableRows> TablesAsync() =>
        ReadAsync("tables", RowJson.Default.TableRows, TableRows.Empty);

    public async ValueTask<int> CountAsync(string? log) =>
        isOpen ? await AskAsync<int>("count", log).ConfigureAwait(true) : 0;

    public async ValueTask WriteAsync(StoreWrite[] writes)
    {
        if (writes.Length == 0)
        {
            return;
        }
        if (!isOpen)
        {
            throw new KeepException(shut, "");
        }
        try
        {
            await module!
                .InvokeVoidAsync(
                    "write",
                    JsonSerializer.Serialize(writes, RowJson.Default.StoreWriteArray)
                )
                .ConfigureAwait(true);
        }
        catch (JSException e)
        {
            throw new KeepException(
                e.Message.Contains("QuotaExceeded", StringComparison.Ordinal)
                    ? KeepFault.Full
                    : KeepFault.Other,
                FirstLine(e)
            );
        }
    }

    public async ValueTask<IAsyncDisposable> LockAsync(string name)
    {
        // Without the module there is nothing that tabs could share.
        if (module is not { } holder)
        {
            return new Held(null, 0);
        }
        return new Held(holder, await AskAsync<int>("acquire", name).ConfigureAwait(true));
    }

    public void Tell(string log) => _ = TellAsync(log);

    public void Dispose() => self?.Dispose();

    // A tab that hears nothing reads the store anew before it writes: nothing depends on the news.
    private async Task TellAsync(string log)
    {
        try
        {
            if (module is not null)
            {
                await module.InvokeVoidAsync("tell", log).ConfigureAwait(true);
            }
        }
        catch (JSException) { }
    }

    private async ValueTask<T> ReadAsync<T>(
        string what,
        JsonTypeInfo<T> type,
        T nothing,
        params object?[] values
    )
    {
        if (!isOpen)
        {
            return nothing;
        }
        var text = await AskAsync<string>(what, values).ConfigureAwait(true);
        try
        {
            return JsonSerializer.Deserialize(text, type) ?? nothing;
        }
        catch (JsonException e)
        {
            throw new KeepException(KeepFault.Other, e.Message);
        }
    }

    private async ValueTask<T> AskAsync<T>(string what, params object?[] values)
    {
        try
        {
            return await module!.InvokeAsync<T>(what, values).ConfigureAwait(true);
        }
        catch (JSException e)
        {
            throw new KeepException(KeepFault.Other, FirstLine(e));
        }
    }

    private static string FirstLine(JSException e) => e.Message.Split('\n')[0];

    private sealed class Held(IJSObjectReference? module, int id) : IAsyncDisposable
    {
        public ValueTask DisposeAsync() =>
            module?.InvokeVoidAsync("release", id) ?? ValueTask.CompletedTask;
    }
}
