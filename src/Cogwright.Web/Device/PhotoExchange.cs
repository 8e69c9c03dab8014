using System.Runtime.ExceptionServices;
using System.Text;
using Cogwright.Facts;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <summary>How far a photo can be shown.</summary>
internal enum PhotoState
{
    /// <summary>It is here.</summary>
    Here,

    /// <summary>It is not on this device, and could not be fetched so far.</summary>
    NotHere,

    /// <summary>It was erased for good.</summary>
    Erased,
}

/// <summary>A photo as a page shows it. Immutable.</summary>
/// <param name="State">How far it can be shown.</param>
/// <param name="Address">A data address for an image; empty unless it is here.</param>
internal sealed record PhotoSight(PhotoState State, string Address = "");

/// <summary>
/// Brings photos to the shop's server after the entries that name them, fetches those of others when they are to be shown, and
/// lets go of copies of what was erased.
/// </summary>
internal sealed class PhotoExchange(DeviceShelf shelf, IShop shop, TimeProvider clock)
{
    // A page shows many labels of one bike: they ask once together.
    private static readonly TimeSpan AskAgainAfter = TimeSpan.FromSeconds(1);

    private readonly Dictionary<LogId, (DateTimeOffset At, Task<ShopPhotos?> Asking)> asked = [];

    /// <summary>Sends what of a log's photos the server lacks and has confirmed the entries of.</summary>
    /// <exception cref="ShopException">Some could not be sent; the others were.</exception>
    internal async Task SendAsync(LogId log)
    {
        var own = shelf.PhotosOf(log);
        if (own.IsEmpty)
        {
            return;
        }
        var there = await shop.PhotosAsync(log).ConfigureAwait(true);
        await LetGoAsync(log, there).ConfigureAwait(true);
        ShopException? refused = null;
        // Their ids only: together they are more than a phone holds.
        var sent = new List<PhotoId>();
        foreach (var id in own.Where(id => !there.Erased.Contains(id.Digest)))
        {
            try
            {
                if (await SendAsync(id, there.Held.Contains(id.Digest)).ConfigureAwait(true))
                {
                    sent.Add(id);
                }
            }
            catch (ShopException e)
                when (e is { Fault: ShopFault.Refused or ShopFault.NotThere, RetryAfter: null })
            {
                // One that is refused does not keep the others waiting.
                refused ??= e;
            }
        }
        if (sent.Count > 0)
        {
            await BelieveAsync(log, sent).ConfigureAwait(true);
        }
        if (refused is not null)
        {
            ExceptionDispatchInfo.Throw(refused);
        }
    }

    /// <summary>
    /// What the server names is there; a yes on the way may have been somebody else's, and the only copy may be the one here.
    /// </summary>
    private async Task BelieveAsync(LogId log, List<PhotoId> sent)
    {
        var there = await shop.PhotosAsync(log).ConfigureAwait(true);
        await LetGoAsync(log, there).ConfigureAwait(true);
        foreach (var id in sent.Where(id => there.Held.Contains(id.Digest)))
        {
            if (await shelf.PhotoAsync(id).ConfigureAwait(true) is { } row)
            {
                await shelf.TakePhotoAsync(row with { IsSent = true }).ConfigureAwait(true);
            }
        }
        if (sent.Exists(id => !there.Held.Contains(id.Digest) && !there.Erased.Contains(id.Digest)))
        {
            throw new ShopException(ShopFault.Refused, Texts.Get("storage.photoNotThere"));
        }
    }

    /// <summary>A photo: from this device, else from the server.</summary>
    internal async Task<PhotoSight> LookAsync(LogId log, LabelPhoto photo)
    {
        var (state, datum) = await FindAsync(log, photo.Digest, photo.ContentType)
            .ConfigureAwait(true);
        return datum is null ? new(state) : Sight(datum, photo);
    }

    /// <summary>Words that lie beside a log: from this device, else from the server; null with the state when they are not to be had.</summary>
    internal async Task<(PhotoState State, string? Words)> WordsAsync(LogId log, Digest digest)
    {
        var (state, datum) = await FindAsync(log, digest, "text/plain").ConfigureAwait(true);
        return (state, datum is null ? null : Encoding.UTF8.GetString(datum.Data.Span));
    }

    private async Task<(PhotoState State, PersonalDatum? Datum)> FindAsync(
        LogId log,
        Digest digest,
        string contentType
    )
    {
        var id = new PhotoId(log, digest);
        if (await shelf.PhotoAsync(id).ConfigureAwait(true) is { } row)
        {
            if (row.IsErased)
            {
                return (PhotoState.Erased, null);
            }
            if (row.Datum() is { } kept)
            {
                return (PhotoState.Here, kept);
            }
        }
        if (await AskAsync(log).ConfigureAwait(true) is not { } there)
        {
            return (PhotoState.NotHere, null);
        }
        if (there.Erased.Contains(digest))
        {
            await EraseAsync(id).ConfigureAwait(true);
            return (PhotoState.Erased, null);
        }
        try
        {
            if (
                there.Held.Contains(digest)
                && await shop.PhotoAsync(log, digest).ConfigureAwait(true) is { } datum
                // Else it is not what the entry names.
                && datum.Digest == digest
            )
            {
                await shelf
                    .TakePhotoAsync(PhotoRow.Of(log, datum, contentType, isSent: true))
                    .ConfigureAwait(true);
                return (PhotoState.Here, datum);
            }
        }
        catch (ShopException)
        {
            // The bar says how things stand with the server; it is shown when it comes.
        }
        return (PhotoState.NotHere, null);
    }

    /// <summary>Asks whether photos of a log were erased, and lets go of the copies here.</summary>
    /// <returns>Whether one of them is gone; false when the server did not answer.</returns>
    internal async Task<bool> LetGoAsync(LogId log, Digest digest) =>
        await AskAsync(log).ConfigureAwait(true) is { } there && there.Erased.Contains(digest);

    /// <summary>What the server says of the photos of a log, or null when it did not answer.</summary>
    private Task<ShopPhotos?> AskAsync(LogId log)
    {
        var now = clock.GetUtcNow();
        if (asked.TryGetValue(log, out var last) && now - last.At < AskAgainAfter)
        {
            return last.Asking;
        }
        var asking = AskNowAsync(log);
        asked[log] = (now, asking);
        return asking;
    }

    private async Task<ShopPhotos?> AskNowAsync(LogId log)
    {
        try
        {
            var there = await shop.PhotosAsync(log).ConfigureAwait(true);
            await LetGoAsync(log, there).ConfigureAwait(true);
            return there;
        }
        catch (ShopException)
        {
            // The bar says how things stand with the server; it is asked again at the next look.
            return null;
        }
    }

    private async Task LetGoAsync(LogId log, ShopPhotos there)
    {
        foreach (var id in shelf.PhotosOf(log).Where(id => there.Erased.Contains(id.Digest)))
        {
            await EraseAsync(id).ConfigureAwait(true);
        }
    }

    /// <summary>Sends one photo, unless it need not or must not be.</summary>
    /// <returns>Whether it was sent: it is to be believed to be there only once the server names it.</returns>
    private async Task<bool> SendAsync(PhotoId id, bool isThere)
    {
        if (isThere && !shelf.IsWaiting(id))
        {
            return false;
        }
        if (
            await shelf.PhotoAsync(id).ConfigureAwait(true) is not { } row
            || row.Datum() is not { } datum
            || !await shelf.IsNamedThereAsync(id).ConfigureAwait(true)
        )
        {
            return false;
        }
        if (isThere)
        {
            await shelf.TakePhotoAsync(row with { IsSent = true }).ConfigureAwait(true);
            return false;
        }
        try
        {
            await shop.SendPhotoAsync(id.Log, datum, row.ContentType).ConfigureAwait(true);
            return true;
        }
        catch (ShopException e) when (e.Fault == ShopFault.Erased)
        {
            await EraseAsync(id).ConfigureAwait(true);
            return false;
        }
    }

    private async Task EraseAsync(PhotoId id)
    {
        if (await shelf.PhotoAsync(id).ConfigureAwait(true) is not { IsErased: true })
        {
            await shelf.TakePhotoAsync(PhotoRow.Erased(id)).ConfigureAwait(true);
        }
    }

    private static PhotoSight Sight(PersonalDatum datum, LabelPhoto photo) =>
        new(
            PhotoState.Here,
            $"data:{photo.ContentType};base64,{Convert.ToBase64String(datum.Data.Span)}"
        );
}
