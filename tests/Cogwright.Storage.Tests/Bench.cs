using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Text;
using Cogwright.Log;

namespace Cogwright.Storage.Tests;

/// <summary>A device at an invented stand that writes to one log.</summary>
internal sealed class Bench(int number, LogId log, int seed = 1)
{
    private readonly Random random = new((seed * 1000) + number);
    private EntryId? lastId;

    internal DeviceId Device { get; } = new(IdOf(number));

    internal EntryLog Log { get; private init; } = new(log);

    /// <summary>The clock: 100 ns since the year 1, UTC. Wrong, if a test wants.</summary>
    internal long Ticks { get; set; } = new DateTime(2026, 3, 1, 8, 0, 0, DateTimeKind.Utc).Ticks;

    internal static LogId Job(int number) => new(IdOf(0xA0B0 + number));

    internal static Guid IdOf(int number)
    {
        Span<byte> bytes = stackalloc byte[16];
        bytes.Clear();
        BinaryPrimitives.WriteInt32BigEndian(bytes[12..], number);
        return new Guid(bytes, bigEndian: true);
    }

    /// <summary>Makes an entry and takes it in here.</summary>
    internal Entry Write(string body = "{}", params ImmutableArray<Digest> personal)
    {
        Span<byte> chance = stackalloc byte[EntryId.RandomBytes];
        random.NextBytes(chance);
        var stamp = EntryStamp.Next(lastId, Ticks, chance);
        lastId = stamp.Id;
        var made = Log.Prepare(
            Device,
            stamp,
            new EntryDraft("account:1", "note", 1, Encoding.UTF8.GetBytes(body))
            {
                Personal = personal,
            }
        );
        Assert.True(made.IsGood, made.Fault?.Text);
        Assert.Equal(AddStatus.Entered, Log.Add(made.Value).Status);
        return made.Value;
    }

    internal ImmutableArray<Entry> WriteMany(int count) =>
        [.. Enumerable.Range(1, count).Select(each => Write($"{{\"n\":{each}}}"))];

    /// <summary>Another device with this one's id: a copied store.</summary>
    internal Bench Clone(int cloneSeed)
    {
        var clone = new Bench(number, Log.Id, cloneSeed) { Ticks = Ticks };
        clone.Log.Merge(Log.Ordered);
        return clone;
    }
}
