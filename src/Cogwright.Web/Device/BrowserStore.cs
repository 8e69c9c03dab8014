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

    public event Action<string>? Heard;

    public async ValueTask OpenAsync()
    {
        module = await js.InvokeAsync<IJSObjectReference>("import", "./js/store.js")
            .ConfigureAwait(true);
        self = DotNetObjectReference.Create(this);
        try
        {
            await module.InvokeVoidAsync("open", self).ConfigureAwait(true);
            isOpen = true;
        }
        catch (JSException e)
        {
            throw new KeepException(KeepFault.NoStore, FirstLine(e));
        }
    }

    /// <summary>Called by js/store.js.</summary>
    [JSInvokable]
    public void Hear(string log) => Heard?.Invoke(log);

    public ValueTask<EntryRow[]> EntriesAsync(string? log) =>
        ReadAsync(Stores.Entries, log, RowJson.Default.EntryRowArray);

    public ValueTask<OutboxRow[]> OutboxAsync() =>
        ReadAsync(Stores.Outbox, null, RowJson.Default.OutboxRowArray);

    public ValueTask<BikeRow[]> BikesAsync() =>
        ReadAsync(Stores.Bikes, null, RowJson.Default.BikeRowArray);

    public ValueTask<CursorRow[]> CursorsAsync() =>
        ReadAsync(Stores.Cursors, null, RowJson.Default.CursorRowArray);

    public ValueTask<SettingRow[]> SettingsAsync() =>
        ReadAsync(Stores.Settings, null, RowJson.Default.SettingRowArray);

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
            throw new KeepException(KeepFault.NoStore, "");
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

    public async ValueTask<IAsyncDisposable> LockAsync(string name) =>
        new Held(module!, await module!.InvokeAsync<int>("acquire", name).ConfigureAwait(true));

    public void Tell(string log) => _ = module!.InvokeVoidAsync("tell", log).AsTask();

    public void Dispose() => self?.Dispose();

    private async ValueTask<T[]> ReadAsync<T>(string store, string? log, JsonTypeInfo<T[]> type) =>
        isOpen
            ? JsonSerializer.Deserialize(
                await AskAsync<string>("read", store, log).ConfigureAwait(true),
                type
            )!
            : [];

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

    private sealed class Held(IJSObjectReference module, int id) : IAsyncDisposable
    {
        public ValueTask DisposeAsync() => module.InvokeVoidAsync("release", id);
    }
}
