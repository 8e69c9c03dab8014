using System.Buffers.Binary;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text.Json;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Setup.Jobs;

namespace Cogwright.Cli.Tests;

/// <summary>The log of one invented bike, made entry by entry as devices do, and a server's key.</summary>
internal sealed class RecordLogs : IDisposable
{
    private static readonly long Start = new DateTime(2026, 3, 14, 8, 0, 0, DateTimeKind.Utc).Ticks;

    private readonly ECDsa key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly List<CountersignedHeads> statements = [];
    private readonly string procedure = File.ReadAllText(
        CommandLine.InRepository("testdata/cases/procedures/good.yaml")
    );

    private EntryId? last;
    private int minutes;

    internal EntryLog Log { get; private set; } =
        new(new(new("0195a1f0-0000-7000-8000-000000000001")));

    internal DeviceId Stand { get; } = new(new("0195a1f0-0000-7000-8000-0000000000d1"));

    internal string Job { get; private set; } = "";

    internal string Run { get; private set; } = "";

    internal string KeyName =>
        "p256:" + Convert.ToHexStringLower(SHA256.HashData(key.ExportSubjectPublicKeyInfo()))[..32];

    internal byte[] PublicKey => key.ExportSubjectPublicKeyInfo();

    /// <summary>A bike with one job: a torque, a reading with its aim, an older one without, an exception, closed.</summary>
    internal static RecordLogs Closed()
    {
        var logs = new RecordLogs();
        logs.Add(
            SpecEntry.Draft(
                new(
                    "New bike",
                    ImmutableSortedDictionary<string, string?>.Empty.Add("name", "Grey tourer")
                )
            )
        );
        logs.Job = logs.Add(JobEntry.Begin("New cassette")).Id.ToString();
        logs.Add(JobEntry.Hands(logs.Job, "AB", ""));
        logs.Run = logs.Add(JobEntry.Procedure(logs.Job, logs.procedure)).Id.ToString();
        logs.Add(
            logs.Done(
                "mount",
                done =>
                    done with
                    {
                        Lower = 8,
                        Upper = 10,
                        Unit = "N·m",
                        Gauge = "Click wrench 1",
                        Calibrated = new DateOnly(2026, 1, 2),
                    }
            )
        );
        logs.Add(logs.Done("read", done => done with { Value = 2.5, Unit = "mm" }));
        logs.Add(
            logs.Done(
                "gap",
                done =>
                    done with
                    {
                        Outcome = StepOutcome.Within,
                        Value = 6.1,
                        Unit = "mm",
                        Lower = 5,
                        Aim = 6,
                        Upper = 7,
                        Gauge = "Caliper 3",
                    }
            )
        );
        logs.Add(JobEntry.Exception(logs.Run, "prove", "the customer waits"));
        logs.Add(JobEntry.Close(logs.Job, new DateOnly(2026, 4, 20)));
        return logs;
    }

    internal Entry Add(EntryDraft draft, DeviceId? device = null)
    {
        var stamp = EntryStamp.Next(
            last,
            Start + (minutes++ * TimeSpan.TicksPerMinute),
            RandomNumberGenerator.GetBytes(EntryId.RandomBytes)
        );
        var entry = Log.Prepare(device ?? Stand, stamp, draft with { Author = "device:1" }).Value!;
        Log.Add(entry);
        last = entry.Id;
        return entry;
    }

    internal EntryDraft Done(string step, Func<StepDone, StepDone> with) =>
        JobEntry.Step(with(new(new("", 0, ""), Run, step, StepOutcome.Done)));

    internal CountersignedHeads Countersign(EntryLog? log = null)
    {
        var made = HeadStatement
            .On(
                log ?? Log,
                Start,
                KeyName,
                log is null && statements is [.., var before] ? before.Statement : null
            )
            .Value!;
        var signed = new CountersignedHeads(
            made,
            key.SignData(made.Encoded.Span, HashAlgorithmName.SHA256)
        );
        statements.Add(signed);
        return signed;
    }

    /// <summary>The folder of a server's export, as docs/how-to/storage.md has it.</summary>
    internal string Export(
        Scratch scratch,
        string name = "export",
        IEnumerable<Entry>? entries = null
    )
    {
        var folder = scratch.PathOf(name);
        var under = Path.Combine(folder, "logs", Log.Id.ToString());
        Directory.CreateDirectory(under);
        using (var raw = File.Create(Path.Combine(under, "entries.bin")))
        {
            Span<byte> length = stackalloc byte[4];
            foreach (var entry in entries ?? Log.Ordered)
            {
                BinaryPrimitives.WriteInt32BigEndian(length, entry.Encoded.Length);
                raw.Write(length);
                raw.Write(entry.Encoded.Span);
            }
        }
        File.WriteAllLines(
            Path.Combine(under, "statements.jsonl"),
            statements.Select(each =>
                JsonSerializer.Serialize(
                    new
                    {
                        serial = each.Statement.Serial,
                        encodedBase64 = each.Statement.Encoded.ToArray(),
                        signatureBase64 = each.Signature.ToArray(),
                    }
                )
            )
        );
        File.WriteAllText(
            Path.Combine(folder, "keys.jsonl"),
            JsonSerializer.Serialize(
                new { name = KeyName, spkiBase64 = key.ExportSubjectPublicKeyInfo() }
            )
        );
        return folder;
    }

    /// <summary>A device's file, as docs/how-to/offline.md has it.</summary>
    internal string DeviceFile(Scratch scratch) =>
        scratch.File(
            "device.json",
            JsonSerializer.Serialize(
                new
                {
                    format = "cogwright-device",
                    version = 1,
                    device = Stand.ToString(),
                    made = "2026-03-14T12:00:00Z",
                    logs = new[]
                    {
                        new
                        {
                            log = Log.Id.ToString(),
                            entries = Log.Ordered.Select(entry => entry.Encoded.ToArray()),
                        },
                    },
                }
            )
        );

    public void Dispose() => key.Dispose();
}
