using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// A device that made two different entries with one number: it was cloned, or its store was set back. All of them are
/// kept; the device needs a new id.
/// </summary>
/// <param name="Device">The device.</param>
/// <param name="Sequence">The number.</param>
/// <param name="Entries">The entries, ascending by id, those waiting included.</param>
public sealed record Fork(DeviceId Device, long Sequence, ImmutableArray<Entry> Entries);
