namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Device;

/// <summary>The database of one browser: tabs are stores on it.</summary>
internal sealed class PretendBrowser
{
    private readonly Dictionary<string, SemaphoreSlim> locks = [];
    private readonly List<PretendStore> tabs = [];

    internal Dictionary<string, EntryRow> Entries { get; } = [];
    internal Dictionary<string, OutboxRow> Outbox { get; } = [];
    internal Dictionary<string, BikeRow> Bikes { get; } = [];
    internal Dictionary<string, CursorRow> Cursors { get; } = [];
    internal Dictionary<string, SettingRow> Settings { get; } = [];
    internal Dictionary<string, PhotoRow> Photos { get; } = [];

    /// <summary>What every write fails with, or null.</summary>
    internal KeepFault? Fails { get; set; }

    /// <summary>Whether every read fails.</summary>
    internal bool CannotRead { get; set; }

    internal PretendStore NewTab()
    {
        var tab = new PretendStore(this);
        tabs.Add(tab);
        return tab;
    }

    internal void Tell(PretendStore from, string log)
    {
        foreach (var tab in tabs.Where(tab => tab != from))
        {
            tab.Hear(log);
        }
    }

    internal SemaphoreSlim Lock(string name) =>
        locks.TryGetValue(name, out var found) ? found : locks[name] = new(1, 1);
}

/// <summary>One tab's view of it.</summary>
internal sealed class PretendStore(PretendBrowser browser) : IDeviceStore
{
    public event Action<string>? Heard;

    internal void Hear(string log) => Heard?.Invoke(log);

    public ValueTask OpenAsync() =>
        browser.Fails == KeepFault.NoStore
            ? throw new KeepException(KeepFault.NoStore, "")
            : ValueTask.CompletedTask;

    public ValueTask<EntryRow[]> EntriesAsync(string? log)
    {
        Read();
        return new([.. browser.Entries.Values.Where(row => log is null || row.Log == log)]);
    }

    public ValueTask<TableRows> TablesAsync()
    {
        Read();
        return new(
            new TableRows(
                [.. browser.Outbox.Values],
                [.. browser.Bikes.Values],
                [.. browser.Cursors.Values],
                [.. browser.Settings.Values],
                [.. browser.Photos.Keys],
                [
                    .. browser
                        .Photos.Values.Where(row => row.Waiting is not null)
                        .Select(row => row.Id),
                ]
            )
        );
    }

    public ValueTask<PhotoRow[]> PhotoAsync(string id)
    {
        Read();
        return new(browser.Photos.TryGetValue(id, out var row) ? [row] : []);
    }

    public ValueTask<int> CountAsync(string? log)
    {
        Read();
        return new(browser.Entries.Values.Count(row => log is null || row.Log == log));
    }

    private void Read()
    {
        if (browser.CannotRead)
        {
            throw new KeepException(KeepFault.Other, "UnknownError");
        }
    }

    public async ValueTask WriteAsync(StoreWrite[] writes)
    {
        // As a browser does: the answer comes later, and other work goes on meanwhile.
        await Task.Yield();
        if (browser.Fails is { } fault)
        {
            throw new KeepException(fault, "QuotaExceededError");
        }
        foreach (var write in writes)
        {
            if (write.Drop is { } key)
            {
                Assert.Equal(Stores.Outbox, write.Store);
                browser.Outbox.Remove(key);
            }
            else if (write.Entry is { } entry)
            {
                browser.Entries[entry.Id] = entry;
            }
            else if (write.Outbox is { } item)
            {
                browser.Outbox[item.Id] = item;
            }
            else if (write.Bike is { } bike)
            {
                browser.Bikes[bike.Log] = bike;
            }
            else if (write.Cursor is { } cursor)
            {
                browser.Cursors[cursor.Log] = cursor;
            }
            else if (write.Photo is { } photo)
            {
                browser.Photos[photo.Id] = photo;
            }
            else if (write.Setting is { } setting)
            {
                browser.Settings[setting.Name] = setting;
            }
        }
    }

    public async ValueTask<IAsyncDisposable> LockAsync(string name)
    {
        var held = browser.Lock(name);
        await held.WaitAsync();
        return new Held(held);
    }

    public void Tell(string log) => browser.Tell(this, log);

    private sealed class Held(SemaphoreSlim held) : IAsyncDisposable
    {
        public ValueTask DisposeAsync()
        {
            held.Release();
            return ValueTask.CompletedTask;
        }
    }
}
