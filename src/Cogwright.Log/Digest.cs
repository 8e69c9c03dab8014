using System.Buffers.Binary;
using System.Security.Cryptography;

namespace Cogwright.Log;

/// <summary>A SHA-256 (FIPS 180-4): 32 bytes, held in four words so that it compares and hashes fast.</summary>
public readonly record struct Digest : IComparable<Digest>
{
    /// <summary>Its length in bytes.</summary>
    public const int Length = 32;

    private readonly ulong first;
    private readonly ulong second;
    private readonly ulong third;
    private readonly ulong fourth;

    /// <summary>Holds a digest that was computed before.</summary>
    /// <param name="bytes">Exactly <see cref="Length"/> bytes.</param>
    /// <exception cref="ArgumentException">Another number of bytes.</exception>
    public Digest(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length != Length)
        {
            throw new ArgumentException(
                Texts.Get("digest.length", Length, bytes.Length),
                nameof(bytes)
            );
        }
        first = BinaryPrimitives.ReadUInt64BigEndian(bytes);
        second = BinaryPrimitives.ReadUInt64BigEndian(bytes[8..]);
        third = BinaryPrimitives.ReadUInt64BigEndian(bytes[16..]);
        fourth = BinaryPrimitives.ReadUInt64BigEndian(bytes[24..]);
    }

    /// <summary>The digest of some bytes.</summary>
    public static Digest Of(ReadOnlySpan<byte> bytes)
    {
        Span<byte> hash = stackalloc byte[Length];
        SHA256.HashData(bytes, hash);
        return new Digest(hash);
    }

    /// <summary>Writes the 32 bytes.</summary>
    public void CopyTo(Span<byte> target)
    {
        BinaryPrimitives.WriteUInt64BigEndian(target, first);
        BinaryPrimitives.WriteUInt64BigEndian(target[8..], second);
        BinaryPrimitives.WriteUInt64BigEndian(target[16..], third);
        BinaryPrimitives.WriteUInt64BigEndian(target[24..], fourth);
    }

    /// <summary>The 32 bytes, in an array of their own.</summary>
    public byte[] ToBytes()
    {
        var bytes = new byte[Length];
        CopyTo(bytes);
        return bytes;
    }

    /// <summary>By the bytes, from the first.</summary>
    public int CompareTo(Digest other)
    {
        var byFirst = first.CompareTo(other.first);
        var bySecond = byFirst != 0 ? byFirst : second.CompareTo(other.second);
        var byThird = bySecond != 0 ? bySecond : third.CompareTo(other.third);
        return byThird != 0 ? byThird : fourth.CompareTo(other.fourth);
    }

    /// <summary>Whether one stands before the other.</summary>
    public static bool operator <(Digest left, Digest right) => left.CompareTo(right) < 0;

    /// <summary>Whether one stands after the other.</summary>
    public static bool operator >(Digest left, Digest right) => left.CompareTo(right) > 0;

    /// <summary>Whether one does not stand after the other.</summary>
    public static bool operator <=(Digest left, Digest right) => left.CompareTo(right) <= 0;

    /// <summary>Whether one does not stand before the other.</summary>
    public static bool operator >=(Digest left, Digest right) => left.CompareTo(right) >= 0;

    /// <summary>The first word: a digest is as good as chance already.</summary>
    public override int GetHashCode() => first.GetHashCode();

    /// <summary>64 hexadecimal digits, small letters.</summary>
    public override string ToString() => Convert.ToHexStringLower(ToBytes());
}
