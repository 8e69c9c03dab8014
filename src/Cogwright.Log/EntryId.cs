using System.Buffers.Binary;
using System.Globalization;

namespace Cogwright.Log;

/// <summary>
/// One entry: 128 bits in the layout of a UUID version 7 (RFC 9562, 5.7), made on the device from its clock and from
/// chance, both handed in. Ids are ordered by their bytes, so roughly by the time that the device believed; nothing
/// but the look of a list may depend on that.
/// </summary>
/// <param name="Value">The bits.</param>
public readonly record struct EntryId(Guid Value) : IComparable<EntryId>
{
    /// <summary>How many bytes of chance an id takes: 74 bits of them are used.</summary>
    public const int RandomBytes = 10;

    private const long LatestMilliseconds = (1L << 48) - 1;

    /// <summary>
    /// Makes the next id of a device. It is greater than the previous one even within a millisecond and when the clock
    /// was set back (RFC 9562, 6.2, method 2: the old id is raised by an amount of chance).
    /// </summary>
    /// <param name="previous">The last id made on this device, if there is one.</param>
    /// <param name="unixMilliseconds">
    /// The device's clock, ms since 1970 UTC. A clock before 1970 counts as 1970, one after the year 10889 as that.
    /// </param>
    /// <param name="random">At least <see cref="RandomBytes"/> bytes from a cryptographic source.</param>
    /// <exception cref="ArgumentException">Too few bytes of chance.</exception>
    internal static EntryId Next(
        EntryId? previous,
        long unixMilliseconds,
        ReadOnlySpan<byte> random
    )
    {
        if (random.Length < RandomBytes)
        {
            throw new ArgumentException(Texts.Get("id.random", RandomBytes), nameof(random));
        }
        var milliseconds = (ulong)Math.Clamp(unixMilliseconds, 0, LatestMilliseconds);
        var high = BinaryPrimitives.ReadUInt16BigEndian(random) & 0xFFFu;
        var low = BinaryPrimitives.ReadUInt64BigEndian(random[2..]) & 0x3FFF_FFFF_FFFF_FFFF;
        var fresh = ((UInt128)milliseconds << 74) | ((UInt128)high << 62) | low;
        if (previous is not { } last || fresh > last.Payload)
        {
            return FromPayload(fresh);
        }
        var raised = last.Payload + 1 + (uint)low;
        // The very last millisecond can overflow: then unique counts for more than ascending.
        return FromPayload(raised >> 122 == 0 ? raised : fresh);
    }

    /// <summary>The 122 bits that are neither version nor variant.</summary>
    private UInt128 Payload
    {
        get
        {
            Span<byte> bytes = stackalloc byte[16];
            Value.TryWriteBytes(bytes, bigEndian: true, out _);
            var upper = BinaryPrimitives.ReadUInt64BigEndian(bytes);
            var lower = BinaryPrimitives.ReadUInt64BigEndian(bytes[8..]);
            return ((UInt128)(upper >> 16) << 74)
                | ((UInt128)(upper & 0xFFF) << 62)
                | (lower & 0x3FFF_FFFF_FFFF_FFFF);
        }
    }

    private static EntryId FromPayload(UInt128 payload)
    {
        Span<byte> bytes = stackalloc byte[16];
        var milliseconds = (ulong)(payload >> 74);
        var high = (ulong)(payload >> 62) & 0xFFF;
        var low = (ulong)payload & 0x3FFF_FFFF_FFFF_FFFF;
        BinaryPrimitives.WriteUInt64BigEndian(bytes, (milliseconds << 16) | 0x7000 | high);
        BinaryPrimitives.WriteUInt64BigEndian(bytes[8..], 0x8000_0000_0000_0000 | low);
        return new EntryId(new Guid(bytes, bigEndian: true));
    }

    /// <inheritdoc/>
    public int CompareTo(EntryId other) => Value.CompareTo(other.Value);

    /// <summary>Whether one stands before the other.</summary>
    public static bool operator <(EntryId left, EntryId right) => left.CompareTo(right) < 0;

    /// <summary>Whether one stands after the other.</summary>
    public static bool operator >(EntryId left, EntryId right) => left.CompareTo(right) > 0;

    /// <summary>Whether one does not stand after the other.</summary>
    public static bool operator <=(EntryId left, EntryId right) => left.CompareTo(right) <= 0;

    /// <summary>Whether one does not stand before the other.</summary>
    public static bool operator >=(EntryId left, EntryId right) => left.CompareTo(right) >= 0;

    /// <summary>The usual 36 signs, small letters.</summary>
    public override string ToString() => Value.ToString("D", CultureInfo.InvariantCulture);
}
