namespace Cogwright.Log.Tests;

/// <summary>
/// A random history: two to five devices with wrong and jumping clocks write, correct, exchange some of what they know, in any
/// order and more than once, and are sometimes cloned. The seed makes it; later seeds make longer ones, so the first failure
/// is a short one.
/// </summary>
internal sealed class History
{
    private const int OrdinaryInSteps = 30;
    private const int LongInSteps = 90;

    private static readonly string[] Subjects = ["barrel", "body", "outboard", "inboard"];

    private readonly Random random;

    internal History(int seed)
        : this(seed, seed % 100 == 99 ? LongInSteps : 6 + (seed % OrdinaryInSteps)) { }

    internal History(int seed, int steps)
    {
        random = new Random(seed);
        var log = new LogId(RandomId());
        var devices = random.Next(2, 6);
        for (var i = 0; i < devices; i++)
        {
            Benches.Add(new Bench(new DeviceId(RandomId()), log, new Random(random.Next())));
            Benches[i].Ticks += AnyTime();
        }
        for (var step = 0; step < steps; step++)
        {
            Step();
        }
    }

    internal List<Bench> Benches { get; } = [];

    /// <summary>Every entry made, once.</summary>
    internal List<Entry> Made { get; } = [];

    /// <summary>The same entries reordered, some of them more than once.</summary>
    internal List<Entry> Delivery()
    {
        var entries = Made.ToList();
        for (var doubles = random.Next(entries.Count + 1); doubles > 0; doubles--)
        {
            entries.Add(Made[random.Next(Made.Count)]);
        }
        var delivery = entries.ToArray();
        random.Shuffle(delivery);
        return [.. delivery];
    }

    /// <summary>A random part of all entries.</summary>
    internal List<Entry> Part() => [.. Made.Where(_ => random.Next(5) > 0)];

    internal int Next(int below) => random.Next(below);

    private void Step()
    {
        var bench = Any(Benches);
        switch (random.Next(20))
        {
            case 0 when Benches.Count < 6:
                Benches.Add(bench.Clone(random.Next()));
                break;
            case 1:
                bench.Ticks += AnyTime();
                break;
            case < 9:
                Exchange(bench, Any(Benches));
                break;
            default:
                Write(bench);
                break;
        }
    }

    private void Write(Bench bench)
    {
        bench.Ticks += random.Next(1000);
        EntryId? corrects =
            bench.Log.Count > 0 && random.Next(5) == 0
                ? bench.Log[random.Next(bench.Log.Count)].Id
                : null;
        var setsTwo = random.Next(4) == 0 ? "," + Any(Subjects) : "";
        var made =
            random.Next(3) == 0
                ? bench.Prepare("said", "note", corrects)
                : bench.Prepare(Any(Subjects) + setsTwo, "set", corrects);
        // Refused where the device finds out that it was cloned or set back.
        if (made.IsGood)
        {
            bench.Log.Add(made.Value);
            Made.Add(made.Value);
        }
    }

    private void Exchange(Bench from, Bench to)
    {
        // What the other has not, and a few that it has.
        var sent = from
            .Log.Ordered.Where(entry => to.Log.Find(entry.Id) is null || random.Next(8) == 0)
            .ToArray();
        random.Shuffle(sent);
        to.Log.Merge(random.Next(3) == 0 ? sent : sent.Take(random.Next(sent.Length + 1)));
    }

    private T Any<T>(IReadOnlyList<T> among) => among[random.Next(among.Count)];

    private long AnyTime() => TimeSpan.FromDays((random.NextDouble() - 0.5) * 10_000).Ticks;

    private Guid RandomId()
    {
        Span<byte> bytes = stackalloc byte[16];
        random.NextBytes(bytes);
        return new Guid(bytes);
    }
}
