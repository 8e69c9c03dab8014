namespace Cogwright.Log;

/// <summary>One thing found in a device's chain.</summary>
/// <param name="Status">What it is.</param>
/// <param name="Device">The device.</param>
/// <param name="Sequence">The number of the entry; for a gap the first one that is missing.</param>
/// <param name="Id">The id of the entry; null for a gap.</param>
/// <param name="Text">What, where, and what to do next.</param>
public sealed record ChainFinding(
    ChainStatus Status,
    DeviceId Device,
    long Sequence,
    EntryId? Id,
    string Text
);
