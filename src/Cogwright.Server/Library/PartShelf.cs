using Cogwright.Parts;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>
/// Holds the shop's library in memory. The store is asked for its revision at every use, so that what another server on the
/// same database has changed is seen at once; when it is another one, the parts are read that came or were changed since.
/// </summary>
internal sealed class PartShelf(ShopStore store, ILogger<PartShelf> log) : IDisposable
{
    private readonly SemaphoreSlim reading = new(1, 1);
    private volatile HeldLibrary? held;

    /// <summary>The library as it is now.</summary>
    internal async Task<HeldLibrary> PresentAsync(CancellationToken cancellation)
    {
        var revision = await store.PartsRevisionAsync(cancellation).ConfigureAwait(false);
        if (held is { } known && known.Revision == revision)
        {
            return known;
        }
        await reading.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            // Whoever waited may find it read meanwhile; later than asked for is as good.
            if (held is { } read && read.Revision >= revision)
            {
                return read;
            }
            var now = held is { } before
                ? await LaterAsync(before, cancellation).ConfigureAwait(false)
                : await AllAsync(cancellation).ConfigureAwait(false);
            if (!now.Damaged.IsEmpty)
            {
                Telling.PartsDamaged(log, now.Damaged.Count);
            }
            held = now;
            return now;
        }
        finally
        {
            reading.Release();
        }
    }

    private async Task<HeldLibrary> LaterAsync(HeldLibrary before, CancellationToken cancellation)
    {
        var (later, count) = await store
            .PartsAfterAsync(before.Revision, cancellation)
            .ConfigureAwait(false);
        var library = before.Library.With(later.Parts).Library;
        var ids = later.Parts.Select(part => part.Id).ToList();
        var damaged = before.Damaged.Except(ids).Union(later.Damaged);
        return
            library.Count + damaged.Count == count
            && later.Damaged.All(id => library.Find(id) is null)
            ? new HeldLibrary(
                later.Revision,
                library,
                before.Demo.Except(ids).Union(later.Demo),
                damaged
            )
            // Some were taken out, and nothing says which.
            : await AllAsync(cancellation).ConfigureAwait(false);
    }

    private async Task<HeldLibrary> AllAsync(CancellationToken cancellation)
    {
        var stored = await store.PartsAsync(cancellation).ConfigureAwait(false);
        return new HeldLibrary(
            stored.Revision,
            new PartLibrary(stored.Parts),
            stored.Demo,
            stored.Damaged
        );
    }

    public void Dispose() => reading.Dispose();
}
