using System.Collections.Immutable;

namespace Cogwright.Log;

/// <summary>
/// One fact in a log. It never changes: its bytes are the ones it was made with or came with, fields of later versions
/// included, and its hash is theirs. Two entries are equal if their hashes are.
/// </summary>
public sealed class Entry : IEquatable<Entry>
{
    private readonly byte[] bytes;

    private Entry(EntryFields fields, byte[] bytes, byte formatVersion)
    {
        Fields = fields;
        this.bytes = bytes;
        IsFromLaterVersion = formatVersion > EntryEncoding.Version;
        Hash = Digest.Of(bytes);
    }

    /// <summary>All that it says.</summary>
    public EntryFields Fields { get; }

    /// <inheritdoc cref="EntryFields.Id"/>
    public EntryId Id => Fields.Id;

    /// <inheritdoc cref="EntryFields.Log"/>
    public LogId Log => Fields.Log;

    /// <inheritdoc cref="EntryFields.Device"/>
    public DeviceId Device => Fields.Device;

    /// <inheritdoc cref="EntryFields.Sequence"/>
    public long Sequence => Fields.Sequence;

    /// <inheritdoc cref="EntryFields.WallClockTicks"/>
    public long WallClockTicks => Fields.WallClockTicks;

    /// <inheritdoc cref="EntryFields.Author"/>
    public string Author => Fields.Author;

    /// <inheritdoc cref="EntryFields.Kind"/>
    public string Kind => Fields.Kind;

    /// <inheritdoc cref="EntryFields.KindVersion"/>
    public int KindVersion => Fields.KindVersion;

    /// <inheritdoc cref="EntryFields.Body"/>
    public ReadOnlyMemory<byte> Body => Fields.Body;

    /// <inheritdoc cref="EntryFields.Heads"/>
    public ImmutableArray<EntryId> Heads => Fields.Heads;

    /// <inheritdoc cref="EntryFields.Previous"/>
    public Digest? Previous => Fields.Previous;

    /// <inheritdoc cref="EntryFields.Corrects"/>
    public EntryId? Corrects => Fields.Corrects;

    /// <inheritdoc cref="EntryFields.Personal"/>
    public ImmutableArray<Digest> Personal => Fields.Personal;

    /// <summary>
    /// Whether it was written by a later version that wants nobody to read it without knowing what is new: keep it, show
    /// that it is there, pass it on, do not interpret its body.
    /// </summary>
    public bool IsFromLaterVersion { get; }

    /// <summary>SHA-256 of <see cref="Encoded"/>.</summary>
    public Digest Hash { get; }

    /// <summary>The bytes to store and to send.</summary>
    public ReadOnlyMemory<byte> Encoded => bytes;

    internal OrderKey Key => new(Device, Sequence, Id);

    /// <summary>Writes and hashes an entry; the heads are sorted and freed of doubles first.</summary>
    public static Outcome<Entry> Make(EntryFields fields)
    {
        var canonical = fields with { Heads = EntryEncoding.Canonical(fields.Heads) };
        if (EntryRules.Broken(canonical) is { } broken)
        {
            return new(broken);
        }
        // Read again, so that the fields are slices of these bytes and not of arrays that the caller may change.
        return Read(EntryEncoding.Write(canonical, EntryEncoding.Version));
    }

    /// <summary>Reads an entry of this or any later version. The bytes are copied.</summary>
    /// <param name="encoded">What <see cref="Encoded"/> was, on whatever device.</param>
    public static Outcome<Entry> Read(ReadOnlySpan<byte> encoded) =>
        encoded.Length > EntryLimits.EntryBytes
            ? new(
                new LogFault(
                    LogFaultKind.TooLarge,
                    Texts.Get("read.tooLarge", encoded.Length, EntryLimits.EntryBytes)
                )
            )
            : Read(encoded.ToArray());

    private static Outcome<Entry> Read(byte[] own)
    {
        var fields = EntryEncoding.Read(own, out var version);
        return fields.IsGood ? new(new Entry(fields.Value, own, version)) : new(fields.Fault);
    }

    /// <inheritdoc/>
    public bool Equals(Entry? other) => other is not null && Hash == other.Hash;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Entry);

    /// <inheritdoc/>
    public override int GetHashCode() => Hash.GetHashCode();

    /// <summary>Kind, id and place in the chain, for messages.</summary>
    public override string ToString() => Texts.Get("entry.name", Kind, Id, Device, Sequence);
}
