using System.Collections.Immutable;
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

    /// <summary>The demo workshop's parts that are in the library as they were brought there.</summary>
    public ImmutableArray<Part> DemoParts =>
        [.. Files.DemoParts.Library.Parts.Where(part => part.Equals(Library.Find(part.Id)))];

    /// <summary>
    /// Brings the demo workshop's parts back, or takes them away: in the shop, for everybody there; where the library has only ever
    /// been the demo's and no server is there, on this device.
    /// </summary>
    /// <exception cref="HttpRequestException">
    /// The shop's server cannot be reached, or refuses: the library is the shop's, and stays as it is.
    /// </exception>
    public async Task SetDemoAsync(bool there)
    {
        await ReadyAsync().ConfigureAwait(true);
        try
        {
            await shop.SetDemoAsync(there, CancellationToken.None).ConfigureAwait(true);
        }
        catch (HttpRequestException e) when (e.StatusCode is null && mark is null or "")
        {
            var library = new ShopLibrary(
                PartsWriter.ToCsv(there ? Files.DemoParts.Library.Parts : []),
                Mark: ""
            );
            _ = TryTake(library);
            await keep.KeepAsync(library).ConfigureAwait(true);
            Changed?.Invoke();
            return;
        }
        await RefreshAsync().ConfigureAwait(true);
        if (IsReached != true)
        {
            // It was somebody else who said yes.
            throw new HttpRequestException(Texts.Get("library.demoAway"));
        }
    }

    /// <summary>What a file would change in the shop's library as it is now, as far as its server can be reached.</summary>
    /// <param name="file">The file, byte for byte.</param>
    /// <param name="name">What it is called.</param>
    /// <param name="progress">Called now and then with how many entries are read; awaited, so that a page can draw in between.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public async Task<ImportPreview> PreviewAsync(
        ReadOnlyMemory<byte> file,
        string name,
        Func<int, Task>? progress,
        CancellationToken cancellation
    )
    {
        // The bytes: what is not UTF-8 is told as such, instead of becoming wrong letters.
        using var stream = new MemoryStream(file.ToArray(), writable: false);
        var reading = await PartsReader
            .ReadAsync(stream, name, progress, cancellation)
            .ConfigureAwait(true);
        await RefreshAsync(cancellation).ConfigureAwait(true);
        return Preview(file, reading);
    }

    /// <summary>What the same file would change in the library as it is now.</summary>
    public ImportPreview Again(ImportPreview before)
    {
        ArgumentNullException.ThrowIfNull(before);
        return Preview(before.File, before.Reading);
    }

    private ImportPreview Preview(ReadOnlyMemory<byte> file, PartsReading reading) =>
        new(file, reading, PartImport.Preview(Library, reading), mark ?? "");

    /// <summary>Stores the good parts of a file in the shop's library, if that is still the one of the preview.</summary>
    /// <param name="preview">The preview that somebody has seen.</param>
    /// <param name="progress">Told now and then.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="HttpRequestException">The server refuses; nothing is stored, and the message says what to do.</exception>
    public async Task<ImportEnd> ImportAsync(
        ImportPreview preview,
        IProgress<ImportProgress> progress,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(preview);
        var isTold = false;
        try
        {
            await shop.ImportAsync(
                    preview.File,
                    preview.Reading.File,
                    preview.Mark,
                    progress,
                    cancellation
                )
                .ConfigureAwait(true);
            isTold = true;
        }
        catch (OperationCanceledException)
        {
            // The server may have been quicker: what the library is now says it.
        }
        catch (HttpRequestException e) when (e.StatusCode is null)
        {
            // The same.
        }
        catch (HttpRequestException)
        {
            await RefreshAsync(CancellationToken.None).ConfigureAwait(true);
            throw;
        }
        await RefreshAsync(CancellationToken.None).ConfigureAwait(true);
        var left = Again(preview).Import;
        return isTold ? ImportEnd.Stored
            : IsReached != true ? ImportEnd.NotKnown
            : left.Added.Length + left.Changed.Length == 0 ? ImportEnd.Stored
            : ImportEnd.NotStored;
    }

    private async Task LoadAsync()
    {
        if (await keep.KeptAsync().ConfigureAwait(true) is { } kept && TryTake(kept))
        {
            return;
        }
        // A demo bike on the first page may be what asks for it: the page goes on meanwhile.
        var demo = await Files.DemoParts.ReadAsync(() => Task.Delay(1)).ConfigureAwait(true);
        (Library, IsDemo) = (demo, true);
    }

    /// <summary>Takes a library in, unless it is none: what is here is worth more than a page of a hotel's, or half a file.</summary>
    private bool TryTake(ShopLibrary library)
    {
        var reading = PartsReader.Read(library.Text, Kept);
        if (reading.IsUnusable)
        {
            return false;
        }
        (Library, IsDemo) = (new(reading.Parts), false);
        mark = library.Mark;
        return true;
    }
}
