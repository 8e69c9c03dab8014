using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>What the device remembers of itself, by name.</summary>
internal static class Setting
{
    /// <summary>The device's id.</summary>
    internal const string Device = "device";

    /// <summary>The demo bikes that are not on the list, with spaces between.</summary>
    internal const string DemosTaken = "demos-taken";

    /// <summary>The account that logged in last: who entries are from.</summary>
    internal const string Account = "account";

    /// <summary>Before the id of a bike: what was begun at it and is not in its log yet.</summary>
    internal const string Draft = "draft:";

    /// <summary>When the server last answered, as the device believed (ticks, UTC).</summary>
    internal const string Contact = "contact";
}

/// <content>Reading the store, and keeping up with what other tabs write.</content>
internal sealed partial class DeviceShelf
{
    /// <summary>What the device remembers under a name, or null.</summary>
    internal string? Remembered(string name) => settings.GetValueOrDefault(name);

    /// <summary>Remembers something; where there is no store, as long as the page is open.</summary>
    internal async ValueTask SetAsync(string name, string value)
    {
        await ReadyAsync().ConfigureAwait(true);
        settings[name] = value;
        try
        {
            await store.WriteAsync([Put(name, value)]).ConfigureAwait(true);
            store.Tell("");
        }
        catch (KeepException e)
        {
            Note(e);
        }
        Changed?.Invoke();
    }

    /// <inheritdoc/>
    public async ValueTask<string?> DraftAsync(string id)
    {
        await ReadyAsync().ConfigureAwait(true);
        return Remembered(Setting.Draft + id);
    }

    /// <inheritdoc/>
    public async ValueTask KeepDraftAsync(string id, string text)
    {
        await ReadyAsync().ConfigureAwait(true);
        settings[Setting.Draft + id] = text;
        try
        {
            // Other tabs have nothing to do with it: nobody is told.
            await store.WriteAsync([Put(Setting.Draft + id, text)]).ConfigureAwait(true);
        }
        catch (KeepException e)
        {
            Note(e);
            Changed?.Invoke();
        }
    }

    /// <summary>The log, from the store at first; with <paramref name="refresh"/> also what other tabs have written since.</summary>
    private async Task<BikeLog> LoadAsync(LogId log, bool refresh = false)
    {
        if (!open.TryGetValue(log, out var bike))
        {
            open[log] = bike = new BikeLog(log);
        }
        else if (!refresh && bike.RowsSeen >= 0)
        {
            return bike;
        }
        try
        {
            var name = log.ToString();
            var count = await store.CountAsync(name).ConfigureAwait(true);
            if (count == bike.RowsSeen)
            {
                return bike;
            }
            var rows = await store.EntriesAsync(name).ConfigureAwait(true);
            bike.Unreadable = 0;
            foreach (var row in rows)
            {
                if (bike.Log.Find(new EntryId(Guid.Parse(row.Id))) is not null)
                {
                    continue;
                }
                if (row.Read() is { } entry)
                {
                    bike.Log.Add(entry);
                }
                else
                {
                    bike.Unreadable++;
                }
            }
            bike.RowsSeen = rows.Length;
        }
        catch (KeepException e)
        {
            Note(e);
        }
        return bike;
    }

    private async Task ReadTablesAsync()
    {
        foreach (var row in await store.SettingsAsync().ConfigureAwait(true))
        {
            settings[row.Name] = row.Value;
        }
        if (settings.TryGetValue(Setting.Device, out var device))
        {
            Device = new(Guid.Parse(device));
        }
        foreach (var row in await store.BikesAsync().ConfigureAwait(true))
        {
            cards[LogOf(row.Log)] = row;
        }
        foreach (var row in await store.CursorsAsync().ConfigureAwait(true))
        {
            cursors[LogOf(row.Log)] = row;
        }
        var waiting = (await store.OutboxAsync().ConfigureAwait(true)).ToLookup(row =>
            LogOf(row.Log)
        );
        foreach (var log in waiting.Select(group => group.Key).Union(outboxes.Keys).ToList())
        {
            // Two tabs may have given one place twice; only the order of places means anything.
            var items = waiting[log]
                .OrderBy(row => row.Place)
                .ThenBy(row => row.Id, StringComparer.Ordinal)
                .Select((row, index) => row.Item() with { Place = index + 1 });
            outboxes[log] = unkept
                .Where(entry => entry.Log == log)
                .Aggregate(
                    Outbox.Restore(log, cursors.GetValueOrDefault(log)?.Met ?? Guid.Empty, items),
                    (outbox, entry) => outbox.Append(entry)
                );
        }
    }

    private void CatchUpSoon()
    {
        hasMoreToCatchUp = true;
        if (catchingUp is null or { IsCompleted: true })
        {
            catchingUp = CatchUpAsync();
        }
    }

    private async Task CatchUpAsync()
    {
        await ReadyAsync().ConfigureAwait(true);
        while (hasMoreToCatchUp)
        {
            hasMoreToCatchUp = false;
            await using (await LockAsync().ConfigureAwait(true))
            {
                try
                {
                    await ReadTablesAsync().ConfigureAwait(true);
                }
                catch (KeepException e)
                {
                    Note(e);
                }
                foreach (var log in open.Keys.ToList())
                {
                    await LoadAsync(log, refresh: true).ConfigureAwait(true);
                }
            }
            Changed?.Invoke();
        }
    }

    private Outbox OutboxOf(LogId log) =>
        outboxes.GetValueOrDefault(log)
        ?? Outbox.Restore(log, cursors.GetValueOrDefault(log)?.Met ?? Guid.Empty, []);

    private static LogId LogOf(string text) => new(Guid.Parse(text));

    private static StoreWrite Put(string name, string value) =>
        StoreWrite.Put(new SettingRow(name, value));
}
