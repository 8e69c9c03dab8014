using Cogwright.Log;
using Cogwright.Parts;

namespace Cogwright.Facts;

/// <summary>What is read off a part of the bike. Immutable.</summary>
/// <param name="Part">The kind of part that it is on.</param>
/// <param name="PartId">The part's id in the library when the spec named one then; null otherwise.</param>
/// <param name="Serial">The serial number; may be empty.</param>
/// <param name="Words">A few words; may be empty.</param>
public sealed record PartLabel(PartKind Part, string? PartId, string Serial, string Words)
{
    /// <summary>The photo, or null when there is none.</summary>
    public LabelPhoto? Photo { get; init; }

    /// <summary>The entry; meaningless before there is one.</summary>
    public EntryId Id { get; init; }

    /// <summary>When it was entered, as that device believed (100 ns since the year 1, UTC); to show only.</summary>
    public long UtcTicks { get; init; }
}

/// <summary>A photo that an entry names. Immutable.</summary>
/// <param name="Digest">The digest of its bytes with their salt: the entry holds no more of it.</param>
/// <param name="ContentType">What it is: one of <see cref="LabelEntry.PhotoTypes"/>.</param>
public sealed record LabelPhoto(Digest Digest, string ContentType);
