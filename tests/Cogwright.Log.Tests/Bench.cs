using System.Buffers.Binary;
using System.Text;

namespace Cogwright.Log.Tests;

/// <summary>A device at an invented stand: its id, its clock, its chance, and the log as it knows it.</summary>
internal sealed class Bench
{
    private readonly Random random;
    private EntryId? lastId;

    internal Bench(int number, LogId log, int seed = 1)
        : this(DeviceOf(number), log, new Random((seed * 1000) + number)) { }

    internal Bench(DeviceId device, LogId log, Random random)
    {
        Device = device;
        Log = new EntryLog(log);
        this.random = random;
    }

    internal static LogId Job { get; } = new(IdOf(0xA0B));

    internal DeviceId Device { get; }

    internal EntryLog Log { get; private set; }

    /// <summary>The clock: 100 ns since the year 1, UTC. Wrong, if a test wants.</summary>
    internal long Ticks { get; set; } = new DateTime(2026, 3, 1, 8, 0, 0, DateTimeKind.Utc).Ticks;

    internal static DeviceId DeviceOf(int number) => new(IdOf(number));

    internal static Guid IdOf(int number)
    {
        Span<byte> bytes = stackalloc byte[16];
        bytes.Clear();
        BinaryPrimitives.WriteInt32BigEndian(bytes[12..], number);
        return new Guid(bytes, bigEndian: true);
    }

    /// <summary>Makes an entry and takes it in.</summary>
    internal Entry Write(string body = "", string kind = "note", EntryId? corrects = null)
    {
        var made = Prepare(body, kind, corrects);
        Assert.True(made.IsGood, made.Fault?.Text);
        Assert.Equal(AddStatus.Entered, Log.Add(made.Value).Status);
        return made.Value;
    }

    internal Outcome<Entry> Prepare(
        string body = "",
        string kind = "note",
        EntryId? corrects = null
    )
    {
        Span<byte> chance = stackalloc byte[EntryId.RandomBytes];
        random.NextBytes(chance);
        var stamp = EntryStamp.Next(lastId, Ticks, chance);
        lastId = stamp.Id;
        return Log.Prepare(
            Device,
            stamp,
            new EntryDraft("account:1", kind, 1, Encoding.UTF8.GetBytes(body))
            {
                Corrects = corrects,
            }
        );
    }

    /// <summary>A stop: what is in memory is gone.</summary>
    internal void Forget() => Log = new EntryLog(Log.Id);

    /// <summary>Another device with this one's id and all that it knows: a copied or restored store.</summary>
    internal Bench Clone(int seed)
    {
        var clone = new Bench(Device, Log.Id, new Random(seed)) { Ticks = Ticks };
        clone.Log.Merge(Log.Ordered);
        return clone;
    }
}
