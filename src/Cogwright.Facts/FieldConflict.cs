using System.Collections.Immutable;

namespace Cogwright.Facts;

/// <summary>A field that devices set without having seen one another, to different values; nobody has settled it.</summary>
/// <param name="Path">The field.</param>
/// <param name="Versions">What each set, in the order of the log: the last one holds until it is settled.</param>
public sealed record FieldConflict(string Path, ImmutableArray<FieldVersion> Versions);

/// <summary>What one device set.</summary>
/// <param name="Value">The text; null: the field was taken out.</param>
/// <param name="Device">The first signs of the device's id.</param>
/// <param name="IsOwn">Whether it was this device.</param>
/// <param name="UtcTicks">When, as that device believed.</param>
/// <param name="Holds">Whether the bike shows this one now.</param>
public sealed record FieldVersion(
    string? Value,
    string Device,
    bool IsOwn,
    long UtcTicks,
    bool Holds
);
