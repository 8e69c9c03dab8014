using System.Collections.Immutable;
using System.Security.Cryptography;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Web.Bikes;

namespace Cogwright.Web.Device;

/// <summary>
/// The bikes on this device: each is a log. A change is an entry, written to the device's store with its place in the outbox in
/// one transaction before anything else happens; what the store does not take stays in memory and is said to be there only.
/// For one thread; several tabs share one store, one writes at a time.
/// </summary>
internal sealed partial class DeviceShelf : IBikeShelf
{
    private const string WriteLock = "write";

    private readonly IDeviceStore store;
    private readonly TimeProvider clock;
    private readonly Dictionary<LogId, BikeLog> open = [];
    private readonly Dictionary<LogId, BikeRow> cards = [];
    private readonly Dictionary<LogId, Outbox> outboxes = [];
    private readonly Dictionary<LogId, CursorRow> cursors = [];
    private readonly Dictionary<string, string> settings = [];
    private readonly List<Entry> unkept = [];
    private readonly HashSet<string> toCatchUp = [];

    // What could not be read, by log or table, and what the browser said: each for itself, for one may be read and another not.
    private readonly SortedDictionary<string, string> unread = new(StringComparer.Ordinal);

    // What the store does not take is chained apart: another tab goes on with the device's own chain and knows nothing of it.
    private readonly DeviceId ofThisPage = new(Guid.NewGuid());
    private Task? ready;
    private Task? catchingUp;
    private EntryId? lastId;

    /// <param name="store">What survives the page.</param>
    /// <param name="clock">For what entries show; it orders nothing.</param>
    public DeviceShelf(IDeviceStore store, TimeProvider clock)
    {
        this.store = store;
        this.clock = clock;
        store.Heard += CatchUpSoon;
    }

    /// <inheritdoc/>
    public event Action<string?>? Changed;

    /// <summary>An entry is to be sent.</summary>
    internal event Action<LogId>? Written;

    /// <summary>Whether the store was read.</summary>
    internal bool IsReady { get; private set; }

    /// <summary>Why the device does not keep what is entered; null: it does.</summary>
    internal KeepFault? Fault { get; private set; }

    /// <summary>What the browser said about that.</summary>
    internal string FaultSaid { get; private set; } = "";

    /// <summary>What the browser said when rows of this device could not be read; null: they could.</summary>
    internal string? UnreadSaid => unread.Values.FirstOrDefault();

    /// <summary>How many changes are in the memory of this page only: lost when it closes, unless they are sent or exported.</summary>
    internal int UnkeptCount => unkept.Count + UnkeptPhotoCount;

    /// <summary>This device.</summary>
    internal DeviceId Device { get; private set; } = new(Guid.NewGuid());

    /// <summary>How many changes and photos the server has not confirmed.</summary>
    internal int UnsentCount =>
        outboxes.Values.Sum(outbox => outbox.UnsentCount) + waitingPhotos.Count;

    /// <summary>How many entries the server has refused.</summary>
    internal int RefusedCount => outboxes.Values.Sum(outbox => outbox.Refused.Count());

    /// <summary>Reads the store once; every other member waits for it.</summary>
    internal Task ReadyAsync() => ready ??= BeginAsync();

    private async Task BeginAsync()
    {
        try
        {
            await store.OpenAsync().ConfigureAwait(true);
            if (
                await ReadTablesAsync().ConfigureAwait(true)
                && !settings.ContainsKey(Setting.Device)
            )
            {
                await BecomeDeviceAsync().ConfigureAwait(true);
            }
        }
        catch (KeepException e)
        {
            Note(e);
        }
        IsReady = true;
        Changed?.Invoke(null);
    }

    /// <summary>The first visit: of tabs that open at once one gives the device its id.</summary>
    private async Task BecomeDeviceAsync()
    {
        await using (await store.LockAsync(WriteLock).ConfigureAwait(true))
        {
            if (
                await ReadTablesAsync().ConfigureAwait(true)
                && !settings.ContainsKey(Setting.Device)
            )
            {
                await store
                    .WriteAsync([Put(Setting.Device, Device.ToString())])
                    .ConfigureAwait(true);
                settings[Setting.Device] = Device.ToString();
            }
        }
    }

    /// <inheritdoc/>
    public async ValueTask<IReadOnlyList<BikeCard>> ListAsync()
    {
        await ReadyAsync().ConfigureAwait(true);
        var isTaken = TakenDemos();
        return
        [
            .. cards
                .Where(card => card.Key != ShopLog.Id)
                .Select(card => card.Value)
                .OrderByDescending(card => card.UtcTicks)
                .ThenBy(card => card.Log, StringComparer.Ordinal)
                .Select(card => new BikeCard(card.Log, card.Name, false)),
            .. DemoWorkshop
                .Ids.Where(id => !isTaken(id))
                .Select(id => new BikeCard(id, DemoWorkshop.Name(id), true)),
        ];
    }

    /// <inheritdoc/>
    public async ValueTask<BikeHistory?> OpenAsync(string id)
    {
        if (DemoWorkshop.Ids.Contains(id))
        {
            return DemoWorkshop.History(id);
        }
        await ReadyAsync().ConfigureAwait(true);
        // What another tab has told of is there first.
        await (catchingUp ?? Task.CompletedTask).ConfigureAwait(true);
        if (!Guid.TryParse(id, out var log) || !cards.ContainsKey(new(log)))
        {
            return null;
        }
        var bike = await LoadAsync(new(log)).ConfigureAwait(true);
        return bike.State.History is { Changes.IsEmpty: false } history ? history : null;
    }

    /// <inheritdoc/>
    public async ValueTask<string> StartAsync(SpecChange first, string? fromDemo = null)
    {
        var id = Guid.CreateVersion7(clock.GetUtcNow()).ToString();
        await AddAsync(id, first).ConfigureAwait(true);
        if (fromDemo is not null)
        {
            await SetAsync(
                    Setting.DemosTaken,
                    $"{settings.GetValueOrDefault(Setting.DemosTaken)} {fromDemo}"
                )
                .ConfigureAwait(true);
        }
        return id;
    }

    /// <inheritdoc/>
    public async ValueTask<BikeHistory> AddAsync(string id, SpecChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        var bike = await AppendAsync(
                new LogId(Guid.Parse(id)),
                SpecEntry.Draft(change),
                change.Fields.TryGetValue("name", out var name) ? name ?? "" : null
            )
            .ConfigureAwait(true);
        return bike.State.History;
    }

    /// <summary>Adds an entry to a log; it and its photo are on the device when this ends.</summary>
    /// <param name="log">The log.</param>
    /// <param name="draft">What the entry says, but for who it is from.</param>
    /// <param name="name">What the bike is called from then on; null when the entry does not say.</param>
    /// <param name="photo">The photo that the entry names.</param>
    private async Task<BikeLog> AppendAsync(
        LogId log,
        EntryDraft draft,
        string? name = null,
        PhotoRow? photo = null
    )
    {
        await ReadyAsync().ConfigureAwait(true);
        BikeLog bike;
        await using (await LockAsync().ConfigureAwait(true))
        {
            bike = await LoadAsync(log, refresh: true).ConfigureAwait(true);
            await KeepAgainAsync().ConfigureAwait(true);
            await WriteAsync(bike, draft, name, photo).ConfigureAwait(true);
        }
        Tell(log);
        Written?.Invoke(log);
        return bike;
    }

    /// <inheritdoc/>
    public ValueTask RemoveDemoAsync() =>
        SetAsync(Setting.DemosTaken, string.Join(' ', DemoWorkshop.Ids));

    /// <inheritdoc/>
    public ValueTask RestoreDemoAsync() => SetAsync(Setting.DemosTaken, "");

    /// <summary>Whether a demo bike is not on the list.</summary>
    internal bool IsDemoTaken => DemoWorkshop.Ids.Any(TakenDemos());

    /// <summary>Fields of a bike that devices set without having seen one another.</summary>
    internal ImmutableArray<FieldConflict> ConflictsOf(string? id) =>
        BikeOf(id) is { } bike ? bike.Conflicts(Device) : [];

    /// <summary>How many entries of a bike this version does not understand.</summary>
    internal int NotUnderstoodIn(string? id) =>
        BikeOf(id) is { } bike ? bike.State.NotUnderstood.Count + bike.Unreadable.Count : 0;

    /// <summary>Tries once more to keep what is in memory only.</summary>
    internal async Task KeepNowAsync()
    {
        await using (await LockAsync().ConfigureAwait(true))
        {
            await KeepAgainAsync().ConfigureAwait(true);
        }
        Changed?.Invoke(null);
    }

    private BikeLog? BikeOf(string? id) =>
        Guid.TryParse(id, out var log) ? open.GetValueOrDefault(new(log)) : null;

    private async Task WriteAsync(BikeLog bike, EntryDraft draft, string? name, PhotoRow? photo)
    {
        if (!bike.IsRead)
        {
            // To go on with the device's chain without knowing its end would break it, and the bike's name is not known either.
            var apart = await PrepareAsync(bike, draft, ofThisPage).ConfigureAwait(true);
            KeepInMemory(bike, apart, photo);
            if (!cards.ContainsKey(apart.Log) && CardOf(bike, [apart]) is { } first)
            {
                cards[apart.Log] = first;
            }
            return;
        }
        var entry = await PrepareAsync(bike, draft, Device).ConfigureAwait(true);
        var outbox = OutboxOf(entry.Log).Append(entry);
        var card = new BikeRow(
            entry.Log.ToString(),
            name ?? bike.State.History.Sheet["name"] ?? "",
            entry.WallClockTicks
        );
        try
        {
            await store
                .WriteAsync([
                    StoreWrite.Put(EntryRow.Of(entry)),
                    StoreWrite.Put(OutboxRow.Of(entry.Log, outbox.Items.Last())),
                    StoreWrite.Put(card),
                    .. photo is null ? (StoreWrite[])[] : [StoreWrite.Put(photo)],
                ])
                .ConfigureAwait(true);
            bike.RowsSeen++;
            Fault = null;
        }
        catch (KeepException e)
        {
            Note(e);
            cards[entry.Log] = card;
            KeepInMemory(
                bike,
                await PrepareAsync(bike, draft, ofThisPage).ConfigureAwait(true),
                photo
            );
            return;
        }
        NoteWaiting(photo);
        cards[entry.Log] = card;
        outboxes[entry.Log] = outbox;
        bike.Log.Add(entry);
    }

    private void KeepInMemory(BikeLog bike, Entry entry, PhotoRow? photo)
    {
        unkept.Add(entry);
        NoteWaiting(photo);
        if (photo is not null)
        {
            unkeptPhotos[photo.PhotoId] = photo;
        }
        outboxes[entry.Log] = OutboxOf(entry.Log).Append(entry);
        bike.Log.Add(entry);
    }

    private async Task<Entry> PrepareAsync(BikeLog bike, EntryDraft content, DeviceId device)
    {
        var stamp = EntryStamp.Next(
            lastId,
            clock.GetUtcNow().UtcTicks,
            RandomNumberGenerator.GetBytes(EntryId.RandomBytes)
        );
        var draft = content with
        {
            Author = settings.GetValueOrDefault(Setting.Account) is { Length: > 0 } account
                ? $"account:{account}"
                : $"device:{Device}",
        };
        var made = bike.Log.Prepare(device, stamp, draft);
        if (made.Fault is { Kind: LogFaultKind.Forked or LogFaultKind.OwnEntriesWaiting })
        {
            // This browser's data was copied or set back: from here on it is another device.
            Device = new(Guid.NewGuid());
            settings[Setting.Device] = Device.ToString();
            try
            {
                await store
                    .WriteAsync([Put(Setting.Device, Device.ToString())])
                    .ConfigureAwait(true);
            }
            catch (KeepException e)
            {
                Note(e);
            }
            made = bike.Log.Prepare(Device, stamp, draft);
        }
        lastId = stamp.Id;
        return made.Value ?? throw new InvalidOperationException(made.Fault!.Text);
    }

    /// <summary>Under the lock: writes what the store did not take before.</summary>
    private async Task KeepAgainAsync()
    {
        if (unkept.Count == 0 && unkeptPhotos.Count == 0)
        {
            return;
        }
        foreach (var log in unkept.GroupBy(entry => entry.Log))
        {
            // What the bike is called depends on all of its entries.
            var bike = await LoadAsync(log.Key, refresh: true).ConfigureAwait(true);
            if (!bike.IsRead)
            {
                return;
            }
            if (CardOf(bike, [.. log]) is { } whole)
            {
                cards[log.Key] = whole;
            }
        }
        try
        {
            await store
                .WriteAsync([
                    .. unkept.SelectMany(entry =>
                        OutboxOf(entry.Log)
                            .Items.Where(item => item.Id == entry.Id)
                            .Select(item => StoreWrite.Put(OutboxRow.Of(entry.Log, item)))
                            .Append(StoreWrite.Put(EntryRow.Of(entry)))
                            // A log of which nothing is about a bike has none.
                            .Concat(
                                cards.TryGetValue(entry.Log, out var card)
                                    ? [StoreWrite.Put(card)]
                                    : []
                            )
                    ),
                    .. unkeptPhotos.Values.Select(StoreWrite.Put),
                ])
                .ConfigureAwait(true);
            foreach (var entry in unkept)
            {
                if (open.TryGetValue(entry.Log, out var bike) && bike.RowsSeen >= 0)
                {
                    bike.RowsSeen++;
                }
            }
            unkept.Clear();
            unkeptPhotos.Clear();
            Fault = null;
        }
        catch (KeepException e)
        {
            Note(e);
        }
    }

    private void Note(KeepException e)
    {
        Fault = e.Fault;
        FaultSaid = e.Message;
    }

    /// <inheritdoc/>
    public bool IsUnread(string id) =>
        Fault == KeepFault.Held || unread.ContainsKey(id) || unread.ContainsKey(Tables);

    // Told only when it is news: who hears of it looks, and reads, again.
    private void NoteUnread(string what, KeepException e)
    {
        if (unread.GetValueOrDefault(what) != e.Message)
        {
            unread[what] = e.Message;
            Changed?.Invoke(null);
        }
    }

    private void NoteRead(string what)
    {
        if (unread.Remove(what))
        {
            Changed?.Invoke(null);
        }
    }

    private void Tell(LogId log)
    {
        store.Tell(log.ToString());
        Changed?.Invoke(log.ToString());
    }

    private async ValueTask<IAsyncDisposable?> LockAsync() =>
        Fault == KeepFault.NoStore ? null : await store.LockAsync(WriteLock).ConfigureAwait(true);

    private Func<string, bool> TakenDemos() =>
        (settings.GetValueOrDefault(Setting.DemosTaken) ?? "").Split(' ').Contains;
}
