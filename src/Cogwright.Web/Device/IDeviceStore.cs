namespace Cogwright.Web.Device;

/// <summary>Why the device could not keep something.</summary>
internal enum KeepFault
{
    /// <summary>The browser gives this page no storage.</summary>
    NoStore,

    /// <summary>Another tab holds the storage in the shape of an earlier version.</summary>
    Held,

    /// <summary>The storage is full.</summary>
    Full,

    /// <summary>Something else; the browser's words tell.</summary>
    Other,
}

/// <summary>The device could not keep something.</summary>
internal sealed class KeepException(KeepFault fault, string browserSays) : Exception(browserSays)
{
    internal KeepFault Fault { get; } = fault;
}

/// <summary>What survives the page: rows in stores, locks and news between the tabs of this browser.</summary>
internal interface IDeviceStore
{
    /// <summary>Another tab has changed the rows of a log; an empty text: the settings.</summary>
    event Action<string>? Heard;

    /// <summary>Opens it.</summary>
    /// <exception cref="KeepException">There is none.</exception>
    ValueTask OpenAsync();

    /// <summary>The entries of one log, or of all.</summary>
    /// <exception cref="KeepException">They could not be read.</exception>
    ValueTask<EntryRow[]> EntriesAsync(string? log);

    /// <summary>The photo with that id; none, when there is none.</summary>
    /// <exception cref="KeepException">It could not be read.</exception>
    ValueTask<PhotoRow[]> PhotoAsync(string id);

    /// <summary>Everything but the entries and the photos' bytes, as it stood at one moment.</summary>
    /// <exception cref="KeepException">It could not be read.</exception>
    ValueTask<TableRows> TablesAsync();

    /// <summary>How many entries a log has; of all logs, without one.</summary>
    /// <exception cref="KeepException">They could not be counted.</exception>
    ValueTask<int> CountAsync(string? log);

    /// <summary>Writes in one transaction, all or nothing; it is on the disk when this ends.</summary>
    /// <exception cref="KeepException">Nothing was written.</exception>
    ValueTask WriteAsync(StoreWrite[] writes);

    /// <summary>Waits until no other tab holds the lock, and holds it until what is returned is disposed of.</summary>
    ValueTask<IAsyncDisposable> LockAsync(string name);

    /// <summary>Tells the other tabs; see <see cref="Heard"/>.</summary>
    void Tell(string log);
}
