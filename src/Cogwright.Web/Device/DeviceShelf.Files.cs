using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <content>Everything on the device in one file, out and in.</content>
internal sealed partial class DeviceShelf
{
    /// <summary>How many entries are on this device, those in memory only included.</summary>
    internal async Task<int> CountAsync()
    {
        await ReadyAsync().ConfigureAwait(true);
        try
        {
            return await store.CountAsync(null).ConfigureAwait(true) + unkept.Count;
        }
        catch (KeepException)
        {
            return open.Values.Sum(bike => bike.Log.Count + bike.Log.WaitingCount);
        }
    }

    private const string Everything = "entries";

    /// <summary>
    /// Everything on this device, those entries included that it could not keep or cannot read; of the photos those that are not
    /// sent: the others would make the file larger than a phone can hold, and the server has them.
    /// </summary>
    internal async Task<string> ExportAsync()
    {
        await ReadyAsync().ConfigureAwait(true);
        EntryRow[] rows;
        try
        {
            rows = await store.EntriesAsync(null).ConfigureAwait(true);
            NoteRead(Everything);
        }
        catch (KeepException e)
        {
            // The file then holds less than the device does: the page says so.
            NoteUnread(Everything, e);
            rows = [];
        }
        // What is only in memory too: what was not kept, and everything when the store cannot be read any more.
        var inMemory = open
            .Values.SelectMany(bike =>
                bike.Log.Ordered.Concat(bike.Log.Waiting.Select(each => each.Entry))
            )
            .Select(EntryRow.Of);
        return new DeviceFile(
            DeviceFile.FormatName,
            DeviceFile.Latest,
            Device.ToString(),
            clock.GetUtcNow().UtcDateTime.ToString("O", CultureInfo.InvariantCulture),
            [
                .. rows.Concat(inMemory)
                    .DistinctBy(row => row.Id)
                    .GroupBy(row => row.Log)
                    .Select(log => new DeviceFileLog(
                        log.Key,
                        [
                            .. log.OrderBy(row => row.Id, StringComparer.Ordinal)
                                .Select(row => row.Bytes),
                        ]
                    )),
            ],
            await PhotosForFileAsync().ConfigureAwait(true)
        ).Write();
    }

    /// <summary>Takes in a device's file. What is here stays; what is new is kept, and sent to the server.</summary>
    /// <exception cref="KeepException">What is here could not be read, so that nothing can be compared with it.</exception>
    internal async Task<DeviceFileReport> ImportAsync(string text)
    {
        await ReadyAsync().ConfigureAwait(true);
        if (DeviceFile.Read(text) is not { } file)
        {
            return new(false, 0, 0, 0, 0);
        }
        int fresh = 0,
            known = 0,
            unusable = 0;
        foreach (var part in file.Logs)
        {
            var entries = part.Entries.Select(bytes => new EntryRow("", "", bytes).Read()).ToList();
            unusable += entries.Count(entry => entry is null);
            foreach (var log in entries.OfType<Entry>().GroupBy(entry => entry.Log))
            {
                var (came, refused, all) = await TakeInAsync(log.Key, [.. log])
                    .ConfigureAwait(true);
                fresh += came;
                unusable += refused;
                known += all - came - refused;
            }
        }
        // After the entries that name them.
        var (freshPhotos, badPhotos) = await TakeInAsync(file.PhotosIn).ConfigureAwait(true);
        return new(true, fresh, known, unusable + badPhotos, freshPhotos);
    }

    private async Task<(int Fresh, int Refused, int All)> TakeInAsync(
        LogId log,
        ImmutableArray<Entry> entries
    )
    {
        List<Entry> fresh;
        int refused;
        await using (await LockAsync().ConfigureAwait(true))
        {
            var bike = await LoadWholeAsync(log).ConfigureAwait(true);
            fresh = entries.Where(entry => bike.Log.Find(entry.Id) is null).ToList();
            bike.Log.Merge(entries);
            var bad = bike.Log.Refused.Select(each => each.Entry.Hash).ToHashSet();
            refused = entries.Count(entry => bad.Contains(entry.Hash));
            fresh.RemoveAll(entry => bad.Contains(entry.Hash));
            var before = OutboxOf(log);
            var outbox = fresh.Aggregate(before, (now, entry) => now.Append(entry));
            outboxes[log] = outbox;
            var writes = fresh
                .Select(entry => StoreWrite.Put(EntryRow.Of(entry)))
                .Concat(Difference(before, outbox))
                .ToList();
            if (CardOf(bike, fresh) is { } card)
            {
                cards[log] = card;
                writes.Add(StoreWrite.Put(card));
            }
            try
            {
                if (writes.Count > 0)
                {
                    await store.WriteAsync([.. writes]).ConfigureAwait(true);
                    bike.RowsSeen += fresh.Count;
                }
            }
            catch (KeepException e)
            {
                unkept.AddRange(fresh);
                Note(e);
            }
        }
        Tell(log);
        Written?.Invoke(log);
        return (fresh.Count, refused, entries.Length);
    }
}
