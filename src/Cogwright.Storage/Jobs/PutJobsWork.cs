using System.Buffers.Binary;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>What became of what a log was worked out to.</summary>
public enum FoldStatus
{
    /// <summary>It is in the tables.</summary>
    Put,

    /// <summary>Another server was further, or as far with the same or later code: what is there stays.</summary>
    Behind,

    /// <summary>Personal data came or went meanwhile: nothing was written, it is to be worked out again.</summary>
    Overtaken,
}

/// <summary>Puts what a log was worked out to in the place of what was there.</summary>
/// <param name="folded">The log.</param>
/// <param name="attempt">Counts from 0; numbers that are taken already differ at the next.</param>
internal sealed class PutJobsWork(FoldedLog folded, int attempt) : WriteWork<FoldStatus>
{
    private const string PutRow = """
        INSERT INTO "Jobs" (
            "Number", "Log", "Job", "Bike", "Title", "Kind", "Stage", "InHandsOf", "Waits", "BegunTicks", "LastTicks",
            "ClosedTicks", "DueDay", "Due", "Cause", "ComebackOf", "IntakeSeconds", "CompatibilitySeconds", "TargetsSeconds",
            "SetUpSeconds", "TestSeconds", "HandoverSeconds", "AftercareSeconds", "PauseSeconds")
        VALUES (
            @number, @log, @job, @bike, @title, @kind, @stage, @hands, @waits, @begun, @last,
            @closed, @dueDay, @due, @cause, @of, @s0, @s1, @s2, @s3, @s4, @s5, @s6, @pause)
        """;

    private FoldStatus status;

    internal override Guid Log => folded.Log.Value;

    /// <summary>The same lock as for what comes in and is erased: no word may be written that is being erased.</summary>
    internal override bool LocksShop => folded.SaidHere.Length + folded.SaidElsewhere.Length > 0;

    internal override async Task RunAsync(WriteTransaction transaction)
    {
        await transaction.LockAsync(Log).ConfigureAwait(false);
        var commands = transaction.Commands;
        var index = transaction.Database.JobIndex;
        long receivedTicks;
        bool isNew;
        using (
            var reader = await commands
                .ReadAsync(
                    """
                    SELECT "f"."Receipt", "f"."Version",
                        (SELECT "ReceivedTicks" FROM "Entries" WHERE "Log" = @log AND "Receipt" = @receipt)
                    FROM (SELECT 1 AS "one") AS "o" LEFT JOIN "FoldedLogs" AS "f" ON "f"."Log" = @log
                    """,
                    ("log", Log),
                    ("receipt", folded.Receipt)
                )
                .ConfigureAwait(false)
        )
        {
            await reader.ReadAsync().ConfigureAwait(false);
            isNew = reader.IsDBNull(0);
            // By the place first: while servers of two versions are at work, or after one has gone back to an earlier version, what
            // came in last is told, and the later code tells it anew.
            if (
                !isNew
                && (reader.GetInt64(0), reader.GetInt32(1)).CompareTo(
                    (folded.Receipt, folded.Version)
                ) >= 0
            )
            {
                status = FoldStatus.Behind;
                return;
            }
            receivedTicks = reader.IsDBNull(2)
                ? folded.Jobs.Select(each => each.Job.LastTicks).DefaultIfEmpty().Max()
                : reader.GetInt64(2);
        }
        if (await IsOvertakenAsync(commands).ConfigureAwait(false))
        {
            status = FoldStatus.Overtaken;
            return;
        }
        if (!isNew)
        {
            foreach (var delete in (string[])[index.Delete, index.DeleteSaid])
            {
                await commands.LaterAsync(delete, ("log", Log)).ConfigureAwait(false);
            }
            await commands
                .LaterAsync("""DELETE FROM "Jobs" WHERE "Log" = @log""", ("log", Log))
                .ConfigureAwait(false);
        }
        for (var i = 0; i < folded.Jobs.Length; i++)
        {
            await PutAsync(commands, index, folded.Jobs[i], NumberOf(i, receivedTicks))
                .ConfigureAwait(false);
        }
        await commands
            .LaterAsync(
                """
                INSERT INTO "FoldedLogs" ("Log", "Receipt", "Version") VALUES (@log, @receipt, @version)
                ON CONFLICT ("Log") DO UPDATE SET "Receipt" = excluded."Receipt", "Version" = excluded."Version"
                """,
                ("log", Log),
                ("receipt", folded.Receipt),
                ("version", folded.Version)
            )
            .ConfigureAwait(false);
        status = FoldStatus.Put;
    }

    protected override FoldStatus Answer(ErasedBytes bytes) => status;

    private async Task<bool> IsOvertakenAsync(CommandSet commands)
    {
        foreach (
            var (digests, isHere) in ((IEnumerable<Digest>, bool)[])
                [(folded.SaidHere, true), (folded.SaidElsewhere, false)]
        )
        {
            foreach (var digest in digests)
            {
                var found = await commands
                    .ScalarAsync(
                        """SELECT 1 FROM "Personal" WHERE "Digest" = @digest""",
                        ("digest", digest.ToBytes())
                    )
                    .ConfigureAwait(false);
                if (found is null == isHere)
                {
                    return true;
                }
            }
        }
        return false;
    }

    private async Task PutAsync(
        CommandSet commands,
        JobIndexSql index,
        FoundByWords found,
        long number
    )
    {
        var job = found.Job;
        await commands
            .LaterAsync(
                PutRow,
                ("number", number),
                ("log", Log),
                ("job", job.Job),
                ("bike", job.Bike),
                ("title", job.Title),
                ("kind", job.Kind),
                ("stage", job.Stage),
                ("hands", job.InHandsOf),
                ("waits", job.Waits),
                ("begun", job.BegunTicks),
                ("last", job.LastTicks),
                ("closed", job.ClosedTicks),
                ("dueDay", job.DueOn?.DayNumber),
                ("due", job.Due),
                ("cause", job.Cause),
                ("of", job.ComebackOf),
                ("s0", job.StageSeconds[0]),
                ("s1", job.StageSeconds[1]),
                ("s2", job.StageSeconds[2]),
                ("s3", job.StageSeconds[3]),
                ("s4", job.StageSeconds[4]),
                ("s5", job.StageSeconds[5]),
                ("s6", job.StageSeconds[6]),
                ("pause", job.PauseSeconds)
            )
            .ConfigureAwait(false);
        await commands
            .LaterAsync(index.Put, ("number", number), ("words", index.Words(found.Words)))
            .ConfigureAwait(false);
        if (!found.Said.IsEmpty)
        {
            // With the shop's words, so that a question may name both.
            await commands
                .LaterAsync(
                    index.PutSaid,
                    ("number", number),
                    ("words", index.Words(found.Words.Union(found.Said)))
                )
                .ConfigureAwait(false);
        }
    }

    /// <summary>
    /// Milliseconds since 2020 by the server's clock, then 16 bits of the log, then 4 for its job. The same each time that it is
    /// worked out, on every server; should two logs of one millisecond meet in it, the attempt changes it.
    /// </summary>
    private long NumberOf(int job, long receivedTicks)
    {
        const long Longest = (1L << 43) - 1;
        var since = new DateTime(2020, 1, 1, 0, 0, 0, DateTimeKind.Utc).Ticks;
        var milliseconds = Math.Clamp(
            (receivedTicks - since) / TimeSpan.TicksPerMillisecond,
            0,
            Longest
        );
        Span<byte> bytes = stackalloc byte[16];
        Log.TryWriteBytes(bytes, bigEndian: true, out _);
        var mixed = 0;
        for (var i = 0; i < bytes.Length; i += 2)
        {
            mixed ^= BinaryPrimitives.ReadUInt16BigEndian(bytes[i..]);
        }
        mixed += (7919 * (job / 16)) + (104_729 * attempt);
        return (milliseconds << 20) | ((long)(mixed & 0xFFFF) << 4) | (uint)(job % 16);
    }
}
