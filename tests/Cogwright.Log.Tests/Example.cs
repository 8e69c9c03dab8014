namespace Cogwright.Log.Tests;

/// <summary>An entry with every field, and one with none that can be left out.</summary>
internal static class Example
{
    internal static EntryFields Fields { get; } =
        new()
        {
            Id = new EntryId(new Guid("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")),
            Log = Bench.Job,
            Device = Bench.DeviceOf(7),
            Sequence = 3,
            WallClockTicks = 639_080_000_000_000_000,
            Author = "account:17",
            Kind = "reading.taken",
            KindVersion = 2,
            Body = "{\"gapMm\":6.1}"u8.ToArray(),
            Heads = [new EntryId(Bench.IdOf(2)), new EntryId(Bench.IdOf(1))],
            Previous = Digest.Of("the one before"u8),
            Corrects = new EntryId(Bench.IdOf(2)),
            Personal = [Digest.Of("a salted name"u8)],
            Extensions = [new EntryExtension(200, "later"u8.ToArray())],
        };

    internal static EntryFields Minimal { get; } =
        new()
        {
            Id = new EntryId(new Guid("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")),
            Log = Bench.Job,
            Device = Bench.DeviceOf(7),
            Sequence = 1,
            WallClockTicks = -1,
            Author = "a",
            Kind = "k",
            KindVersion = 1,
        };
}
