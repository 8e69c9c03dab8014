using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Facts;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>An entry that the server refused.</summary>
/// <param name="Log">Its log.</param>
/// <param name="Id">The entry.</param>
/// <param name="Bike">What the bike is called.</param>
/// <param name="What">What somebody did.</param>
/// <param name="Reason">Why, in the server's words.</param>
internal sealed record RefusedChange(
    LogId Log,
    EntryId Id,
    string Bike,
    string What,
    string Reason
);

/// <content>What the courier does with the shelf; docs/theory/log.md, "Sending and fetching".</content>
internal sealed partial class DeviceShelf
{
    // A page that the store did not take: what is on the disk must not pass over it.
    private readonly HashSet<LogId> hasGaps = [];

    /// <summary>Every log on this device.</summary>
    internal IReadOnlyList<LogId> Logs => [.. cards.Keys.Union(outboxes.Keys).Union(cursors.Keys)];

    /// <summary>How far a log was fetched.</summary>
    internal PullCursor CursorOf(LogId log) =>
        cursors.GetValueOrDefault(log)?.Cursor ?? PullCursor.Start;

    /// <summary>The life of the server's store that answers about a log are believed from.</summary>
    internal Guid MetOf(LogId log) => cursors.GetValueOrDefault(log)?.Met ?? Guid.Empty;

    /// <summary>How many changes and photos of a log the server has not confirmed.</summary>
    internal int UnsentOf(LogId log) => OutboxOf(log).UnsentCount + UnsentPhotosOf(log);

    /// <summary>What is to be sent next of a log.</summary>
    internal async Task<ImmutableArray<Entry>> BatchAsync(LogId log)
    {
        var known = OutboxOf(log).Batch();
        if (known.IsEmpty)
        {
            return [];
        }
        var bike = await LoadAsync(log).ConfigureAwait(true);
        if (known.Any(item => bike.Log.Find(item.Id) is null))
        {
            bike = await LoadWholeAsync(log).ConfigureAwait(true);
        }
        var refused = bike.Log.Refused.ToDictionary(each => each.Entry.Id, each => each.Entry);
        var batch = ImmutableArray.CreateBuilder<Entry>();
        foreach (var item in known)
        {
            if ((bike.Log.Find(item.Id) ?? refused.GetValueOrDefault(item.Id)) is { } entry)
            {
                batch.Add(entry);
            }
            else
            {
                // Not to be read any more: shown as refused, so that what follows is sent.
                var reason = Texts.Get("storage.entryGone");
                await TakeAsync(
                        log,
                        new AnswerPage(
                            MetOf(log),
                            [new(item.Id, item.Hash, AnswerStatus.Refused, reason)]
                        )
                    )
                    .ConfigureAwait(true);
            }
        }
        return batch.ToImmutable();
    }

    /// <summary>Takes in a page of the server: its entries, how far it goes, and what the server lacks, in one transaction.</summary>
    /// <exception cref="KeepException">What is here could not be read; nothing was taken in.</exception>
    internal async Task TakeAsync(LogId log, ShopPage fetched)
    {
        var page = fetched.Page;
        await using (await LockAsync().ConfigureAwait(true))
        {
            var bike = await LoadWholeAsync(log).ConfigureAwait(true);
            var before = OutboxOf(log);
            var fresh = page.Entries.Where(entry => bike.Log.Find(entry.Id) is null).ToList();
            // In memory first, for what the bike is called depends on all of them; the disk next, before anything is shown.
            bike.Log.Merge(fresh);
            var outbox = before.Meet(page, bike.Log);
            var cursor = CursorOf(log).After(page);
            var row = new CursorRow(log.ToString(), cursor.Epoch, cursor.Receipt, outbox.Epoch);
            var writes = fresh
                .Select(entry => StoreWrite.Put(EntryRow.Of(entry)))
                .Concat(Difference(before, outbox))
                .ToList();
            var unreadable = fetched
                .Unreadable.Select(bytes => EntryRow.OfUnreadable(log, bytes))
                .Where(each => bike.Unreadable.Add(each.Id))
                .ToList();
            writes.AddRange(unreadable.Select(StoreWrite.Put));
            if (CardOf(bike, fresh) is { } card)
            {
                cards[log] = card;
                writes.Add(StoreWrite.Put(card));
            }
            if (!hasGaps.Contains(log))
            {
                writes.Add(StoreWrite.Put(row));
            }
            outboxes[log] = outbox;
            if (cursors.GetValueOrDefault(log) == row && fresh.Count == 0 && unreadable.Count == 0)
            {
                return;
            }
            cursors[log] = row;
            try
            {
                await store.WriteAsync([.. writes]).ConfigureAwait(true);
                bike.RowsSeen += fresh.Count + unreadable.Count;
            }
            catch (KeepException e)
            {
                hasGaps.Add(log);
                Note(e);
            }
        }
        Tell(log);
    }

    /// <summary>Takes in the server's answers.</summary>
    internal async Task TakeAsync(LogId log, AnswerPage answers)
    {
        await using (await LockAsync().ConfigureAwait(true))
        {
            var before = OutboxOf(log);
            var outbox = before.Take(answers);
            outboxes[log] = outbox;
            // What the server holds comes back with the next fetch, whether or not this page is there to see it.
            foreach (var answer in answers.Answers)
            {
                if (
                    answers.Epoch == before.Epoch
                    && answer.Status != AnswerStatus.Refused
                    && unkept.Find(entry => entry.Id == answer.Id) is { } safe
                    && safe.Hash == answer.Hash
                )
                {
                    unkept.Remove(safe);
                    hasGaps.Add(log);
                }
            }
            var writes = Difference(before, outbox).ToArray();
            if (writes.Length > 0)
            {
                try
                {
                    await store.WriteAsync(writes).ConfigureAwait(true);
                }
                catch (KeepException e)
                {
                    // Sent once more after the page was closed, which does no harm.
                    Note(e);
                }
            }
        }
        Tell(log);
    }

    /// <summary>The entries that the server refused.</summary>
    internal async Task<ImmutableArray<RefusedChange>> RefusedAsync()
    {
        var found = ImmutableArray.CreateBuilder<RefusedChange>();
        foreach (var (log, outbox) in outboxes)
        {
            foreach (var item in outbox.Refused)
            {
                var bike = await LoadAsync(log).ConfigureAwait(true);
                var entry = bike.Log.Find(item.Id);
                found.Add(
                    new(
                        log,
                        item.Id,
                        cards.GetValueOrDefault(log)?.Name ?? log.ToString(),
                        entry is null ? item.Id.ToString()
                            : SpecEntry.Read(entry) is { } change ? change.What
                            : LabelEntry.Read(entry) is { } label
                                ? Texts.Get(
                                    "label.of",
                                    Cogwright.Parts.PartKinds.TitleOf(label.Part)
                                )
                            : LabelEntry.IsRemoval(entry) ? Texts.Get("label.removal")
                            : entry.Kind,
                        item.Reason
                    )
                );
            }
        }
        return found.ToImmutable();
    }

    /// <summary>Puts a refused entry back in the queue.</summary>
    internal async Task SendAgainAsync(LogId log, EntryId id)
    {
        await using (await LockAsync().ConfigureAwait(true))
        {
            var before = OutboxOf(log);
            outboxes[log] = before.Retry(id);
            try
            {
                await store.WriteAsync([.. Difference(before, outboxes[log])]).ConfigureAwait(true);
            }
            catch (KeepException e)
            {
                Note(e);
            }
        }
        Tell(log);
        Written?.Invoke(log);
    }

    /// <summary>When the server last answered, or null.</summary>
    internal DateTime? LastContact =>
        long.TryParse(
            settings.GetValueOrDefault(Setting.Contact),
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var ticks
        )
            ? new(ticks, DateTimeKind.Utc)
            : null;

    /// <summary>
    /// Notes that the server has answered. No bike is different for it, so nobody is told: who shows it looks when the courier
    /// comes back.
    /// </summary>
    internal async ValueTask NoteContactAsync()
    {
        var ticks = clock.GetUtcNow().UtcTicks.ToString(CultureInfo.InvariantCulture);
        settings[Setting.Contact] = ticks;
        try
        {
            await store.WriteAsync([Put(Setting.Contact, ticks)]).ConfigureAwait(true);
        }
        catch (KeepException e)
        {
            Note(e);
        }
    }

    private static BikeRow? CardOf(BikeLog bike, List<Entry> fresh) =>
        fresh.Count == 0 || bike.State.History.Changes.IsEmpty
            ? null
            : new(
                bike.Log.Id.ToString(),
                bike.State.History.Sheet["name"] ?? "",
                bike.Log.Ordered.Max(entry => entry.WallClockTicks)
            );

    private static IEnumerable<StoreWrite> Difference(Outbox before, Outbox after)
    {
        var old = before.Items.ToDictionary(item => item.Id);
        foreach (var item in after.Items)
        {
            if (!old.Remove(item.Id, out var was) || was != item)
            {
                yield return StoreWrite.Put(OutboxRow.Of(after.Log, item));
            }
        }
        foreach (var id in old.Keys)
        {
            yield return StoreWrite.Remove(Stores.Outbox, id.ToString());
        }
    }
}
