using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// The entries of one log that the server has not confirmed, in the order in which they were made; a device has one outbox for
/// each log, because what a restored server lacks is known log by log. An immutable value: a store keeps its
/// items as rows and writes an entry and its item in one transaction, before anything is sent. An item leaves only when the
/// server has said that it holds the same content, so a lost, doubled or late answer and a restart at any moment neither lose
/// an entry nor send one for good twice (the same entry twice is the same entry once).
/// </summary>
public sealed class Outbox
{
    private readonly ImmutableSortedDictionary<long, OutboxItem> items;
    private readonly ImmutableDictionary<EntryId, long> places;
    private readonly long nextPlace;

    private Outbox(
        LogId log,
        Guid epoch,
        ImmutableSortedDictionary<long, OutboxItem> items,
        ImmutableDictionary<EntryId, long> places,
        long nextPlace
    )
    {
        this.items = items;
        this.places = places;
        this.nextPlace = nextPlace;
        Log = log;
        Epoch = epoch;
    }

    /// <summary>The log.</summary>
    public LogId Log { get; }

    /// <summary>
    /// The life of the server's store that answers are believed from; empty before the first <see cref="Meet"/>. An answer from
    /// before the server was restored from a backup says nothing about what it holds now.
    /// </summary>
    public Guid Epoch { get; }

    /// <summary>Everything in it, in order.</summary>
    public IEnumerable<OutboxItem> Items => items.Values;

    /// <summary>How many entries have no answer yet: what a screen shows as not sent.</summary>
    public int UnsentCount => items.Values.Count(IsUnsent);

    /// <summary>The entries that the server refused, in order.</summary>
    public IEnumerable<OutboxItem> Refused =>
        items.Values.Where(item => item.State == OutboxState.Refused);

    /// <summary>The outbox of a log of which nothing is to be sent.</summary>
    public static Outbox For(LogId log) => Restore(log, Guid.Empty, []);

    /// <summary>The outbox that a store has kept.</summary>
    /// <param name="log">Its <see cref="Log"/>.</param>
    /// <param name="epoch">Its <see cref="Epoch"/>.</param>
    /// <param name="kept">Its <see cref="Items"/>, in whatever order.</param>
    public static Outbox Restore(LogId log, Guid epoch, IEnumerable<OutboxItem> kept)
    {
        var items = kept.ToImmutableSortedDictionary(item => item.Place, item => item);
        return new Outbox(
            log,
            epoch,
            items,
            items.ToImmutableDictionary(item => item.Value.Id, item => item.Key),
            items.Keys.LastOrDefault() + 1
        );
    }

    /// <summary>Puts an entry at the end. One that is in it already stays where it is.</summary>
    /// <exception cref="ArgumentException">The entry is of another log.</exception>
    public Outbox Append(Entry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        if (entry.Log != Log)
        {
            throw new ArgumentException(
                Texts.Get("outbox.otherLog", entry, entry.Log, Log),
                nameof(entry)
            );
        }
        if (places.ContainsKey(entry.Id))
        {
            return this;
        }
        var item = new OutboxItem(nextPlace, entry.Id, entry.Hash, entry.Encoded.Length);
        return new Outbox(
            Log,
            Epoch,
            items.Add(nextPlace, item),
            places.Add(entry.Id, nextPlace),
            nextPlace + 1
        );
    }

    /// <summary>
    /// The first entries without an answer, to be sent together: at most so many and so many bytes, but at least one if there is
    /// any. Asking changes nothing: what was sent and not answered is in the next batch again.
    /// </summary>
    public ImmutableArray<OutboxItem> Batch(
        int maxEntries = EntryLimits.BatchEntries,
        int maxBytes = EntryLimits.BatchBytes
    )
    {
        var batch = ImmutableArray.CreateBuilder<OutboxItem>();
        long bytes = 0;
        foreach (var item in items.Values.Where(IsUnsent))
        {
            bytes += item.SizeBytes;
            if (batch.Count > 0 && (batch.Count >= maxEntries || bytes > maxBytes))
            {
                break;
            }
            batch.Add(item);
        }
        return batch.ToImmutable();
    }

    /// <summary>
    /// Takes in the server's answers, however late, often, or out of order they come. An answer from another epoch changes
    /// nothing, nor does one about an entry that is not in it any more; a confirmation counts even after a refusal, for then the
    /// server has the entry.
    /// </summary>
    public Outbox Take(AnswerPage page)
    {
        ArgumentNullException.ThrowIfNull(page);
        return page.Epoch == Epoch
            ? page.Answers.Aggregate(this, (outbox, answer) => outbox.Take(answer))
            : this;
    }

    /// <summary>Puts a refused entry back in the queue, at its old place. Nothing happens if it is not refused.</summary>
    public Outbox Retry(EntryId id) =>
        places.TryGetValue(id, out var place) && items[place].State == OutboxState.Refused
            ? With(items[place] with { State = OutboxState.Unsent, Reason = "" })
            : this;

    /// <summary>
    /// To be called with every page fetched, after its entries were merged. If it comes from another epoch, everything that the
    /// server lacks is put in: at the first contact, after the server was restored from a backup, and after this device lost its
    /// queue. Otherwise nothing changes. The first page of an epoch is enough, for it names the ends of all the server's chains;
    /// of chains that go on beyond the page, more than is lacking is put in, which does no harm.
    /// </summary>
    /// <param name="page">The page.</param>
    /// <param name="log">The log that the page is of, as this device knows it.</param>
    /// <exception cref="ArgumentException">It is another log.</exception>
    public Outbox Meet(PullPage page, EntryLog log)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(log);
        if (log.Id != Log)
        {
            throw new ArgumentException(Texts.Get("outbox.otherLogMet", log.Id, Log), nameof(log));
        }
        return page.Epoch == Epoch
            ? this
            : log.Beyond(page.Tips)
                .Aggregate(
                    new Outbox(Log, page.Epoch, items, places, nextPlace),
                    (outbox, entry) => outbox.Append(entry)
                );
    }

    private Outbox Take(Answer answer)
    {
        if (!places.TryGetValue(answer.Id, out var place))
        {
            return this;
        }
        var item = items[place];
        if (answer.Status == AnswerStatus.Refused)
        {
            return With(item with { State = OutboxState.Refused, Reason = answer.Reason });
        }
        if (answer.Hash != item.Hash)
        {
            // Confirmed, but not what was sent: to forget ours now would lose it.
            return With(
                item with
                {
                    State = OutboxState.Refused,
                    Reason = Texts.Get("outbox.otherContent", item.Id, answer.Hash, item.Hash),
                }
            );
        }
        return new Outbox(Log, Epoch, items.Remove(place), places.Remove(answer.Id), nextPlace);
    }

    private Outbox With(OutboxItem item) =>
        new(Log, Epoch, items.SetItem(item.Place, item), places, nextPlace);

    private static bool IsUnsent(OutboxItem item) => item.State == OutboxState.Unsent;
}
