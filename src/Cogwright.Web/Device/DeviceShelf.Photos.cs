using System.Collections.Immutable;
using System.Security.Cryptography;
using Cogwright.Facts;
using Cogwright.Log;

namespace Cogwright.Web.Device;

/// <content>Labels of parts, and the photos that lie beside the logs.</content>
internal sealed partial class DeviceShelf
{
    private readonly HashSet<PhotoId> photos = [];
    private readonly HashSet<PhotoId> waitingPhotos = [];

    // What the store did not take.
    private readonly Dictionary<PhotoId, PhotoRow> unkeptPhotos = [];

    /// <summary>What was read off the parts of a bike, in the log's order.</summary>
    internal ImmutableList<PartLabel> LabelsOf(string? id) => BikeOf(id)?.State.Labels ?? [];

    /// <summary>Adds a label to a bike's log; it and its photo are on the device when this ends.</summary>
    /// <param name="log">The bike.</param>
    /// <param name="label">What was read off; its photo is made from the bytes.</param>
    /// <param name="photo">The photo's bytes, or null when there is none.</param>
    /// <param name="contentType">What they are: one of <see cref="LabelEntry.PhotoTypes"/>.</param>
    internal Task AddLabelAsync(
        LogId log,
        PartLabel label,
        byte[]? photo,
        string contentType = "image/jpeg"
    )
    {
        if (photo is null)
        {
            return AppendAsync(log, LabelEntry.Draft(label with { Photo = null }));
        }
        var datum = new PersonalDatum(
            RandomNumberGenerator.GetBytes(PersonalDatum.SaltBytes),
            photo
        );
        return AppendAsync(
            log,
            LabelEntry.Draft(label with { Photo = new(datum.Digest, contentType) }),
            photo: PhotoRow.Of(log, datum, contentType)
        );
    }

    /// <summary>Takes a label away with a later entry; the first one stays in the log, and its photo beside it.</summary>
    internal Task RemoveLabelAsync(LogId log, EntryId id, string reason) =>
        AppendAsync(log, LabelEntry.DraftOfRemoval(id, reason));

    /// <summary>The photos of a log that are on this device, or were and have been erased.</summary>
    internal ImmutableArray<PhotoId> PhotosOf(LogId log) => [.. photos.Where(id => id.Log == log)];

    /// <summary>Whether a photo is on this device and is to be sent.</summary>
    internal bool IsWaiting(PhotoId id) => waitingPhotos.Contains(id);

    /// <summary>How many photos of a log the server has not confirmed.</summary>
    internal int UnsentPhotosOf(LogId log) => waitingPhotos.Count(id => id.Log == log);

    /// <summary>
    /// Whether the server has confirmed an entry that names the photo: without it the photo would lie there for nothing, and one
    /// that was refused may be on its way for the second time.
    /// </summary>
    internal async Task<bool> IsNamedThereAsync(PhotoId id)
    {
        var bike = await LoadAsync(id.Log).ConfigureAwait(true);
        var open = OutboxOf(id.Log).Items.Select(item => item.Id).ToHashSet();
        return bike.Log.Ordered.Any(entry =>
            entry.Personal.Contains(id.Digest) && !open.Contains(entry.Id)
        );
    }

    /// <summary>A photo as it is on this device, or null.</summary>
    internal async Task<PhotoRow?> PhotoAsync(PhotoId id)
    {
        await ReadyAsync().ConfigureAwait(true);
        if (unkeptPhotos.TryGetValue(id, out var held))
        {
            return held;
        }
        if (!photos.Contains(id))
        {
            return null;
        }
        try
        {
            var found = await store.PhotoAsync(id.ToString()).ConfigureAwait(true);
            NoteRead(id.ToString());
            return found.FirstOrDefault();
        }
        catch (KeepException e)
        {
            NoteUnread(id.ToString(), e);
            return null;
        }
    }

    /// <summary>
    /// Keeps a photo that the server has: one that came from there, one that it has taken, or what is left of one that was
    /// erased.
    /// </summary>
    internal async Task TakePhotoAsync(PhotoRow row)
    {
        var id = row.PhotoId;
        bool isNews;
        await using (await LockAsync().ConfigureAwait(true))
        {
            try
            {
                await store.WriteAsync([StoreWrite.Put(row)]).ConfigureAwait(true);
                photos.Add(id);
            }
            catch (KeepException e)
            {
                // It can be fetched again; one that was on its way is sent once more after the page was closed, which does no harm.
                Note(e);
            }
            isNews = unkeptPhotos.Remove(id) | waitingPhotos.Remove(id) | row.IsErased;
        }
        if (isNews)
        {
            Tell(id.Log);
        }
    }

    private void TakePhotoIds(TableRows rows)
    {
        photos.Clear();
        waitingPhotos.Clear();
        photos.UnionWith(rows.Photos.Select(PhotoId.Read).Union(unkeptPhotos.Keys));
        waitingPhotos.UnionWith(rows.WaitingPhotos.Select(PhotoId.Read).Union(unkeptPhotos.Keys));
    }

    private void NoteWaiting(PhotoRow? photo)
    {
        if (photo is not null)
        {
            photos.Add(photo.PhotoId);
            waitingPhotos.Add(photo.PhotoId);
        }
    }

    /// <summary>Photos that are in memory only while their entry is safe.</summary>
    private int UnkeptPhotoCount =>
        unkeptPhotos.Keys.Count(id => !unkept.Any(entry => entry.Personal.Contains(id.Digest)));

    /// <summary>The photos that are to be sent, for the device's file.</summary>
    private async Task<ImmutableArray<DeviceFilePhoto>> PhotosForFileAsync()
    {
        var found = ImmutableArray.CreateBuilder<DeviceFilePhoto>();
        foreach (var id in waitingPhotos.ToList())
        {
            if (await PhotoAsync(id).ConfigureAwait(true) is { IsErased: false } row)
            {
                found.Add(new(row.Log, row.ContentType, row.Salt, row.Data));
            }
        }
        return found.ToImmutable();
    }

    /// <summary>Takes in the photos of a device's file; what is here stays.</summary>
    /// <returns>How many were not here, and how many cannot be read.</returns>
    private async Task<(int Fresh, int Unusable)> TakeInAsync(ImmutableArray<DeviceFilePhoto> came)
    {
        int fresh = 0,
            unusable = 0;
        foreach (var photo in came)
        {
            if (photo.Read() is not { } row)
            {
                unusable++;
                continue;
            }
            if (photos.Contains(row.PhotoId))
            {
                continue;
            }
            fresh++;
            await using (await LockAsync().ConfigureAwait(true))
            {
                try
                {
                    await store.WriteAsync([StoreWrite.Put(row)]).ConfigureAwait(true);
                }
                catch (KeepException e)
                {
                    unkeptPhotos[row.PhotoId] = row;
                    Note(e);
                }
            }
            NoteWaiting(row);
            Tell(row.PhotoId.Log);
            Written?.Invoke(row.PhotoId.Log);
        }
        return (fresh, unusable);
    }
}
