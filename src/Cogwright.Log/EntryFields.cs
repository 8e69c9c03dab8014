using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>What an entry says, before it is written and hashed. <see cref="EntryTag"/> has the shapes.</summary>
public sealed record EntryFields
{
    /// <summary>The id, made on the device.</summary>
    public required EntryId Id { get; init; }

    /// <summary>The log it belongs to.</summary>
    public required LogId Log { get; init; }

    /// <summary>The device that made it.</summary>
    public required DeviceId Device { get; init; }

    /// <summary>Its number in the device's chain in this log: 1, 2, 3 … without a gap.</summary>
    public required long Sequence { get; init; }

    /// <summary>The device's clock: 100 ns since the year 1, UTC. For display only.</summary>
    public required long WallClockTicks { get; init; }

    /// <summary>
    /// The account that claims to have acted; an id, not a name, because this can never be erased. With a PIN at a
    /// shared tablet it says who claimed to act, not who acted.
    /// </summary>
    public required string Author { get; init; }

    /// <summary>What sort of fact this is.</summary>
    public required string Kind { get; init; }

    /// <summary>The version of the kind, from 1.</summary>
    public required int KindVersion { get; init; }

    /// <summary>The fact. This room does not look into it; the caller writes canonical JSON.</summary>
    public ReadOnlyMemory<byte> Body { get; init; }

    /// <summary>The heads of the log as the device knew it. Sorted and without doubles once written.</summary>
    public ImmutableArray<EntryId> Heads { get; init; } = [];

    /// <summary>The hash of the device's previous entry in this log; null in its first one.</summary>
    public Digest? Previous { get; init; }

    /// <summary>The entry that this one corrects; it counts as seen.</summary>
    public EntryId? Corrects { get; init; }

    /// <summary>Digests of what lies beside the log, in an order that the body may refer to.</summary>
    public ImmutableArray<Digest> Personal { get; init; } = [];

    /// <summary>Fields of a later version, ascending by tag.</summary>
    public ImmutableArray<EntryExtension> Extensions { get; init; } = [];
}
