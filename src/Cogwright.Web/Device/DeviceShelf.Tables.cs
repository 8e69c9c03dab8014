using Cogwright.Facts;
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

    /// <summary>The sign of whoever took a job in hand on this device last.</summary>
    internal const string Sign = "sign";

    /// <summary>Before the run and the step of a timer: when it is over (ticks, UTC).</summary>
    internal const string Timer = "timer:";

    /// <summary>Before the id of a bike: what was begun at it and is not in its log yet.</summary>
    internal const string Draft = "draft:";

    /// <summary>When the server last answered, as the device believed (ticks, UTC).</summary>
    internal const string Contact = "contact";
}

/// <content>Reading the store, and keeping up with what other tabs write.</content>
internal sealed partial class DeviceShelf
{
    private const string Tables = "tables";

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
        Changed?.Invoke(null);
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
            Changed?.Invoke(null);
        }
    }

    /// <summary>
    /// The log, from the store at first; with <paramref name="refresh"/> also what other tabs have written since. Whether that
    /// could be read is in <see cref="BikeLog.IsRead"/>: a log that was not read is not an empty one.
    /// </summary>
    private async Task<BikeLog> LoadAsync(LogId log, bool refresh = false)
    {
        if (!open.TryGetValue(log, out var bike))
        {
            open[log] = bike = new BikeLog(log);
        }
        else if (!refresh && bike.IsRead)
        {
            return bike;
        }
        try
        {
            var name = log.ToString();
            var count = await store.CountAsync(name).ConfigureAwait(true);
            if (count != bike.RowsSeen)
            {
                var rows = await store.EntriesAsync(name).ConfigureAwait(true);
                foreach (var row in rows.Where(row => bike.Log.Find(row.EntryId) is null))
                {
                    if (row.Read() is { } entry)
                    {
                        bike.Log.Add(entry);
                    }
                    else
                    {
                        bike.Unreadable.Add(row.Id);
                    }
                }
                bike.RowsSeen = rows.Length;
            }
            bike.IsRead = true;
        }
        catch (KeepException e)
        {
            bike.IsRead = false;
            NoteUnread(log.ToString(), e);
            return bike;
        }
        NoteRead(log.ToString());
        return bike;
    }

    /// <summary>The log with what other tabs have written, for what must not be decided from a part of it.</summary>
    /// <exception cref="KeepException">It could not be read.</exception>
    private async Task<BikeLog> LoadWholeAsync(LogId log) =>
        await LoadAsync(log, refresh: true).ConfigureAwait(true) is { IsRead: true } bike
            ? bike
            : throw new KeepException(
                KeepFault.Other,
                unread.GetValueOrDefault(log.ToString(), "")
            );

    /// <summary>Reads everything but the entries.</summary>
    /// <returns>Whether it could be read; if not, what was known stays.</returns>
    private async Task<bool> ReadTablesAsync()
    {
        TableRows rows;
        try
        {
            rows = await store.TablesAsync().ConfigureAwait(true);
        }
        catch (KeepException e)
        {
            NoteUnread(Tables, e);
            return false;
        }
        foreach (var row in rows.Settings)
        {
            settings[row.Name] = row.Value;
        }
        if (settings.TryGetValue(Setting.Device, out var device))
        {
            Device = new(Guid.Parse(device));
        }
        foreach (var row in rows.Bikes)
        {
            cards[LogOf(row.Log)] = row;
        }
        foreach (var row in rows.Cursors)
        {
            cursors[LogOf(row.Log)] = row;
        }
        TakePhotoIds(rows);
        var waiting = rows.Outbox.ToLookup(row => LogOf(row.Log));
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
        NoteRead(Tables);
        return true;
    }

    private void CatchUpSoon(string log)
    {
        toCatchUp.Add(log);
        if (catchingUp is null or { IsCompleted: true })
        {
            catchingUp = CatchUpAsync();
        }
    }

    private async Task CatchUpAsync()
    {
        await ReadyAsync().ConfigureAwait(true);
        while (toCatchUp.Count > 0)
        {
            var heard = toCatchUp.ToList();
            toCatchUp.Clear();
            await using (await LockAsync().ConfigureAwait(true))
            {
                await ReadTablesAsync().ConfigureAwait(true);
                foreach (var log in open.Keys.Where(log => heard.Contains(log.ToString())).ToList())
                {
                    await LoadAsync(log, refresh: true).ConfigureAwait(true);
                }
            }
            foreach (var log in heard)
            {
                Changed?.Invoke(log.Length > 0 ? log : null);
            }
        }
    }

    private Outbox OutboxOf(LogId log) =>
        outboxes.GetValueOrDefault(log)
        ?? Outbox.Restore(log, cursors.GetValueOrDefault(log)?.Met ?? Guid.Empty, []);

    private static LogId LogOf(string text) => new(Guid.Parse(text));

    private static StoreWrite Put(string name, string value) =>
        StoreWrite.Put(new SettingRow(name, value));
}
