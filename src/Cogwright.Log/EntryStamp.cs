namespace Cogwright.Log;

/// <summary>
/// What an entry takes from the device's clock and from chance. This room has neither, so the caller hands both in.
/// </summary>
/// <param name="Id">The id.</param>
/// <param name="WallClockTicks">
/// The device's clock: 100 ns since the year 1, UTC, as <see cref="DateTime.Ticks"/>. For display only: it may be wrong
/// by years and orders nothing.
/// </param>
public sealed record EntryStamp(EntryId Id, long WallClockTicks)
{
    /// <summary>Makes the stamp of a device's next entry.</summary>
    /// <param name="previous">The last id made on this device, in whatever log, if there is one.</param>
    /// <param name="utcTicks">The device's clock: 100 ns since the year 1, UTC.</param>
    /// <param name="random">At least <see cref="EntryId.RandomBytes"/> bytes from a cryptographic source.</param>
    /// <exception cref="ArgumentException">Too few bytes of chance.</exception>
    public static EntryStamp Next(EntryId? previous, long utcTicks, ReadOnlySpan<byte> random)
    {
        var unixMilliseconds = Math.Floor(
            (decimal)(utcTicks - (decimal)DateTime.UnixEpoch.Ticks) / TimeSpan.TicksPerMillisecond
        );
        return new EntryStamp(EntryId.Next(previous, (long)unixMilliseconds, random), utcTicks);
    }
}
