using Cogwright.Parts;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>
/// Holds the shop's library in memory. The store is asked for its revision at every use, so that what another server on the
/// same database has changed is seen at once; the parts are read anew only when it is another one.
/// </summary>
internal sealed class PartShelf(ShopStore store) : IDisposable
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
            var stored = await store.PartsAsync(cancellation).ConfigureAwait(false);
            var now = new HeldLibrary(stored.Revision, new PartLibrary(stored.Parts), stored.Demo);
            held = now;
            return now;
        }
        finally
        {
            reading.Release();
        }
    }

    public void Dispose() => reading.Dispose();
}
