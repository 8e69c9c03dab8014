using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Text;
using System.Text.Unicode;

namespace Cogwright.Log;

/// <summary>
/// What a server says it holds of a log, to be signed by it and printed on the record: the end of every chain with its hash,
/// and how many entries that is. Ends of chains rather than heads of the log, because an entry names what it has seen by id:
/// only through the chains do hashes reach every entry. Statements of one log are chained like entries.
/// </summary>
public sealed class HeadStatement
{
    /// <summary>The version of the encoding.</summary>
    private const byte Version = 1;

    private const int TipBytes = 16 + 8 + 16 + Digest.Length;
    private const int KeyNameBytes = 128;
    private const byte LogTag = 1;
    private const byte SerialTag = 2;
    private const byte CountTag = 3;
    private const byte TicksTag = 4;
    private const byte KeyTag = 5;
    private const byte TipsTag = 6;
    private const byte PreviousTag = 7;

    private readonly byte[] bytes;

    private HeadStatement(Content content, byte[] bytes)
    {
        (Log, Serial, Count, ServerTicks, Key, Tips, Previous) = content;
        this.bytes = bytes;
        Hash = Digest.Of(bytes);
    }

    private sealed record Content(
        LogId Log,
        long Serial,
        long Count,
        long ServerTicks,
        string Key,
        ImmutableArray<ChainTip> Tips,
        Digest? Previous
    );

    private static ReadOnlySpan<byte> Letters => "CWH"u8;

    /// <summary>The log.</summary>
    public LogId Log { get; }

    /// <summary>The number of the statement for this log, from 1 without a gap.</summary>
    public long Serial { get; }

    /// <summary>How many entries the chains hold, from their first to their ends.</summary>
    public long Count { get; }

    /// <summary>The server's clock: 100 ns since the year 1, UTC. The statement is not older than the server believed.</summary>
    public long ServerTicks { get; }

    /// <summary>The name of the key that it is signed with.</summary>
    public string Key { get; }

    /// <summary>The ends of the chains, ascending by device, sequence and id.</summary>
    public ImmutableArray<ChainTip> Tips { get; }

    /// <summary>The hash of the statement before; null in the first one.</summary>
    public Digest? Previous { get; }

    /// <summary>SHA-256 of <see cref="Encoded"/>.</summary>
    public Digest Hash { get; }

    /// <summary>The bytes that are signed.</summary>
    public ReadOnlyMemory<byte> Encoded => bytes;

    /// <summary>Makes the next statement on a log as it is now. Entries that wait are not in it.</summary>
    /// <param name="log">The log; at least one entry is in its order.</param>
    /// <param name="serverTicks">The server's clock: 100 ns since the year 1, UTC.</param>
    /// <param name="key">The name of the key that will sign, 1 to 128 bytes.</param>
    /// <param name="previous">The statement before, if there is one.</param>
    public static Outcome<HeadStatement> On(
        EntryLog log,
        long serverTicks,
        string key,
        HeadStatement? previous
    )
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(key);
        if (previous is not null && previous.Log != log.Id)
        {
            return Fault(LogFaultKind.OtherLog, "statement.otherLog", previous.Log, log.Id);
        }
        return Made(
            new Content(
                log.Id,
                previous is null ? 1 : previous.Serial + 1,
                log.Count,
                serverTicks,
                key,
                log.Tips,
                previous?.Hash
            )
        );
    }

    /// <summary>Reads a statement. Anything but the one permitted way of writing it is refused.</summary>
    public static Outcome<HeadStatement> Read(ReadOnlySpan<byte> encoded)
    {
        if (encoded.Length > (EntryLimits.Tips * TipBytes) + 1024)
        {
            return Fault(
                LogFaultKind.TooLarge,
                "statement.tooLarge",
                encoded.Length,
                EntryLimits.Tips
            );
        }
        var outcome = FieldReader.Read(encoded.ToArray(), Letters);
        if (!outcome.IsGood)
        {
            return new(outcome.Fault);
        }
        var reader = outcome.Value;
        if (!Utf8.IsValid(reader.Bytes(KeyTag).Span))
        {
            return Fault(LogFaultKind.Unreadable, "read.utf8", KeyTag);
        }
        var content = new Content(
            new LogId(reader.Id(LogTag)),
            reader.Int64(SerialTag),
            reader.Int64(CountTag),
            reader.Int64(TicksTag),
            Encoding.UTF8.GetString(reader.Bytes(KeyTag).Span),
            TipsOf(reader),
            reader.Has(PreviousTag) ? reader.Digest(PreviousTag) : null
        );
        if (reader.WrongLength != 0)
        {
            return Fault(LogFaultKind.Unreadable, "read.fieldLength", reader.WrongLength);
        }
        var made = Made(content);
        return !made.IsGood || made.Value.bytes.AsSpan().SequenceEqual(encoded)
            ? made
            : Fault(LogFaultKind.NotCanonical, "statement.notCanonical");
    }

    private static Outcome<HeadStatement> Made(Content content)
    {
        if (Impossible(content) is { } rule)
        {
            return Fault(LogFaultKind.Impossible, rule, content.Log, content.Serial);
        }
        var keyBytes = Encoding.UTF8.GetByteCount(content.Key);
        if (keyBytes is 0 or > KeyNameBytes || content.Tips.Length > EntryLimits.Tips)
        {
            return Fault(
                LogFaultKind.TooLarge,
                "statement.sizes",
                keyBytes,
                KeyNameBytes,
                content.Tips.Length,
                EntryLimits.Tips
            );
        }
        return new(new HeadStatement(content, Write(content, keyBytes)));
    }

    private static string? Impossible(Content content)
    {
        if (content.Tips.IsEmpty || content.Count < content.Tips.Length)
        {
            return "statement.empty";
        }
        if (content.Serial < 1 || content.Serial == 1 != content.Previous is null)
        {
            return "statement.serial";
        }
        var ordered = content.Tips.OrderBy(tip => tip.Key);
        return content.Tips.SequenceEqual(ordered) && content.Tips.All(tip => tip.Sequence >= 1)
            ? null
            : "statement.tips";
    }

    private static byte[] Write(Content content, int keyBytes)
    {
        var size =
            FieldWriter.Start
            + (6 * FieldWriter.Overhead)
            + 16
            + (3 * 8)
            + keyBytes
            + (TipBytes * content.Tips.Length)
            + (content.Previous is null ? 0 : FieldWriter.Overhead + Digest.Length);
        var bytes = new byte[size];
        var writer = new FieldWriter(bytes, Letters, Version);
        writer.Write(LogTag, content.Log.Value);
        writer.Write(SerialTag, content.Serial);
        writer.Write(CountTag, content.Count);
        writer.Write(TicksTag, content.ServerTicks);
        writer.Write(KeyTag, content.Key);
        var tips = writer.Field(TipsTag, TipBytes * content.Tips.Length);
        foreach (var tip in content.Tips)
        {
            tip.Device.Value.TryWriteBytes(tips, bigEndian: true, out _);
            BinaryPrimitives.WriteInt64BigEndian(tips[16..], tip.Sequence);
            tip.Id.Value.TryWriteBytes(tips[24..], bigEndian: true, out _);
            tip.Hash.CopyTo(tips[40..]);
            tips = tips[TipBytes..];
        }
        if (content.Previous is { } previous)
        {
            writer.Write(PreviousTag, previous);
        }
        return bytes;
    }

    private static ImmutableArray<ChainTip> TipsOf(FieldReader reader)
    {
        var tips = ImmutableArray.CreateBuilder<ChainTip>(reader.CountOf(TipsTag, TipBytes));
        var span = reader.Bytes(TipsTag).Span;
        for (; span.Length >= TipBytes; span = span[TipBytes..])
        {
            tips.Add(
                new ChainTip(
                    new DeviceId(new Guid(span[..16], bigEndian: true)),
                    BinaryPrimitives.ReadInt64BigEndian(span[16..]),
                    new EntryId(new Guid(span[24..40], bigEndian: true)),
                    new Digest(span[40..TipBytes])
                )
            );
        }
        return tips.ToImmutable();
    }

    private static Outcome<HeadStatement> Fault(
        LogFaultKind kind,
        string key,
        params ReadOnlySpan<object?> values
    ) => new(new LogFault(kind, Texts.Get(key, values)));
}
