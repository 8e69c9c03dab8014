using System.Collections.Immutable;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Records;

/// <summary>
/// A bike's passport: what all its jobs come to, for whoever works on it next. Worked out from the work as it is now. Immutable.
/// </summary>
public sealed record PassportContent
{
    /// <summary>The name of the bike.</summary>
    public required string BikeName { get; init; }

    /// <summary>Its jobs, the latest first.</summary>
    public required ImmutableArray<PassportJob> Jobs { get; init; }

    /// <summary>Gears to avoid, or that there are none.</summary>
    public required string Gears { get; init; }

    /// <summary>Parts with their serial numbers.</summary>
    public required ImmutableArray<string> Parts { get; init; }

    /// <summary>The last reading of each quantity and the last tightening of each fastener, the latest of each.</summary>
    public required ImmutableArray<RecordRow> Last { get; init; }

    /// <summary>What happened to the bike: knocks, parts replaced.</summary>
    public required ImmutableArray<string> Happened { get; init; }

    /// <summary>What the times are.</summary>
    public required string Clock { get; init; }

    /// <summary>The passport of a bike.</summary>
    /// <param name="source">What it is made from; its job is not looked at.</param>
    public static PassportContent Make(RecordSource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        var work = source.Work;
        return new()
        {
            BikeName = source.BikeName,
            Jobs = [.. work.Jobs.Reverse().Select(job => JobOf(source, job))],
            Gears = GearsOf(source),
            Parts = RecordMaker.PartsOf(source),
            Last = LastOf(source),
            Happened =
            [
                .. work
                    .Changes.Reverse()
                    .Select(made =>
                        Texts.Get(
                            "record.happened",
                            RecordWords.Time(made.From.UtcTicks, source.OffsetMinutes),
                            RecordWords.Of(made)
                        )
                    ),
            ],
            Clock = RecordWords.Clock(source.OffsetMinutes),
        };
    }

    private static string GearsOf(RecordSource source)
    {
        var work = source.Work;
        TestGear[] avoided =
        [
            .. work
                .Jobs.Select(job => TestReview.AvoidedIn(work, job.Id))
                .LastOrDefault(gears => !gears.IsEmpty, []),
            .. source.GearsNotUsed,
        ];
        return avoided.Length == 0
            ? Texts.Get("passport.noGearToAvoid")
            : RecordMaker.GearsIn("record.avoid", avoided);
    }

    private static PassportJob JobOf(RecordSource source, Job job)
    {
        var runs = source.Work.Runs.Where(run => run.Job == job.Id).ToImmutableArray();
        return new(
            job.Id,
            job.Title,
            RecordMaker.StandingOf(source, job),
            RecordMaker.DoneOf(runs),
            [
                .. RecordMaker
                    .ExceptionsOf(runs)
                    .Select(each =>
                        Texts.Get("record.leftAsItIs", each.Step.Action, each.Exception.Reason)
                    ),
            ]
        );
    }

    private static ImmutableArray<RecordRow> LastOf(RecordSource source)
    {
        var last = new Dictionary<string, (int At, RecordRow Row)>(StringComparer.Ordinal);
        foreach (var run in source.Work.Runs)
        {
            for (var i = 0; i < run.Results.Length; i++)
            {
                var (step, result) = (run.Procedure.Steps[i], run.Results[i]);
                if (result is null || NameOf(step, result) is not { } name)
                {
                    continue;
                }
                if (!last.TryGetValue(name, out var known) || known.At < result.MadeAt)
                {
                    last[name] = (result.MadeAt, RecordMaker.RowOf(source, step, result));
                }
            }
        }
        return
        [
            .. last.OrderBy(each => each.Key, StringComparer.Ordinal)
                .Select(each => each.Value.Row),
        ];
    }

    private static string? NameOf(ProcedureStep step, StepResult result) =>
        step.Torque is { } torque ? "torque:" + torque.Fastener
        : step.Check is { } check && result.Done.Value is not null ? "reading:" + check.Quantity
        : null;
}

/// <summary>One job in a passport. Immutable.</summary>
/// <param name="Id">The job.</param>
/// <param name="Title">What it was.</param>
/// <param name="Standing">From when to when, and whether it is handed over.</param>
/// <param name="Done">What was done.</param>
/// <param name="Exceptions">What was left as it is, and why.</param>
public sealed record PassportJob(
    string Id,
    string Title,
    string Standing,
    ImmutableArray<string> Done,
    ImmutableArray<string> Exceptions
);
