using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Files;
using Cogwright.Log;
using Cogwright.Parts;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;
using Cogwright.Setup.Records;

namespace Cogwright.Facts.Records;

/// <summary>
/// The record of one job, made from the entries of the bike's log. Of a job that is over it says what whoever closed it had
/// seen; what came later stands under a heading of its own. Immutable.
/// </summary>
public sealed record JobRecord
{
    /// <summary>What it says.</summary>
    public required RecordContent Content { get; init; }

    /// <summary>The job.</summary>
    public required string Job { get; init; }

    /// <summary>The entry that closed the job; null while it is open.</summary>
    public required Entry? Closing { get; init; }

    /// <summary>The entries that it rests on: what whoever closed the job had seen, or the whole log while it is open.</summary>
    public required EntryLog Past { get; init; }

    /// <summary>The whole log.</summary>
    public required EntryLog Log { get; init; }

    /// <summary>The server's statement that is printed, or null.</summary>
    public CountersignedHeads? Statement { get; init; }

    /// <summary>Entries that the record rests on and that the statement does not cover.</summary>
    public required int NotCountersigned { get; init; }

    /// <summary>What stands in the code on the page: where the record is found, and the first signs of the closing entry's hash.</summary>
    public required string Code { get; init; }

    /// <summary>The record of a job.</summary>
    /// <param name="log">The bike's log.</param>
    /// <param name="job">The job's id.</param>
    /// <param name="ask">How it is printed, and what else is at hand.</param>
    /// <returns>The record, or null when the log has no such job.</returns>
    public static JobRecord? Of(EntryLog log, string job, RecordAsk ask)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(ask);
        var closing = ClosingOf(log, job);
        var past = closing is null ? log : SeenBy.LogOf(log, closing);
        var (state, notes) = Folded(past);
        var statement = ask.Statements.LastOrDefault(each =>
            StatementCheck.Against(each.Statement, log).IsEmpty
        );
        var uncovered = Uncovered(past, statement?.Statement);
        var source = SourceOf(state, notes, job, ask) with
        {
            Proof = ProofWords.Of(past, statement?.Statement, uncovered, ask.OffsetMinutes),
        };
        if (closing is not null)
        {
            source = WithLater(source, log, past, closing, job);
        }
        return RecordMaker.Make(source) is { } content
            ? new()
            {
                Content = content,
                Job = job,
                Closing = closing,
                Past = past,
                Log = log,
                Statement = statement,
                NotCountersigned = uncovered,
                Code = CodeOf(log, job, closing, ask.Address),
            }
            : null;
    }

    /// <summary>The entry that closed a job: the first in the order that does and was not taken back; null while it is open.</summary>
    /// <param name="log">The bike's log.</param>
    /// <param name="job">The job's id.</param>
    public static Entry? ClosingOf(EntryLog log, string job)
    {
        ArgumentNullException.ThrowIfNull(log);
        return log.Ordered.FirstOrDefault(entry =>
            !log.Corrections.IsCorrected(entry.Id)
            && JobEntry.Read(entry) is JobClosed closed
            && closed.Job == job
        );
    }

    /// <summary>The jobs of a log, in the order in which they were begun.</summary>
    /// <param name="log">The bike's log.</param>
    public static ImmutableArray<Job> JobsIn(EntryLog log)
    {
        ArgumentNullException.ThrowIfNull(log);
        return log.Fold(new BikeFold()).Work.Jobs;
    }

    /// <summary>The job that is meant where none is named: the last one that is over, or the last one; null when there is none.</summary>
    /// <param name="log">The bike's log.</param>
    public static Job? LastIn(EntryLog log)
    {
        var jobs = JobsIn(log);
        return jobs.LastOrDefault(each => each.IsClosed) ?? jobs.LastOrDefault();
    }

    /// <summary>What all jobs of a bike come to now.</summary>
    /// <param name="log">The bike's log.</param>
    /// <param name="ask">How it is printed, and what else is at hand.</param>
    public static PassportContent PassportOf(EntryLog log, RecordAsk ask)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(ask);
        var (state, notes) = Folded(log);
        return PassportContent.Make(SourceOf(state, notes, "", ask));
    }

    /// <summary>What follows from the state alone, the same for a record and a passport.</summary>
    private static RecordSource SourceOf(
        BikeState state,
        RecordNotes notes,
        string job,
        RecordAsk ask
    ) =>
        new()
        {
            Work = state.Work,
            Job = job,
            BikeName = state.History.Sheet["name"] ?? "",
            Notes = notes,
            Parts =
            [
                .. state.Labels.Select(label => new RecordPart(
                    PartKinds.TitleOf(label.Part),
                    label.Serial,
                    label.Words,
                    label.UtcTicks
                )),
            ],
            // Those to an earlier closing that was taken back.
            Amendments = [.. state.Work.Job(job)?.Amendments ?? []],
            Late = [.. state.Work.Job(job)?.Checks ?? []],
            Gears = GearsOf(state.History.Sheet),
            GearsNotUsed = NotUsedIn(state.History.Sheet),
            AsNow = (ask.Aims ?? SpecAims.Of)(state.History.Sheet),
            OffsetMinutes = ask.OffsetMinutes,
        };

    private static (BikeState State, RecordNotes Notes) Folded(EntryLog log)
    {
        var fold = new BikeFold();
        var (state, notes) = (fold.Start, new RecordNotes());
        foreach (var entry in log.Ordered)
        {
            if (
                !log.Corrections.IsCorrected(entry.Id)
                && entry.Kind != JobEntry.ProcedureKind
                && JobEntry.Read(entry) is { } fact
            )
            {
                notes = notes.With(state.Work, fact);
            }
            state = fold.Apply(state, entry, log.Corrections);
        }
        return (state, notes);
    }

    /// <summary>What the closing had not seen: amendments apart, the rest as it is.</summary>
    private static RecordSource WithLater(
        RecordSource source,
        EntryLog log,
        EntryLog past,
        Entry closing,
        string job
    )
    {
        var amendments = source.Amendments.ToBuilder();
        var late = source.Late.ToBuilder();
        var taken = ImmutableArray.CreateBuilder<RecordTakenBack>();
        var after = SeenBy.ThatHadSeen(log, closing);
        var runs = source.Work.Runs.Where(run => run.Job == job).Select(run => run.Id).ToHashSet();
        foreach (var entry in log.Ordered.Where(entry => past.Find(entry.Id) is null))
        {
            if (
                entry.Corrects is { } corrected
                && past.Find(corrected) is { } old
                && JobEntry.Read(old) is { } fact
                && IsOf(fact, job, runs)
            )
            {
                taken.Add(new(fact, entry.WallClockTicks, ReasonOf(entry)));
            }
            if (log.Corrections.IsCorrected(entry.Id) || JobEntry.Read(entry) is not { } later)
            {
                continue;
            }
            if (later is ProcedureBegun begun && begun.Job == job)
            {
                runs.Add(begun.Id);
            }
            if (later is JobAmended amended)
            {
                if (amended.Job == job)
                {
                    amendments.Add(amended);
                }
            }
            else if (
                IsOf(later, job, runs)
                // What happened to the bike names no job: it is told where whoever told it did not know of the closing either.
                || (later is ChangeMade && !after.Contains(entry.Id))
            )
            {
                late.Add(later);
            }
        }
        return source with
        {
            Amendments = amendments.ToImmutable(),
            Late = late.ToImmutable(),
            TakenBack = taken.ToImmutable(),
        };
    }

    private static bool IsOf(JobFact fact, string job, HashSet<string> runs) =>
        fact switch
        {
            JobBegun begun => begun.Id == job,
            IntakeNoted noted => noted.Job == job,
            ProcedureBegun begun => begun.Job == job,
            StepDone done => runs.Contains(done.Run),
            GearsTried tried => runs.Contains(tried.Run),
            ResultExcepted excepted => runs.Contains(excepted.Run),
            JobClosed closed => closed.Job == job,
            JobChecked check => check.Job == job,
            _ => false,
        };

    private static string ReasonOf(Entry entry)
    {
        try
        {
            using var json = System.Text.Json.JsonDocument.Parse(entry.Body);
            return EntryBody.TextOf(json.RootElement, "reason") ?? "";
        }
        catch (Exception e) when (e is System.Text.Json.JsonException or InvalidOperationException)
        {
            return "";
        }
    }

    /// <summary>Entries beyond the ends that a statement speaks of.</summary>
    internal static int Uncovered(EntryLog past, HeadStatement? statement) =>
        past.Ordered.Count(entry =>
            statement is null
            || !statement.Tips.Any(tip =>
                tip.Device == entry.Device && tip.Sequence >= entry.Sequence
            )
        );

    /// <summary>The gears that the spec itself says: which parts a library had then, no log tells.</summary>
    internal static ImmutableArray<TestGear> GearsOf(SpecSheet sheet) =>
        sheet.WithoutParts().Check().Spec?.Drivetrain is { } bike
            ?
            [
                .. from ring in bike.Rings
                from cog in bike.Cogs.Teeth
                select new TestGear(ring.Teeth, cog),
            ]
            : [];

    private static ImmutableArray<TestGear> NotUsedIn(SpecSheet sheet)
    {
        // One of which only half is written hides none behind it.
        return
        [
            .. Enumerable
                .Range(0, sheet.CountOf("gearsNotUsed"))
                .Select(i => (Ring: Teeth(i, "ring"), Cog: Teeth(i, "cog")))
                .Where(gear => gear is { Ring: not null, Cog: not null })
                .Select(gear => new TestGear(gear.Ring!.Value, gear.Cog!.Value)),
        ];

        int? Teeth(int i, string what) =>
            int.TryParse(
                sheet[string.Create(CultureInfo.InvariantCulture, $"gearsNotUsed[{i}].{what}")],
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var teeth
            )
                ? teeth
                : null;
    }

    private static string CodeOf(EntryLog log, string job, Entry? closing, string address) =>
        $"{(address.Length == 0 || address.EndsWith('/') ? address : address + "/")}bike/{log.Id}/record/{job}"
        + (closing is null ? "" : "#" + closing.Hash.ToString()[..16]);
}

/// <summary>How a record is printed, and what else is at hand for it. Immutable.</summary>
public sealed record RecordAsk
{
    /// <summary>The address of the shop's server; empty when it has none.</summary>
    public string Address { get; init; } = "";

    /// <summary>How far the times printed are ahead of UTC (minutes).</summary>
    public int OffsetMinutes { get; init; }

    /// <summary>What servers have stated about the log, ascending by serial; the signatures are checked elsewhere.</summary>
    public ImmutableArray<CountersignedHeads> Statements { get; init; } = [];

    /// <summary>
    /// What steps ask for by a spec, for entries that do not say it; works the spec out when it is null. Gives null for a spec
    /// that cannot be worked out.
    /// </summary>
    public Func<SpecSheet, Func<ProcedureStep, StepAim?>?>? Aims { get; init; }
}
