namespace Cogwright.Log;

/// <summary>
/// What stands first among entries of which neither has to follow the other: by device, then sequence, then id. No clock is
/// in it; the id only tells entries of a fork apart.
/// </summary>
internal readonly record struct OrderKey(DeviceId Device, long Sequence, EntryId Id)
    : IComparable<OrderKey>
{
    public int CompareTo(OrderKey other)
    {
        var byDevice = Device.CompareTo(other.Device);
        var bySequence = byDevice != 0 ? byDevice : Sequence.CompareTo(other.Sequence);
        return bySequence != 0 ? bySequence : Id.CompareTo(other.Id);
    }
}
