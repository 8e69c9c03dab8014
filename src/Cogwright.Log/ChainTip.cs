namespace Cogwright.Log;

/// <summary>
/// The end of a device's chain. Its hash stands for all entries of the chain up to it. A device that was cloned or set
/// back has several.
/// </summary>
/// <param name="Device">The device.</param>
/// <param name="Sequence">The number of the last entry.</param>
/// <param name="Id">Its id.</param>
/// <param name="Hash">Its hash.</param>
public sealed record ChainTip(DeviceId Device, long Sequence, EntryId Id, Digest Hash)
{
    internal OrderKey Key => new(Device, Sequence, Id);
}
