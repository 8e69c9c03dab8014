using System.Buffers.Binary;
using System.Text;

namespace Cogwright.Log;

/// <summary>
/// Writes fields as tag (1 byte), length of the value (4 bytes, big-endian), value. Whatever is hashed or signed is
/// written so: no two different lists of fields have the same bytes.
/// </summary>
internal ref struct FieldWriter
{
    /// <summary>Bytes before a value.</summary>
    internal const int Overhead = 5;

    /// <summary>Bytes before the first field: three letters and a version.</summary>
    internal const int Start = 4;

    private readonly Span<byte> target;
    private int written;

    internal FieldWriter(Span<byte> target, ReadOnlySpan<byte> letters, byte version)
    {
        this.target = target;
        letters.CopyTo(target);
        target[Start - 1] = version;
        written = Start;
    }

    /// <summary>Opens a field and gives the place for its value.</summary>
    internal Span<byte> Field(byte tag, int length)
    {
        target[written] = tag;
        BinaryPrimitives.WriteInt32BigEndian(target[(written + 1)..], length);
        var value = target.Slice(written + Overhead, length);
        written += Overhead + length;
        return value;
    }

    internal void Write(byte tag, Guid value) =>
        value.TryWriteBytes(Field(tag, 16), bigEndian: true, out _);

    internal void Write(byte tag, long value) =>
        BinaryPrimitives.WriteInt64BigEndian(Field(tag, 8), value);

    internal void Write(byte tag, int value) =>
        BinaryPrimitives.WriteInt32BigEndian(Field(tag, 4), value);

    internal void Write(byte tag, Digest value) => value.CopyTo(Field(tag, Digest.Length));

    internal void Write(byte tag, ReadOnlySpan<byte> value) =>
        value.CopyTo(Field(tag, value.Length));

    internal void Write(byte tag, string text) =>
        Encoding.UTF8.GetBytes(text, Field(tag, Encoding.UTF8.GetByteCount(text)));
}
