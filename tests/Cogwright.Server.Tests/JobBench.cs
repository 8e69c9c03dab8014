using System.Collections.Immutable;
using System.Text;
using Cogwright.Care;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Setup.Jobs;

namespace Cogwright.Server.Tests;

/// <summary>A device at an invented stand that writes what happens in jobs on one bike.</summary>
internal sealed class JobBench(int number, LogId log, Random random)
{
    private EntryId? lastId;

    internal DeviceId Device { get; } = new(Bench.IdOf(number));

    internal EntryLog Log { get; } = new(log);

    internal long Ticks { get; set; } = new DateTime(2026, 3, 1, 8, 0, 0, DateTimeKind.Utc).Ticks;

    internal Entry Write(EntryDraft draft)
    {
        Span<byte> chance = stackalloc byte[EntryId.RandomBytes];
        random.NextBytes(chance);
        var stamp = EntryStamp.Next(lastId, Ticks, chance);
        lastId = stamp.Id;
        var made = Log.Prepare(Device, stamp, draft with { Author = "account:1" });
        Assert.True(made.IsGood, made.Fault?.Text);
        Log.Add(made.Value);
        return made.Value;
    }

    internal Entry Name(string name) =>
        Write(
            SpecEntry.Draft(
                new(
                    "named",
                    ImmutableSortedDictionary
                        .Create<string, string?>(StringComparer.Ordinal)
                        .Add("name", name)
                )
            )
        );

    /// <summary>One thing that can happen, at random; names jobs and entries that are there, and now and then one that is not.</summary>
    internal Entry Happen()
    {
        Ticks += random.Next(4) switch
        {
            0 => TimeSpan.FromHours(random.Next(60)).Ticks,
            1 => -TimeSpan.FromMinutes(random.Next(30)).Ticks,
            _ => TimeSpan.FromMinutes(random.Next(40)).Ticks,
        };
        var jobs = Log.Ordered.Where(entry => entry.Kind == "job.begin").ToList();
        var job =
            jobs.Count == 0 || random.Next(20) == 0
                ? Bench.IdOf(random.Next()).ToString()
                : jobs[random.Next(jobs.Count)].Id.ToString();
        return random.Next(12) switch
        {
            0 => Name($"Bike {random.Next(9)}"),
            1 => Write(JobEntry.Begin($"Job {random.Next(9)}")),
            2 => Write(
                JobEntry.Intake(
                    job,
                    IntakeFields.All[random.Next(IntakeFields.All.Length)],
                    random.Next(4) switch
                    {
                        0 => IntakeFields.NoGo,
                        1 => IntakeFields.Go,
                        2 => "gears",
                        _ => $"answer {random.Next(9)}",
                    }
                )
            ),
            3 => Write(JobEntry.Stage(job, (JobStage)random.Next(7))),
            4 => Write(JobEntry.Hands(job, $"P{random.Next(3)}", $"note {random.Next(9)}")),
            5 => Write(JobEntry.Change("fall", $"note {random.Next(9)}")),
            6 => random.Next(3) == 0
                ? Write(JobEntry.Check(job, "looked at"))
                : Write(
                    JobEntry.Close(
                        job,
                        random.Next(2) == 0 ? null : new DateOnly(2026, 3, 1 + random.Next(28))
                    )
                ),
            7 => Write(
                JobEntry.Comeback(
                    job,
                    "",
                    ComebackCauses.All[random.Next(ComebackCauses.All.Length)],
                    "again"
                )
            ),
            8 when Log.Count > 0 => Write(
                JobEntry.TakeBack(Log[random.Next(Log.Count)].Id, "a slip")
            ),
            9 => Write(JobEntry.Words(job, PersonalWords.Complaint, Said("words").Digest)),
            10 => Write(
                CareEntry.Draft(
                    new CarePart(
                        random.Next(2) == 0 ? CareKind.Cable : CareKind.FirstCheck,
                        (CarePlace)random.Next(5),
                        new DateOnly(2026, 1 + random.Next(4), 1 + random.Next(28))
                    )
                )
            ),
            _ => Write(new EntryDraft("", "note", 1, "{}"u8.ToArray())),
        };
    }

    internal PersonalDatum Said(string words)
    {
        var salt = new byte[PersonalDatum.SaltBytes];
        random.NextBytes(salt);
        return new PersonalDatum(salt, Encoding.UTF8.GetBytes(words));
    }
}
