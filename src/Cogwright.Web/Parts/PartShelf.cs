using Cogwright.Files;
using Cogwright.Parts;

namespace Cogwright.Web.Parts;

/// <summary>
/// The library of parts on this device: the shop's as it was last fetched, or the demo workshop's when it never was. It is
/// there without the server; what has changed since is fetched when the server is.
/// </summary>
public sealed class PartShelf(ILibraryKeep keep, IShopParts shop)
{
    private const string Kept = "library.csv";

    private Task? ready;
    private string? mark;

    /// <summary>The library is another one.</summary>
    public event Action? Changed;

    /// <summary>The library; empty until <see cref="ReadyAsync"/> has ended.</summary>
    public PartLibrary Library { get; private set; } = PartLibrary.Empty;

    /// <summary>Whether it is the demo workshop's.</summary>
    public bool IsDemo { get; private set; }

    /// <summary>Whether the shop's server was reached when it was last asked for; null before it was asked.</summary>
    public bool? IsReached { get; private set; }

    /// <summary>Waits until the library is there, as it was kept on this device.</summary>
    public Task ReadyAsync() => ready ??= LoadAsync();

    /// <summary>Fetches what has changed in the shop's library; without the server what is kept stands.</summary>
    public async Task RefreshAsync(CancellationToken cancellation = default)
    {
        await ReadyAsync().ConfigureAwait(true);
        try
        {
            if (await shop.FetchAsync(mark, cancellation).ConfigureAwait(true) is { } fetched)
            {
                IsReached = TryTake(fetched);
                if (IsReached == true)
                {
                    await keep.KeepAsync(fetched).ConfigureAwait(true);
                }
            }
            else
            {
                IsReached = true;
            }
        }
        catch (HttpRequestException)
        {
            IsReached = false;
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            // It did not answer in time: no server is there.
            IsReached = false;
        }
        Changed?.Invoke();
    }

    /// <summary>
    /// Brings the demo workshop's parts back, or takes them away: in the shop when its server can be reached, and where the
    /// library has only ever been the demo's, on this device.
    /// </summary>
    public async Task SetDemoAsync(bool there)
    {
        await ReadyAsync().ConfigureAwait(true);
        try
        {
            await shop.SetDemoAsync(there, CancellationToken.None).ConfigureAwait(true);
            await RefreshAsync().ConfigureAwait(true);
        }
        catch (HttpRequestException) when (mark is null or "")
        {
            var library = new ShopLibrary(
                PartsWriter.ToCsv(there ? DemoParts.Library.Parts : []),
                Mark: ""
            );
            _ = TryTake(library);
            await keep.KeepAsync(library).ConfigureAwait(true);
            Changed?.Invoke();
        }
        catch (HttpRequestException)
        {
            // The shop's library is the shop's: without its server, or without the right to, it stays.
            IsReached = false;
            Changed?.Invoke();
        }
    }

    /// <summary>What a file would change.</summary>
    public PartImport Preview(string text, string name) =>
        PartImport.Preview(Library, PartsReader.Read(text, name));

    /// <summary>Stores the good parts of a file in the shop's library.</summary>
    /// <exception cref="HttpRequestException">The server cannot be reached, or refuses; nothing is stored then.</exception>
    public async Task ImportAsync(
        string text,
        string name,
        IProgress<ImportProgress> progress,
        CancellationToken cancellation
    )
    {
        await shop.ImportAsync(text, name, progress, cancellation).ConfigureAwait(true);
        await RefreshAsync(cancellation).ConfigureAwait(true);
    }

    private async Task LoadAsync()
    {
        if (await keep.KeptAsync().ConfigureAwait(true) is { } kept && TryTake(kept))
        {
            return;
        }
        (Library, IsDemo) = (DemoParts.Library, true);
    }

    /// <summary>Takes a library in, unless it is none: what is here is worth more than a page of a hotel's, or half a file.</summary>
    private bool TryTake(ShopLibrary library)
    {
        var reading = PartsReader.Read(library.Text, Kept);
        if (reading.Parts.IsEmpty && reading.Problems.Any(problem => problem.IsError))
        {
            return false;
        }
        (Library, IsDemo) = (new(reading.Parts), false);
        mark = library.Mark;
        return true;
    }
}
