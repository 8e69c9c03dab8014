using System.Collections.Immutable;
using System.Text;
using System.Text.Unicode;

namespace Cogwright.Log;

/// <summary>
/// The one way in which an entry is written: what is hashed, stored and sent. docs/theory/log.md has the table. A later
/// version may add tags; it raises the version only if a reader that skips them would misunderstand the entry.
/// </summary>
internal static class EntryEncoding
{
    /// <summary>The version that is written here.</summary>
    internal const byte Version = 1;

    private static ReadOnlySpan<byte> Letters => "CWE"u8;

    private static ReadOnlySpan<byte> Required =>
        [
            EntryTag.Id,
            EntryTag.Log,
            EntryTag.Device,
            EntryTag.Sequence,
            EntryTag.WallClockTicks,
            EntryTag.Author,
            EntryTag.Kind,
            EntryTag.KindVersion,
        ];

    // Letters and version, three ids, two long integers, one short one.
    private const int FixedSize =
        FieldWriter.Start + (8 * FieldWriter.Overhead) + (3 * 16) + (2 * 8) + 4;

    internal static int SizeOf(EntryFields fields)
    {
        var size =
            FixedSize
            + Encoding.UTF8.GetByteCount(fields.Author)
            + Encoding.UTF8.GetByteCount(fields.Kind)
            + SizeOfOptional(fields.Body.Length)
            + SizeOfOptional(16 * fields.Heads.Length)
            + SizeOfOptional(fields.Previous is null ? 0 : Digest.Length)
            + SizeOfOptional(fields.Corrects is null ? 0 : 16)
            + SizeOfOptional(Digest.Length * fields.Personal.Length);
        foreach (var extension in fields.Extensions)
        {
            size += FieldWriter.Overhead + extension.Value.Length;
        }
        return size;
    }

    internal static byte[] Write(EntryFields fields, byte version)
    {
        var bytes = new byte[SizeOf(fields)];
        var writer = new FieldWriter(bytes, Letters, version);
        writer.Write(EntryTag.Id, fields.Id.Value);
        writer.Write(EntryTag.Log, fields.Log.Value);
        writer.Write(EntryTag.Device, fields.Device.Value);
        writer.Write(EntryTag.Sequence, fields.Sequence);
        writer.Write(EntryTag.WallClockTicks, fields.WallClockTicks);
        writer.Write(EntryTag.Author, fields.Author);
        writer.Write(EntryTag.Kind, fields.Kind);
        writer.Write(EntryTag.KindVersion, fields.KindVersion);
        if (!fields.Body.IsEmpty)
        {
            writer.Write(EntryTag.Body, fields.Body.Span);
        }
        if (!fields.Heads.IsEmpty)
        {
            var heads = writer.Field(EntryTag.Heads, 16 * fields.Heads.Length);
            for (var i = 0; i < fields.Heads.Length; i++)
            {
                fields.Heads[i].Value.TryWriteBytes(heads[(16 * i)..], bigEndian: true, out _);
            }
        }
        if (fields.Previous is { } previous)
        {
            writer.Write(EntryTag.Previous, previous);
        }
        if (fields.Corrects is { } corrects)
        {
            writer.Write(EntryTag.Corrects, corrects.Value);
        }
        if (!fields.Personal.IsEmpty)
        {
            var personal = writer.Field(EntryTag.Personal, Digest.Length * fields.Personal.Length);
            for (var i = 0; i < fields.Personal.Length; i++)
            {
                fields.Personal[i].CopyTo(personal[(Digest.Length * i)..]);
            }
        }
        foreach (var extension in fields.Extensions)
        {
            writer.Write(extension.Tag, extension.Value.Span);
        }
        return bytes;
    }

    /// <summary>
    /// Reads fields that keep slices of the given bytes, whose length the caller has limited. Later versions are read by the
    /// same table, which stays.
    /// </summary>
    internal static Outcome<EntryFields> Read(ReadOnlyMemory<byte> bytes, out byte version)
    {
        version = 0;
        var outcome = FieldReader.Read(bytes, Letters);
        if (!outcome.IsGood)
        {
            return new(outcome.Fault);
        }
        var reader = outcome.Value;
        version = reader.Version;
        if (reader.FirstMissing(Required) is not 0 and var missing)
        {
            return Fault(LogFaultKind.Missing, "read.missing", missing);
        }
        if (NotUtf8(reader) is not 0 and var text)
        {
            return Fault(LogFaultKind.Unreadable, "read.utf8", text);
        }
        var fields = FieldsOf(reader);
        if (reader.WrongLength != 0)
        {
            return Fault(LogFaultKind.Unreadable, "read.fieldLength", reader.WrongLength);
        }
        if (EntryRules.Broken(fields) is { } broken)
        {
            return new(broken);
        }
        // One way to write an entry, so one hash: what would be written otherwise is refused.
        return Write(fields, version).AsSpan().SequenceEqual(bytes.Span)
            ? new(fields)
            : Fault(LogFaultKind.NotCanonical, "read.notCanonical", fields.Id);
    }

    private static EntryFields FieldsOf(FieldReader reader) =>
        new()
        {
            Id = new EntryId(reader.Id(EntryTag.Id)),
            Log = new LogId(reader.Id(EntryTag.Log)),
            Device = new DeviceId(reader.Id(EntryTag.Device)),
            Sequence = reader.Int64(EntryTag.Sequence),
            WallClockTicks = reader.Int64(EntryTag.WallClockTicks),
            Author = Encoding.UTF8.GetString(reader.Bytes(EntryTag.Author).Span),
            Kind = Encoding.UTF8.GetString(reader.Bytes(EntryTag.Kind).Span),
            KindVersion = reader.Int32(EntryTag.KindVersion),
            Body = reader.Bytes(EntryTag.Body),
            // Sorted here as in Make, so that bytes in another order do not come back the same.
            Heads = Canonical(HeadsOf(reader)),
            Previous = reader.Has(EntryTag.Previous) ? reader.Digest(EntryTag.Previous) : null,
            Corrects = reader.Has(EntryTag.Corrects)
                ? new EntryId(reader.Id(EntryTag.Corrects))
                : null,
            Personal = PersonalOf(reader),
            Extensions =
            [
                .. reader
                    .From(EntryTag.FirstUnknown)
                    .Select(field => new EntryExtension(field.Tag, field.Value)),
            ],
        };

    /// <summary>Sorted, without doubles.</summary>
    internal static ImmutableArray<EntryId> Canonical(ImmutableArray<EntryId> heads)
    {
        for (var i = 1; i < heads.Length; i++)
        {
            if (heads[i - 1] >= heads[i])
            {
                return [.. heads.Distinct().Order()];
            }
        }
        return heads;
    }

    private static ImmutableArray<EntryId> HeadsOf(FieldReader reader)
    {
        var span = reader.Bytes(EntryTag.Heads).Span;
        var heads = new EntryId[reader.CountOf(EntryTag.Heads, 16)];
        for (var i = 0; i < heads.Length; i++)
        {
            heads[i] = new EntryId(new Guid(span.Slice(16 * i, 16), bigEndian: true));
        }
        return [.. heads];
    }

    private static ImmutableArray<Digest> PersonalOf(FieldReader reader)
    {
        var span = reader.Bytes(EntryTag.Personal).Span;
        var personal = new Digest[reader.CountOf(EntryTag.Personal, Digest.Length)];
        for (var i = 0; i < personal.Length; i++)
        {
            personal[i] = new Digest(span.Slice(Digest.Length * i, Digest.Length));
        }
        return [.. personal];
    }

    private static byte NotUtf8(FieldReader reader)
    {
        if (!Utf8.IsValid(reader.Bytes(EntryTag.Author).Span))
        {
            return EntryTag.Author;
        }
        return Utf8.IsValid(reader.Bytes(EntryTag.Kind).Span) ? (byte)0 : EntryTag.Kind;
    }

    private static int SizeOfOptional(int length) =>
        length == 0 ? 0 : FieldWriter.Overhead + length;

    private static Outcome<EntryFields> Fault(
        LogFaultKind kind,
        string key,
        params ReadOnlySpan<object?> values
    ) => new(new LogFault(kind, Texts.Get(key, values)));
}
