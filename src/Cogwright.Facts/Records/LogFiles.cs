using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Cogwright.Log;

namespace Cogwright.Facts.Records;

/// <summary>
/// Reads entries from whatever file holds them: the file of a device, the lines or the raw bytes of a server's export, the file
/// of a record.
/// </summary>
public static class LogFiles
{
    /// <summary>Reads a file.</summary>
    /// <param name="bytes">Its content.</param>
    /// <returns>The entries, whichever log they are of; null when it is none of these files.</returns>
    public static FiledEntries? Read(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            return RecordFile.Read(bytes) is { } record
                    ? Of(record.Entries) with
                    {
                        Statements = record.Statements,
                        Keys = record.Keys,
                    }
                : bytes.Span.IndexOf("\"cogwright-device\""u8) >= 0 ? OfDevice(bytes)
                : FirstOf(bytes) == (byte)'{' ? OfLines(bytes)
                : OfRaw(bytes.Span);
        }
        catch (Exception e)
            when (e
                    is JsonException
                        or KeyNotFoundException
                        or InvalidOperationException
                        or FormatException
            )
        {
            return null;
        }
    }

    /// <summary>Reads the statements of an export: a line of JSON each.</summary>
    /// <param name="bytes">The content of <c>statements.jsonl</c>.</param>
    public static ImmutableArray<StatedBytes> ReadStatements(ReadOnlyMemory<byte> bytes) =>
        [
            .. Lines(bytes)
                .Select(line => new StatedBytes(
                    line.GetProperty("encodedBase64").GetBytesFromBase64(),
                    line.GetProperty("signatureBase64").GetBytesFromBase64()
                )),
        ];

    private static byte FirstOf(ReadOnlyMemory<byte> bytes)
    {
        var text = bytes.Span.TrimStart(" \r\n\t"u8);
        return text.IsEmpty ? (byte)0 : text[0];
    }

    private static FiledEntries OfDevice(ReadOnlyMemory<byte> bytes)
    {
        using var json = JsonDocument.Parse(bytes);
        return Of([
            .. json
                .RootElement.GetProperty("logs")
                .EnumerateArray()
                .SelectMany(log => log.GetProperty("entries").EnumerateArray())
                .Select(entry => (ReadOnlyMemory<byte>)entry.GetBytesFromBase64()),
        ]);
    }

    private static FiledEntries OfLines(ReadOnlyMemory<byte> bytes) =>
        Of([
            .. Lines(bytes)
                .Select(line =>
                    (ReadOnlyMemory<byte>)line.GetProperty("encodedBase64").GetBytesFromBase64()
                ),
        ]);

    private static FiledEntries? OfRaw(ReadOnlySpan<byte> bytes)
    {
        var entries = ImmutableArray.CreateBuilder<ReadOnlyMemory<byte>>();
        while (!bytes.IsEmpty)
        {
            if (bytes.Length < 4)
            {
                return null;
            }
            var length = BinaryPrimitives.ReadInt32BigEndian(bytes);
            if (length <= 0 || length > bytes.Length - 4)
            {
                return null;
            }
            entries.Add(bytes.Slice(4, length).ToArray());
            bytes = bytes[(4 + length)..];
        }
        return Of(entries.ToImmutable());
    }

    private static List<JsonElement> Lines(ReadOnlyMemory<byte> bytes)
    {
        var lines = new List<JsonElement>();
        foreach (var line in Encoding.UTF8.GetString(bytes.Span).Split('\n'))
        {
            if (!string.IsNullOrWhiteSpace(line))
            {
                using var json = JsonDocument.Parse(line);
                lines.Add(json.RootElement.Clone());
            }
        }
        return lines;
    }

    private static FiledEntries Of(ImmutableArray<ReadOnlyMemory<byte>> all)
    {
        var read = all.Select(bytes => Entry.Read(bytes.Span)).ToList();
        return new([.. read.Where(each => each.IsGood).Select(each => each.Value!)])
        {
            Unreadable = [.. read.Where(each => !each.IsGood).Select(each => each.Fault!.Text)],
        };
    }
}

/// <summary>Entries that a file held, of one log or of many. Immutable.</summary>
/// <param name="Entries">Those that can be read.</param>
public sealed record FiledEntries(ImmutableArray<Entry> Entries)
{
    /// <summary>What is the matter with those that cannot, in sentences.</summary>
    public ImmutableArray<string> Unreadable { get; init; } = [];

    /// <summary>Statements that were with them.</summary>
    public ImmutableArray<StatedBytes> Statements { get; init; } = [];

    /// <summary>Public keys that were with them, by name.</summary>
    public ImmutableSortedDictionary<string, ReadOnlyMemory<byte>> Keys { get; init; } =
        ImmutableSortedDictionary.Create<string, ReadOnlyMemory<byte>>(StringComparer.Ordinal);

    /// <summary>The logs that it has entries of.</summary>
    public ImmutableArray<LogId> Logs => [.. Entries.Select(entry => entry.Log).Distinct().Order()];

    /// <summary>All logs of it.</summary>
    public ImmutableArray<EntryLog> All() =>
        [
            .. Entries
                .GroupBy(entry => entry.Log)
                .OrderBy(entries => entries.Key)
                .Select(entries =>
                {
                    var whole = new EntryLog(entries.Key);
                    whole.Merge(entries);
                    return whole;
                }),
        ];

    /// <summary>One log of it.</summary>
    /// <param name="log">Which.</param>
    public EntryLog LogOf(LogId log)
    {
        var whole = new EntryLog(log);
        whole.Merge(Entries.Where(entry => entry.Log == log));
        return whole;
    }

    /// <summary>The statements on one log that can be read, ascending by serial.</summary>
    /// <param name="log">Which.</param>
    public ImmutableArray<CountersignedHeads> StatementsOn(LogId log) =>
        [
            .. Statements
                .Select(each => (Read: HeadStatement.Read(each.Encoded.Span), each.Signature))
                .Where(each => each.Read.IsGood && each.Read.Value.Log == log)
                .Select(each => new CountersignedHeads(each.Read.Value!, each.Signature))
                .OrderBy(each => each.Statement.Serial),
        ];
}
