using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Cogwright.Log;
using Cogwright.Setup.Records;

namespace Cogwright.Facts.Records;

/// <summary>
/// The record for machines: every entry it rests on, the server's statement with its key, and what the pages print. It lies in
/// the PDF as an attachment. No personal words can be in it: entries hold digests of them only, so a person can be erased
/// and the record still be checked. docs/how-to/record.md has the format. Immutable.
/// </summary>
public sealed record RecordFile
{
    /// <summary>What the format is called.</summary>
    public const string FormatName = "cogwright-record";

    /// <summary>The version that is written; later ones are refused.</summary>
    public const int Latest = 1;

    /// <summary>What it is called as an attachment.</summary>
    public const string AttachmentName = "cogwright-record.json";

    private static readonly JsonWriterOptions Written = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        Indented = true,
        NewLine = "\n",
    };

    /// <summary>The log.</summary>
    public required LogId Log { get; init; }

    /// <summary>The job.</summary>
    public required string Job { get; init; }

    /// <summary>The address of the shop's server; empty when there is none.</summary>
    public string Address { get; init; } = "";

    /// <summary>How far the times printed are ahead of UTC (minutes).</summary>
    public int OffsetMinutes { get; init; }

    /// <summary>The paper that it was printed on: a4 or letter; empty when it was not.</summary>
    public string Paper { get; init; } = "";

    /// <summary>The bytes of every entry of the log, in their order.</summary>
    public required ImmutableArray<ReadOnlyMemory<byte>> Entries { get; init; }

    /// <summary>Statements of servers with their signatures.</summary>
    public ImmutableArray<StatedBytes> Statements { get; init; } = [];

    /// <summary>The public keys by name: SubjectPublicKeyInfo.</summary>
    public ImmutableSortedDictionary<string, ReadOnlyMemory<byte>> Keys { get; init; } =
        ImmutableSortedDictionary.Create<string, ReadOnlyMemory<byte>>(StringComparer.Ordinal);

    /// <summary>What the pages print.</summary>
    public required ImmutableArray<RecordLine> Printed { get; init; }

    /// <summary>The file of a record.</summary>
    /// <param name="record">The record.</param>
    /// <param name="ask">How it was made.</param>
    /// <param name="keys">The public keys by name.</param>
    /// <param name="paper">a4 or letter; empty when it is not printed.</param>
    public static RecordFile Of(
        JobRecord record,
        RecordAsk ask,
        ImmutableSortedDictionary<string, ReadOnlyMemory<byte>> keys,
        string paper
    )
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(ask);
        ArgumentNullException.ThrowIfNull(keys);
        return new()
        {
            Log = record.Log.Id,
            Job = record.Job,
            Address = ask.Address,
            OffsetMinutes = ask.OffsetMinutes,
            Paper = paper,
            Entries = [.. record.Log.Ordered.Select(entry => entry.Encoded)],
            Statements = record.Statement is { } stated
                ? [new(stated.Statement.Encoded, stated.Signature)]
                : [],
            Keys =
                record.Statement is { } heads
                && keys.TryGetValue(heads.Statement.Key, out var known)
                    ? ImmutableSortedDictionary
                        .Create<string, ReadOnlyMemory<byte>>(StringComparer.Ordinal)
                        .Add(heads.Statement.Key, known)
                    : ImmutableSortedDictionary.Create<string, ReadOnlyMemory<byte>>(
                        StringComparer.Ordinal
                    ),
            Printed = [.. record.Content.Lines()],
        };
    }

    /// <summary>The file as JSON in UTF-8; the same record is the same bytes.</summary>
    public byte[] Write()
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Written))
        {
            json.WriteStartObject();
            json.WriteString("format", FormatName);
            json.WriteNumber("version", Latest);
            json.WriteString("log", Log.ToString());
            json.WriteString("job", Job);
            json.WriteString("address", Address);
            json.WriteNumber("offsetMinutes", OffsetMinutes);
            json.WriteString("paper", Paper);
            json.WriteStartArray("printed");
            foreach (var (place, text) in Printed)
            {
                json.WriteStartObject();
                json.WriteString("place", place);
                json.WriteString("text", EntryBody.Whole(text));
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteStartArray("entries");
            foreach (var bytes in Entries)
            {
                json.WriteBase64StringValue(bytes.Span);
            }
            json.WriteEndArray();
            json.WriteStartArray("statements");
            foreach (var (encoded, signature) in Statements)
            {
                json.WriteStartObject();
                json.WriteBase64String("encoded", encoded.Span);
                json.WriteBase64String("signature", signature.Span);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteStartObject("keys");
            foreach (var (name, spki) in Keys)
            {
                json.WriteBase64String(name, spki.Span);
            }
            json.WriteEndObject();
            json.WriteEndObject();
        }
        return stream.ToArray();
    }

    /// <summary>Whether some bytes are such a file, of whatever version.</summary>
    /// <param name="bytes">JSON in UTF-8.</param>
    public static bool IsOne(ReadOnlySpan<byte> bytes) =>
        bytes[..Math.Min(bytes.Length, 200)].IndexOf(Encoding.UTF8.GetBytes(FormatName)) >= 0;

    /// <summary>Reads a file; null when it is none, damaged, or a later version's.</summary>
    /// <param name="bytes">JSON in UTF-8.</param>
    public static RecordFile? Read(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            using var json = JsonDocument.Parse(bytes);
            var root = json.RootElement;
            return
                root.GetProperty("format").GetString() == FormatName
                && root.GetProperty("version").GetInt32() == Latest
                && Guid.TryParse(root.GetProperty("log").GetString(), out var log)
                ? Read(root, new(log))
                : null;
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

    private static RecordFile Read(JsonElement root, LogId log) =>
        new()
        {
            Log = log,
            Job = Text(root, "job"),
            Address = Text(root, "address"),
            OffsetMinutes = Math.Clamp(root.GetProperty("offsetMinutes").GetInt32(), -840, 840),
            Paper = Text(root, "paper"),
            Printed =
            [
                .. root.GetProperty("printed")
                    .EnumerateArray()
                    .Select(line => new RecordLine(Text(line, "place"), Text(line, "text"))),
            ],
            Entries =
            [
                .. root.GetProperty("entries")
                    .EnumerateArray()
                    .Select(entry => (ReadOnlyMemory<byte>)entry.GetBytesFromBase64()),
            ],
            Statements =
            [
                .. root.GetProperty("statements")
                    .EnumerateArray()
                    .Select(each => new StatedBytes(
                        each.GetProperty("encoded").GetBytesFromBase64(),
                        each.GetProperty("signature").GetBytesFromBase64()
                    )),
            ],
            Keys = root.GetProperty("keys")
                .EnumerateObject()
                .ToImmutableSortedDictionary(
                    key => key.Name,
                    key => (ReadOnlyMemory<byte>)key.Value.GetBytesFromBase64(),
                    StringComparer.Ordinal
                ),
        };

    private static string Text(JsonElement of, string name) =>
        of.GetProperty(name).GetString() ?? throw new FormatException(name);
}

/// <summary>A server's statement in bytes, not read yet.</summary>
/// <param name="Encoded">The bytes that were signed.</param>
/// <param name="Signature">The signature.</param>
public sealed record StatedBytes(ReadOnlyMemory<byte> Encoded, ReadOnlyMemory<byte> Signature);
