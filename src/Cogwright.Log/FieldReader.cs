using System.Buffers.Binary;

namespace Cogwright.Log;

/// <summary>
/// Finds the fields that <see cref="FieldWriter"/> wrote. Tags must ascend; a length is believed only if the bytes are
/// there.
/// </summary>
internal sealed class FieldReader
{
    private readonly ReadOnlyMemory<byte> bytes;
    private readonly List<(byte Tag, int From, int Length)> fields = [];

    private FieldReader(ReadOnlyMemory<byte> bytes) => this.bytes = bytes;

    /// <summary>The version after the letters.</summary>
    internal byte Version => bytes.Span[FieldWriter.Start - 1];

    /// <summary>The first field that does not have the length it must have; 0 if none.</summary>
    internal byte WrongLength { get; private set; }

    internal static Outcome<FieldReader> Read(
        ReadOnlyMemory<byte> bytes,
        ReadOnlySpan<byte> letters
    )
    {
        var span = bytes.Span;
        if (
            span.Length < FieldWriter.Start
            || !span.StartsWith(letters)
            || span[FieldWriter.Start - 1] == 0
        )
        {
            return new(new LogFault(LogFaultKind.Unreadable, Texts.Get("read.start")));
        }
        var reader = new FieldReader(bytes);
        var last = 0;
        for (var at = FieldWriter.Start; at < span.Length; )
        {
            if (span.Length - at < FieldWriter.Overhead)
            {
                return Unreadable("read.cut", at);
            }
            var tag = span[at];
            var length = BinaryPrimitives.ReadUInt32BigEndian(span[(at + 1)..]);
            if (tag <= last)
            {
                return Unreadable("read.tagOrder", at, tag, last);
            }
            if (length > span.Length - at - FieldWriter.Overhead)
            {
                return Unreadable("read.length", at, tag, length);
            }
            reader.fields.Add((tag, at + FieldWriter.Overhead, (int)length));
            last = tag;
            at += FieldWriter.Overhead + (int)length;
        }
        return new(reader);
    }

    /// <summary>The first of these fields that is not there; 0 if all are.</summary>
    internal byte FirstMissing(ReadOnlySpan<byte> tags)
    {
        foreach (var tag in tags)
        {
            if (IndexOf(tag) < 0)
            {
                return tag;
            }
        }
        return 0;
    }

    internal bool Has(byte tag) => IndexOf(tag) >= 0;

    /// <summary>The bytes of a field; none if it is absent.</summary>
    internal ReadOnlyMemory<byte> Bytes(byte tag)
    {
        var index = IndexOf(tag);
        return index < 0 ? default : bytes.Slice(fields[index].From, fields[index].Length);
    }

    internal Guid Id(byte tag) =>
        Fixed(tag, 16) is { Length: 16 } span ? new Guid(span, true) : default;

    internal long Int64(byte tag) =>
        Fixed(tag, 8) is { Length: 8 } span ? BinaryPrimitives.ReadInt64BigEndian(span) : 0;

    internal int Int32(byte tag) =>
        Fixed(tag, 4) is { Length: 4 } span ? BinaryPrimitives.ReadInt32BigEndian(span) : 0;

    internal Digest Digest(byte tag) =>
        Fixed(tag, Log.Digest.Length) is { Length: Log.Digest.Length } span
            ? new Digest(span)
            : default;

    /// <summary>How many elements of one length a field holds; a remainder is a wrong length.</summary>
    internal int CountOf(byte tag, int elementLength)
    {
        var length = Bytes(tag).Length;
        NoteLength(tag, length % elementLength == 0);
        return length / elementLength;
    }

    /// <summary>The fields from a tag on.</summary>
    internal IEnumerable<(byte Tag, ReadOnlyMemory<byte> Value)> From(byte tag) =>
        fields
            .Where(field => field.Tag >= tag)
            .Select(field => (field.Tag, bytes.Slice(field.From, field.Length)));

    private ReadOnlySpan<byte> Fixed(byte tag, int length)
    {
        var span = Bytes(tag).Span;
        NoteLength(tag, span.Length == length);
        return span;
    }

    private void NoteLength(byte tag, bool isRight)
    {
        if (!isRight && WrongLength == 0)
        {
            WrongLength = tag;
        }
    }

    private int IndexOf(byte tag)
    {
        for (var i = 0; i < fields.Count && fields[i].Tag <= tag; i++)
        {
            if (fields[i].Tag == tag)
            {
                return i;
            }
        }
        return -1;
    }

    private static Outcome<FieldReader> Unreadable(
        string key,
        params ReadOnlySpan<object?> values
    ) => new(new LogFault(LogFaultKind.Unreadable, Texts.Get(key, values)));
}
