using System.Security.Cryptography;
using System.Text.Json.Serialization;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>An entry on the device: its bytes, whether or not this version can read them.</summary>
internal sealed record EntryRow(string Id, string Log, string Bytes)
{
    internal static EntryRow Of(Entry entry) =>
        new(entry.Id.ToString(), entry.Log.ToString(), Convert.ToBase64String(entry.Encoded.Span));

    /// <summary>
    /// A row for bytes that this version cannot read: they are kept, under a key made from them, so that the same bytes are one row.
    /// </summary>
    internal static EntryRow OfUnreadable(LogId log, byte[] bytes) =>
        new(
            new Guid(SHA256.HashData(bytes).AsSpan(0, 16)).ToString(),
            log.ToString(),
            Convert.ToBase64String(bytes)
        );

    /// <summary>Its key as the id of an entry; of no entry, when the bytes cannot be read.</summary>
    internal EntryId EntryId => new(Guid.Parse(Id));

    /// <summary>The entry, or null when this version cannot read it.</summary>
    internal Entry? Read()
    {
        var bytes = new byte[((Bytes.Length * 3) + 3) / 4];
        return
            Convert.TryFromBase64String(Bytes, bytes, out var length)
            && Entry.Read(bytes.AsSpan(0, length)) is { IsGood: true, Value: var entry }
            ? entry
            : null;
    }
}

/// <summary>An entry that the server has not confirmed.</summary>
internal sealed record OutboxRow(
    string Id,
    string Log,
    long Place,
    string Hash,
    int SizeBytes,
    bool IsRefused,
    string Reason
)
{
    internal static OutboxRow Of(LogId log, OutboxItem item) =>
        new(
            item.Id.ToString(),
            log.ToString(),
            item.Place,
            item.Hash.ToString(),
            item.SizeBytes,
            item.State == OutboxState.Refused,
            item.Reason
        );

    internal OutboxItem Item() =>
        new(
            Place,
            new EntryId(Guid.Parse(Id)),
            new Digest(Convert.FromHexString(Hash)),
            SizeBytes,
            IsRefused ? OutboxState.Refused : OutboxState.Unsent,
            Reason
        );
}

/// <summary>A bike in the list, so that the list needs no log to be read.</summary>
/// <param name="Log">Its log.</param>
/// <param name="Name">What it is called.</param>
/// <param name="UtcTicks">When it was last changed, as the devices believed; for the order of the list only.</param>
internal sealed record BikeRow(string Log, string Name, long UtcTicks);

/// <summary>How far the device has fetched a log.</summary>
/// <param name="Log">The log.</param>
/// <param name="Epoch">The life of the server's store that the number belongs to.</param>
/// <param name="Receipt">The number.</param>
/// <param name="Met">The life of the server's store that answers are believed from.</param>
internal sealed record CursorRow(string Log, Guid Epoch, long Receipt, Guid Met)
{
    internal PullCursor Cursor => new(Epoch, Receipt);
}

/// <summary>What the device remembers of itself.</summary>
internal sealed record SettingRow(string Name, string Value);

/// <summary>What the device keeps beside the entries.</summary>
/// <param name="Outbox">What the server has not confirmed.</param>
/// <param name="Bikes">The list of bikes.</param>
/// <param name="Cursors">How far each log was fetched.</param>
/// <param name="Settings">What the device remembers of itself.</param>
/// <param name="Photos">The ids of all photos; they themselves are read one by one.</param>
/// <param name="WaitingPhotos">The ids of those that are to be sent.</param>
internal sealed record TableRows(
    OutboxRow[] Outbox,
    BikeRow[] Bikes,
    CursorRow[] Cursors,
    SettingRow[] Settings,
    string[] Photos,
    string[] WaitingPhotos
)
{
    internal static TableRows Empty { get; } = new([], [], [], [], [], []);
}

/// <summary>One change of the store; of the rows one is given, or the key of a row to take out.</summary>
internal sealed record StoreWrite(string Store)
{
    public EntryRow? Entry { get; init; }

    public OutboxRow? Outbox { get; init; }

    public BikeRow? Bike { get; init; }

    public CursorRow? Cursor { get; init; }

    public SettingRow? Setting { get; init; }

    public PhotoRow? Photo { get; init; }

    public string? Drop { get; init; }

    internal static StoreWrite Put(EntryRow row) => new(Stores.Entries) { Entry = row };

    internal static StoreWrite Put(OutboxRow row) => new(Stores.Outbox) { Outbox = row };

    internal static StoreWrite Put(BikeRow row) => new(Stores.Bikes) { Bike = row };

    internal static StoreWrite Put(CursorRow row) => new(Stores.Cursors) { Cursor = row };

    internal static StoreWrite Put(SettingRow row) => new(Stores.Settings) { Setting = row };

    internal static StoreWrite Put(PhotoRow row) => new(Stores.Photos) { Photo = row };

    internal static StoreWrite Remove(string store, string key) => new(store) { Drop = key };
}

/// <summary>The stores of the device's database, as js/store.js makes them.</summary>
internal static class Stores
{
    internal const string Entries = "entries";
    internal const string Outbox = "outbox";
    internal const string Bikes = "bikes";
    internal const string Cursors = "cursors";
    internal const string Settings = "settings";
    internal const string Photos = "photos";
}

/// <summary>How rows are written; made at build time, so that trimming takes nothing away.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull
)]
[JsonSerializable(typeof(StoreWrite[]))]
[JsonSerializable(typeof(EntryRow[]))]
[JsonSerializable(typeof(PhotoRow[]))]
[JsonSerializable(typeof(TableRows))]
internal sealed partial class RowJson : JsonSerializerContext;
