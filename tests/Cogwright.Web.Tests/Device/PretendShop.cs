using System.Collections.Immutable;
using Cogwright.Log;

namespace Cogwright.Web.Tests.Device;

using Cogwright.Web.Device;

/// <summary>A shop's server in memory.</summary>
internal sealed class PretendShop : IShop
{
    private readonly Dictionary<LogId, List<Entry>> logs = [];

    internal Guid Epoch { get; set; } = Guid.NewGuid();

    internal ShopFault? Fails { get; set; }

    /// <summary>Kinds that it refuses, or entries, by what they set.</summary>
    internal Func<Entry, string?> Refuses { get; set; } = _ => null;

    /// <summary>Entries because of which it refuses a whole sending.</summary>
    internal Func<Entry, bool> IsBad { get; set; } = _ => false;

    /// <summary>A job that it refuses whole.</summary>
    internal LogId? Locked { get; set; }

    /// <summary>Bytes in a job that this version cannot read.</summary>
    internal Dictionary<LogId, byte[]> Unreadable { get; } = [];

    /// <summary>The photos, by their digest.</summary>
    internal Dictionary<Digest, PersonalDatum> Photos { get; } = [];

    /// <summary>Whether somebody on the way says yes to photos that never arrive.</summary>
    internal bool Swallows { get; set; }

    /// <summary>Photos that were erased.</summary>
    internal HashSet<Digest> Erased { get; } = [];

    /// <summary>What was asked of it, in order: "entries" and "photo".</summary>
    internal List<string> Sendings { get; } = [];

    internal int Requests { get; private set; }

    internal IReadOnlyList<Entry> Of(LogId log) => logs.GetValueOrDefault(log) ?? [];

    internal void Put(Entry entry) => ListOf(entry.Log).Add(entry);

    internal void LoseEverything()
    {
        logs.Clear();
        Photos.Clear();
        Epoch = Guid.NewGuid();
    }

    public Task<ImmutableArray<ShopJob>> JobsAsync()
    {
        Answer();
        return Task.FromResult(
            logs.Select(log => new ShopJob(log.Key, log.Value.Count)).ToImmutableArray()
        );
    }

    public Task<OverviewShape> OverviewAsync() => throw new NotSupportedException();

    public Task<FoundShape> FindAsync(string words) => throw new NotSupportedException();

    public Task PlanAsync(string kind, double? hours) => throw new NotSupportedException();

    public Task<ShopPage> PullAsync(LogId log, PullCursor cursor)
    {
        Answer();
        if (log == Locked)
        {
            throw new ShopException(ShopFault.Refused, "this one is locked");
        }
        var after = cursor.Epoch == Epoch ? (int)cursor.Receipt : 0;
        var all = Of(log);
        var held = new EntryLog(log);
        held.Merge(all);
        // Two on a page, so that pages matter.
        var page = all.Skip(after).Take(2).ToImmutableArray();
        return Task.FromResult(
            new ShopPage(
                new PullPage(
                    Epoch,
                    after,
                    after + page.Length,
                    page,
                    held.Tips,
                    after + page.Length < all.Count
                ),
                Unreadable.TryGetValue(log, out var bytes) ? [bytes] : []
            )
        );
    }

    public Task<AnswerPage> AppendAsync(LogId log, ImmutableArray<Entry> entries)
    {
        Answer();
        if (entries.Any(IsBad))
        {
            throw new ShopException(ShopFault.BadEntry, "not readable");
        }
        Sendings.Add("entries");
        return Task.FromResult(new AnswerPage(Epoch, [.. entries.Select(entry => Take(entry))]));
    }

    public Task<ShopPhotos> PhotosAsync(LogId log)
    {
        Answer();
        return Task.FromResult(new ShopPhotos([.. Photos.Keys], [.. Erased]));
    }

    public Task SendPhotoAsync(LogId log, PersonalDatum photo, string contentType)
    {
        Answer();
        if (Erased.Contains(photo.Digest))
        {
            throw new ShopException(ShopFault.Erased, "erased");
        }
        Sendings.Add("photo");
        if (!Swallows)
        {
            Photos[photo.Digest] = photo;
        }
        return Task.CompletedTask;
    }

    public Task<PersonalDatum?> PhotoAsync(LogId log, Digest digest)
    {
        Answer();
        return Task.FromResult(Photos.GetValueOrDefault(digest));
    }

    /// <summary>Erases a photo for good.</summary>
    internal void Erase(Digest digest)
    {
        Photos.Remove(digest);
        Erased.Add(digest);
    }

    /// <summary>Who is logged in.</summary>
    internal Guid? Account { get; set; }

    public Task<CountersignedHeads?> StatementAsync(LogId log, bool anew) =>
        Task.FromResult<CountersignedHeads?>(null);

    public Task<ShopPerson> PersonAsync()
    {
        Answer();
        return Task.FromResult(new ShopPerson("owner", Account));
    }

    public Task<ShopPerson> LogInAsync(string userName, string password, DeviceId device) =>
        PersonAsync();

    public Task LogOutAsync()
    {
        Answer();
        Account = null;
        return Task.CompletedTask;
    }

    private Answer Take(Entry entry)
    {
        if (Refuses(entry) is { } reason)
        {
            return new(entry.Id, entry.Hash, AnswerStatus.Refused, reason);
        }
        if (Of(entry.Log).Contains(entry))
        {
            return new(entry.Id, entry.Hash, AnswerStatus.Exists);
        }
        ListOf(entry.Log).Add(entry);
        return new(entry.Id, entry.Hash, AnswerStatus.Created);
    }

    private List<Entry> ListOf(LogId log) =>
        logs.TryGetValue(log, out var found) ? found : logs[log] = [];

    private void Answer()
    {
        Requests++;
        if (Fails is { } fault)
        {
            throw new ShopException(fault, "no answer");
        }
    }
}

/// <summary>A page that is always in front.</summary>
internal sealed class PretendSignals : ISignals
{
    public event Action? Woke
    {
        add { }
        remove { }
    }

    public event Action? Slept
    {
        add { }
        remove { }
    }

    public event Action<string>? Grown
    {
        add { }
        remove { }
    }

    public event Action? StreamEnded;

    public bool IsAwake => true;

    /// <summary>What happens when the stream is opened.</summary>
    internal Action Opened { get; set; } = () => { };

    internal void EndStream() => StreamEnded?.Invoke();

    public ValueTask BeginAsync() => ValueTask.CompletedTask;

    public void Listen() => Opened();

    public void StopListening() { }
}

/// <summary>A device: a browser, with one tab open.</summary>
internal sealed class PretendDevice
{
    internal PretendDevice(
        PretendShop shop,
        PretendBrowser? browser = null,
        TimeProvider? clock = null
    )
    {
        Browser = browser ?? new();
        Shop = shop;
        var store = Browser.NewTab();
        Shelf = new DeviceShelf(store, TimeProvider.System);
        Courier = new Courier(Shelf, shop, Signals, store, clock ?? TimeProvider.System);
    }

    internal PretendBrowser Browser { get; }

    internal PretendShop Shop { get; }

    internal PretendSignals Signals { get; } = new();

    internal DeviceShelf Shelf { get; }

    internal Courier Courier { get; }

    internal async Task ExchangeAsync()
    {
        await Shelf.ReadyAsync();
        Courier.TryNow();
        await Courier.TryAsync();
    }

    /// <summary>The same browser after the page was closed and opened again.</summary>
    internal PretendDevice Reloaded() => new(Shop, Browser);
}
