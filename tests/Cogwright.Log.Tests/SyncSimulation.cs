using System.Collections.Immutable;

namespace Cogwright.Log.Tests;

/// <summary>
/// Devices, a server and a network that drops, doubles, delays and reorders, all in one thread and from one seed. Any of them
/// can stop between any two steps; then only what was stored is left.
/// </summary>
internal sealed class SyncSimulation
{
    private const int MostRounds = 200;

    private readonly Random random;
    private readonly List<Device> devices = [];
    private readonly Server server = new();
    private readonly List<Action> network = [];
    private bool isCalm;

    internal SyncSimulation(int seed)
    {
        random = new Random(seed);
        var count = random.Next(1, 4);
        for (var i = 0; i < count; i++)
        {
            devices.Add(new Device(i + 1, random.Next()));
        }
    }

    /// <summary>Every entry that was stored on a device.</summary>
    internal List<Entry> Stored { get; } = [];

    internal IReadOnlyList<Entry> OnServer => server.Rows;

    internal IEnumerable<EntryLog> Logs => devices.Select(device => device.Log);

    internal int UnansweredCount => devices.Sum(device => device.Outbox.Items.Count());

    /// <summary>Everything goes wrong that can.</summary>
    internal void Storm(int steps)
    {
        for (var step = 0; step < steps; step++)
        {
            Step();
            CheckNothingIsLost();
        }
    }

    /// <summary>Everything gets through, until nobody has anything to say.</summary>
    internal void Calm()
    {
        isCalm = true;
        // Whoever has entries left after so many rounds is stuck, and the test will say so.
        for (var round = 0; round < MostRounds && !IsQuiet; round++)
        {
            foreach (var device in devices)
            {
                Deliver();
                device.RetryAll();
                Push(device);
                Deliver();
                Pull(device);
                Deliver();
            }
        }
    }

    private bool IsQuiet =>
        UnansweredCount == 0 && devices.All(device => device.Cursor == server.End);

    private void Step()
    {
        var device = devices[random.Next(devices.Count)];
        switch (random.Next(12))
        {
            case < 4:
                if (device.Write(StopsNow()) is { } entry)
                {
                    Stored.Add(entry);
                }
                break;
            case < 6:
                Push(device);
                break;
            case < 8:
                Pull(device);
                break;
            case 8:
                device.Restart();
                break;
            case 9:
                device.RetryAll();
                break;
            case 10 when random.Next(8) == 0:
                server.RestoreBackup(random.Next(server.Rows.Count + 1), NextGuid());
                break;
            default:
                DeliverOne();
                break;
        }
    }

    private void Push(Device device)
    {
        var batch = device.Batch(random.Next(1, 5));
        Send(() =>
        {
            var answers = server.Receive(batch, refuses: !isCalm && random.Next(6) == 0);
            if (!StopsNow())
            {
                Send(() => device.Take(answers, StopsNow()));
            }
        });
    }

    private void Pull(Device device)
    {
        var cursor = device.Cursor;
        Send(() =>
        {
            var page = server.Page(cursor, isCalm ? 100 : random.Next(1, 4));
            Send(() => device.TakePage(page, StopsNow()));
        });
    }

    private void Send(Action message)
    {
        var copies = isCalm
            ? 1
            : random.Next(10) switch
            {
                0 or 1 => 0,
                2 => 2,
                _ => 1,
            };
        for (; copies > 0; copies--)
        {
            network.Add(message);
        }
    }

    private void DeliverOne()
    {
        if (network.Count > 0)
        {
            var at = random.Next(network.Count);
            var message = network[at];
            network.RemoveAt(at);
            message();
        }
    }

    private void Deliver()
    {
        while (network.Count > 0)
        {
            DeliverOne();
        }
    }

    private void CheckNothingIsLost()
    {
        foreach (var device in devices)
        {
            // Whatever was stored is to be sent, or the server has it, or the server lost it and the device keeps it.
            var open = device.Outbox.Items.Select(item => item.Id).ToHashSet();
            var lost = device.Made.Find(entry =>
                !open.Contains(entry.Id) && !server.EverHeld.Contains(entry.Id)
            );
            if (lost is not null)
            {
                Assert.Fail($"{lost} is neither in the outbox nor was it ever on the server");
            }
        }
    }

    private bool StopsNow() => !isCalm && random.Next(10) == 0;

    private Guid NextGuid()
    {
        var bytes = new byte[16];
        random.NextBytes(bytes);
        return new Guid(bytes);
    }

    /// <summary>What is stored lives; log and outbox in memory are made from it again after a stop.</summary>
    private sealed class Device(int number, int seed)
    {
        private readonly Bench clock = new(number, Bench.Job, seed % 1000);
        private ImmutableList<OutboxItem> storedItems = [];
        private Guid storedEpoch;

        private readonly Dictionary<EntryId, Entry> stored = [];

        internal List<Entry> Made { get; } = [];

        internal EntryLog Log => clock.Log;

        internal Outbox Outbox { get; private set; } = Outbox.For(Bench.Job);

        internal PullCursor Cursor { get; private set; } = PullCursor.Start;

        internal Entry? Write(bool stopsBeforeStoring)
        {
            var made = clock.Prepare();
            if (!made.IsGood || stopsBeforeStoring)
            {
                // Never stored, so never promised to anybody.
                Restart();
                return null;
            }
            Made.Add(made.Value);
            Store([made.Value], Outbox.Append(made.Value));
            Log.Add(made.Value);
            return made.Value;
        }

        internal ImmutableArray<Entry> Batch(int many) =>
            [.. Outbox.Batch(many).Select(item => stored[item.Id])];

        internal void Take(AnswerPage answers, bool stopsBeforeStoring)
        {
            if (stopsBeforeStoring)
            {
                Restart();
                return;
            }
            Store([], Outbox.Take(answers));
        }

        internal void TakePage(PullPage page, bool stopsBetween)
        {
            Log.Merge(page.Entries);
            Store(page.Entries, Outbox.Meet(page, Log));
            if (stopsBetween)
            {
                // Entries are stored, the cursor is not: the page comes again.
                Restart();
                return;
            }
            Cursor = Cursor.After(page);
        }

        internal void RetryAll() =>
            Store([], Outbox.Refused.ToList().Aggregate(Outbox, (box, item) => box.Retry(item.Id)));

        internal void Restart()
        {
            clock.Forget();
            Log.Merge(stored.Values);
            Outbox = Outbox.Restore(Bench.Job, storedEpoch, storedItems);
        }

        /// <summary>One transaction.</summary>
        private void Store(IEnumerable<Entry> entries, Outbox outbox)
        {
            foreach (var entry in entries)
            {
                // A page fetched twice writes the same rows once.
                stored.TryAdd(entry.Id, entry);
            }
            Outbox = outbox;
            (storedItems, storedEpoch) = ([.. outbox.Items], outbox.Epoch);
        }
    }

    private sealed class Server
    {
        private Guid epoch = Bench.IdOf(1);

        internal List<Entry> Rows { get; private set; } = [];

        internal PullCursor End => new(epoch, Rows.Count);

        internal HashSet<EntryId> EverHeld { get; } = [];

        internal EntryLog Log { get; private set; } = new(Bench.Job);

        internal AnswerPage Receive(ImmutableArray<Entry> batch, bool refuses)
        {
            var answers = ImmutableArray.CreateBuilder<Answer>();
            foreach (var entry in batch)
            {
                // What is sent is bytes.
                var read = Entry.Read(entry.Encoded.Span).Value!;
                if (refuses)
                {
                    answers.Add(new Answer(read.Id, read.Hash, AnswerStatus.Refused, "busy"));
                    continue;
                }
                var isNew = Log.Add(read).Status is AddStatus.Entered or AddStatus.Waiting;
                if (isNew)
                {
                    Rows.Add(read);
                    EverHeld.Add(read.Id);
                }
                answers.Add(
                    new Answer(
                        read.Id,
                        Log.Find(read.Id)!.Hash,
                        isNew ? AnswerStatus.Created : AnswerStatus.Exists
                    )
                );
            }
            return new AnswerPage(epoch, answers.ToImmutable());
        }

        internal PullPage Page(PullCursor cursor, int many)
        {
            var after = cursor.Epoch == epoch ? (int)cursor.Receipt : 0;
            var entries = Rows.Skip(after).Take(many).ToImmutableArray();
            var last = after + entries.Length;
            return new PullPage(epoch, after, last, entries, Log.Tips, last < Rows.Count);
        }

        internal void RestoreBackup(int rows, Guid newEpoch)
        {
            Rows = [.. Rows.Take(rows)];
            epoch = newEpoch;
            Log = new EntryLog(Bench.Job);
            Log.Merge(Rows);
        }
    }
}
