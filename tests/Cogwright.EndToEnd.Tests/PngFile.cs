using System.Buffers.Binary;
using System.IO.Compression;

namespace Cogwright.EndToEnd.Tests;

/// <summary>A picture as a camera or a scanner would hand it over: PNG (ISO/IEC 15948), grey, 8 bit.</summary>
internal static class PngFile
{
    /// <summary>Dark bars on white paper.</summary>
    /// <param name="width">px.</param>
    /// <param name="height">px.</param>
    internal static byte[] Bars(int width, int height)
    {
        using var file = new MemoryStream();
        file.Write([0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A]);
        var head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, width);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), height);
        head[8] = 8;
        Chunk(file, "IHDR"u8, head);
        using var rows = new MemoryStream();
        using (var packed = new ZLibStream(rows, CompressionLevel.Fastest, leaveOpen: true))
        {
            var row = new byte[1 + width];
            for (var x = 0; x < width; x++)
            {
                row[1 + x] = x * 40 / width % 2 == 0 ? (byte)255 : (byte)30;
            }
            for (var y = 0; y < height; y++)
            {
                packed.Write(row);
            }
        }
        Chunk(file, "IDAT"u8, rows.ToArray());
        Chunk(file, "IEND"u8, []);
        return file.ToArray();
    }

    private static void Chunk(Stream file, ReadOnlySpan<byte> type, ReadOnlySpan<byte> data)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, data.Length);
        file.Write(number);
        file.Write(type);
        file.Write(data);
        BinaryPrimitives.WriteUInt32BigEndian(number, Crc([.. type, .. data]));
        file.Write(number);
    }

    /// <summary>ISO 3309, as annex D of the standard has it.</summary>
    private static uint Crc(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var each in bytes)
        {
            crc ^= each;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 0 ? crc >> 1 : (crc >> 1) ^ 0xEDB88320;
            }
        }
        return ~crc;
    }
}
