using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>What the caller knows of an entry before the log adds its place.</summary>
/// <param name="Author"><inheritdoc cref="EntryFields.Author" path="/summary"/></param>
/// <param name="Kind">What sort of fact this is.</param>
/// <param name="KindVersion">The version of the kind, from 1.</param>
/// <param name="Body">The fact, canonical JSON.</param>
public sealed record EntryDraft(
    string Author,
    string Kind,
    int KindVersion,
    ReadOnlyMemory<byte> Body
)
{
    /// <summary>The entry that this one corrects, if it does.</summary>
    public EntryId? Corrects { get; init; }

    /// <summary>Digests of personal data that the body refers to.</summary>
    public ImmutableArray<Digest> Personal { get; init; } = [];
}
