using System.Collections.Immutable;
using Cogwright.Setup.Jobs;
using Cogwright.Setup.Procedures;

namespace Cogwright.Setup.Records;

/// <summary>Works out what a record says. Pure: the same source gives the same record.</summary>
public static class RecordMaker
{
    private static readonly string[] CautionKeys =
    [
        "record.caution.maker",
        "record.caution.second",
        "record.caution.battery",
        "record.caution.eyes",
        "record.caution.turning",
    ];

    /// <summary>The record of a job.</summary>
    /// <param name="source">What it is made from.</param>
    /// <returns>The record, or null when there is no such job.</returns>
    public static RecordContent? Make(RecordSource source)
    {
        ArgumentNullException.ThrowIfNull(source);
        if (source.Work.Job(source.Job) is not { } job)
        {
            return null;
        }
        var runs = source.Work.Runs.Where(run => run.Job == job.Id).ToImmutableArray();
        var rows = RowsOf(source, runs);
        return new()
        {
            BikeName = source.BikeName,
            Title = job.Title,
            IsClosed = job.IsClosed,
            Standing = StandingOf(source, job),
            Done = DoneOf(runs),
            Know = [.. ToKnow(source, job, runs)],
            Cautions = [.. CautionKeys.Select(key => Texts.Get(key))],
            FirstCheck = FirstCheckOf(job),
            Intake =
            [
                .. IntakeFields
                    .All.Where(job.Intake.ContainsKey)
                    .Select(field =>
                        Texts.Get(
                            "record.intake." + field,
                            field switch
                            {
                                IntakeFields.Inspection => Texts.Get(
                                    job.Intake[field] == IntakeFields.Go
                                        ? "record.intake.go"
                                        : "record.intake.noGo"
                                ),
                                IntakeFields.Kind => WorkKinds.TitleOf(job.Intake[field]),
                                _ => job.Intake[field],
                            }
                        )
                    ),
            ],
            Parts = PartsOf(source),
            Readings = RowsWhere(rows, RowKind.Reading),
            Torques = RowsWhere(rows, RowKind.Torque),
            Looks = RowsWhere(rows, RowKind.Look),
            Again = AgainOf(source, runs),
            Exceptions =
            [
                .. ExceptionsOf(runs)
                    .Select(each =>
                        Texts.Get(
                            "record.exception",
                            each.Step.Action,
                            each.Exception.Reason,
                            Sign(source, each.Exception.Id),
                            Time(source, each.Exception.From.UtcTicks)
                        )
                    ),
            ],
            Happened = HappenedOf(source, job),
            Hands =
            [
                .. job.Hands.Select(taken =>
                    Texts.Get(
                        taken.Note.Length > 0 ? "record.hands.noted" : "record.hands",
                        Time(source, taken.From.UtcTicks),
                        taken.By,
                        taken.Note
                    )
                ),
            ],
            Amendments =
            [
                .. source.Amendments.Select(amended =>
                    Texts.Get(
                        "record.amendment",
                        Time(source, amended.From.UtcTicks),
                        amended.By.Length > 0 ? amended.By : Texts.Get("record.noSign"),
                        amended.Text
                    )
                ),
            ],
            Late = LateOf(source),
            Proof = source.Proof,
            Signatures =
            [
                Texts.Get("record.sign.mechanic"),
                Texts.Get("record.sign.second"),
                Texts.Get("record.sign.customer"),
            ],
            Clock = RecordWords.Clock(source.OffsetMinutes),
        };
    }

    /// <summary>
    /// Gears that the rider is told to avoid, and those that nobody has tried: the test leaves out where shifting would tear parts
    /// off. That there are none follows only from a test that is over and still holds.
    /// </summary>
    private static IEnumerable<string> GearsOf(RecordSource source, Job job, JobReview review)
    {
        TestGear[] avoided = [.. TestReview.AvoidedIn(source.Work, job.Id), .. source.GearsNotUsed];
        if (avoided.Length > 0)
        {
            yield return GearsIn("record.avoid", avoided);
        }
        var tried = TriedIn(source.Work, job);
        if (tried.IsEmpty || !HoldsTestOf(source.Work, job, review))
        {
            yield return Texts.Get("record.gearsNotTested");
            yield break;
        }
        TestGear[] left =
        [
            .. from ring in tried.Select(gear => gear.RingTeeth).Distinct()
            from cog in tried.Select(gear => gear.CogTeeth).Distinct()
            select new TestGear(ring, cog),
            .. source.Gears,
        ];
        left = [.. left.Except(tried).Except(source.GearsNotUsed)];
        if (left.Length > 0)
        {
            yield return GearsIn("record.gearsNotTried", left);
        }
        else if (avoided.Length == 0)
        {
            yield return Texts.Get(
                source.Gears.IsEmpty ? "record.noGearOfThoseTried" : "record.noGearToAvoid"
            );
        }
    }

    /// <summary>A sentence about gears, each named once.</summary>
    internal static string GearsIn(string key, IEnumerable<TestGear> gears) =>
        Texts.Get(
            key,
            string.Join(
                ", ",
                gears
                    .Distinct()
                    .Select(gear => Texts.Get("record.gear", gear.RingTeeth, gear.CogTeeth))
            )
        );

    private static ImmutableHashSet<TestGear> TriedIn(BikeWork work, Job job) =>
        [
            .. work
                .Runs.Where(run => run.Job == job.Id)
                .SelectMany(run => run.Tries.Values)
                .SelectMany(tries => tries.Keys),
        ];

    /// <summary>Parts with what was read off them.</summary>
    internal static ImmutableArray<string> PartsOf(RecordSource source) =>
        [
            .. source.Parts.Select(part =>
                Texts.Get(
                    part.Words.Length > 0 ? "record.part.words" : "record.part",
                    part.Part,
                    part.Serial.Length > 0 ? part.Serial : Texts.Get("record.noSerial"),
                    part.Words
                )
            ),
        ];

    internal static string StandingOf(RecordSource source, Job job) =>
        job.ClosedUtcTicks is { } closed
            ? Texts.Get(
                "record.closed",
                RecordWords.Day(job.UtcTicks, source.OffsetMinutes),
                RecordWords.Day(closed, source.OffsetMinutes)
            )
            : Texts.Get("record.open", RecordWords.Day(job.UtcTicks, source.OffsetMinutes));

    internal static ImmutableArray<string> DoneOf(ImmutableArray<ProcedureRun> runs) =>
        runs.IsEmpty
            ? [Texts.Get("record.nothingDone")]
            :
            [
                .. runs.Select(run =>
                {
                    var done = run.Results.Count(result => result is not null);
                    var title = $"{run.Procedure.Title}. {run.Procedure.Purpose}".Trim();
                    return done == run.Results.Length
                        ? title
                        : Texts.Get("record.inPart", title, done, run.Results.Length);
                }),
            ];

    private static IEnumerable<string> ToKnow(
        RecordSource source,
        Job job,
        ImmutableArray<ProcedureRun> runs
    )
    {
        var review = new JobReview(source.Work);
        var open = review.OpenOf(job.Id).Length;
        if (!job.IsClosed)
        {
            yield return Texts.Get("record.notOver", open);
        }
        else if (open > 0)
        {
            yield return Texts.Get("record.closedWithOpen", open);
        }
        foreach (var text in GearsOf(source, job, review))
        {
            yield return text;
        }
        foreach (var (step, exception) in ExceptionsOf(runs))
        {
            yield return Texts.Get("record.leftAsItIs", step.Action, exception.Reason);
        }
        if (
            job.Intake.TryGetValue(IntakeFields.Inspection, out var said)
            && said == IntakeFields.NoGo
        )
        {
            yield return Texts.Get("record.noGo");
        }
        yield return Texts.Get("record.noise");
    }

    /// <summary>Whether every pass of a job's test came out as it should and still holds.</summary>
    private static bool HoldsTestOf(BikeWork work, Job job, JobReview review) =>
        (
            from run in Enumerable.Range(0, work.Runs.Length)
            where work.Runs[run].Job == job.Id
            from step in Enumerable.Range(0, work.Runs[run].Results.Length)
            where TestPasses.Find(work.Runs[run].Procedure.Steps[step].Check?.Quantity) is not null
            select work.Runs[run].Results[step] is { IsGood: true }
                && review.Recheck.MarkOf(run, step) is null
        ).All(isGood => isGood);

    private static string FirstCheckOf(Job job) =>
        job.FirstCheck is { } day
            ? Texts.Get(
                "record.firstCheck",
                day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)
            )
            : Texts.Get("record.firstCheck.usual");

    /// <summary>What somebody answers for: of a step that was done again after that, nothing.</summary>
    internal static IEnumerable<(ProcedureStep Step, ResultExcepted Exception)> ExceptionsOf(
        ImmutableArray<ProcedureRun> runs
    ) =>
        from run in runs
        from i in Enumerable.Range(0, run.Exceptions.Length)
        let cause = run.Exceptions[i]
        where cause is not null && cause.At > (run.Results[i]?.MadeAt ?? 0)
        select (run.Procedure.Steps[i], (ResultExcepted)cause.Fact);

    private static ImmutableArray<string> HappenedOf(RecordSource source, Job job)
    {
        // By their order in the log and not by clocks: what was told after the job was begun and while it was open.
        return
        [
            .. source
                .Work.Changes.Where(made => IsOf(source, job, made))
                .Select(made =>
                    Texts.Get(
                        "record.happened",
                        Time(source, made.From.UtcTicks),
                        RecordWords.Of(made)
                    )
                ),
        ];
    }

    private static bool IsOf(RecordSource source, Job job, ChangeMade made) =>
        source.Notes.JobOf.TryGetValue(made.Id, out var of)
            ? of == job.Id
            : made.From.UtcTicks >= job.UtcTicks
                && made.From.UtcTicks <= (job.ClosedUtcTicks ?? long.MaxValue);

    private static ImmutableArray<string> AgainOf(
        RecordSource source,
        ImmutableArray<ProcedureRun> runs
    )
    {
        var again = ImmutableArray.CreateBuilder<string>();
        foreach (var run in runs)
        {
            for (var i = 0; i < run.Results.Length; i++)
            {
                var results = new Stack<StepResult>();
                for (var at = run.Results[i]; at is not null; at = at.Before)
                {
                    results.Push(at);
                }
                foreach (var result in results.Skip(1))
                {
                    var before = result.Before!.Done;
                    again.Add(
                        Texts.Get(
                            "record.again",
                            run.Procedure.Steps[i].Action,
                            Time(source, result.Done.From.UtcTicks),
                            RecordWords.Came(before),
                            RecordWords.Came(result.Done),
                            source.Notes.Again.TryGetValue(result.Done.Id, out var why)
                                ? string.Join(" → ", why)
                                : Texts.Get("record.again.unknown")
                        )
                    );
                }
            }
        }
        return again.ToImmutable();
    }

    private static ImmutableArray<string> LateOf(RecordSource source) =>
        [
            .. source.Late.Select(fact =>
                Texts.Get("record.late", Time(source, fact.From.UtcTicks), NameOf(source, fact))
            ),
            .. source.TakenBack.Select(taken =>
                Texts.Get(
                    "record.takenBack",
                    Time(source, taken.UtcTicks),
                    NameOf(source, taken.Fact),
                    taken.Reason
                )
            ),
        ];

    private static string NameOf(RecordSource source, JobFact fact) =>
        fact switch
        {
            StepDone done => Texts.Get(
                "record.fact.step",
                ActionOf(source, done.Run, done.Step),
                RecordWords.Came(done)
            ),
            ResultExcepted excepted => Texts.Get(
                "record.fact.exception",
                ActionOf(source, excepted.Run, excepted.Step),
                excepted.Reason
            ),
            GearsTried tried => Texts.Get(
                "record.fact.tried",
                string.Join(
                    ", ",
                    tried.Gears.Select(gear =>
                        Texts.Get("record.gear", gear.RingTeeth, gear.CogTeeth)
                    )
                )
            ),
            ProcedureBegun begun => Texts.Get("record.fact.procedure", begun.Procedure.Title),
            ChangeMade made => RecordWords.Of(made),
            JobClosed => Texts.Get("record.fact.close"),
            JobChecked { Note.Length: > 0 } check => Texts.Get("record.fact.found", check.Note),
            JobChecked => Texts.Get("record.fact.check"),
            _ => Texts.Get("record.fact.other"),
        };

    private static string ActionOf(RecordSource source, string run, string step) =>
        source.Work.Runs.FirstOrDefault(each => each.Id == run) is { } of
        && of.Procedure.Steps.FirstOrDefault(each => each.Id == step) is { } found
            ? found.Action
            : step;

    private enum RowKind
    {
        Reading,
        Torque,
        Look,
    }

    private static ImmutableArray<RecordRow> RowsWhere(
        List<(RowKind Kind, RecordRow Row)> rows,
        RowKind kind
    ) => [.. rows.Where(row => row.Kind == kind).Select(row => row.Row)];

    private static List<(RowKind Kind, RecordRow Row)> RowsOf(
        RecordSource source,
        ImmutableArray<ProcedureRun> runs
    )
    {
        var rows = new List<(RowKind, RecordRow)>();
        foreach (var run in runs)
        {
            for (var i = 0; i < run.Results.Length; i++)
            {
                var (step, result) = (run.Procedure.Steps[i], run.Results[i]);
                if (step.Check is not null || step.Torque is not null)
                {
                    rows.Add(
                        (
                            step.Torque is not null ? RowKind.Torque
                            : step.Check!.HasNumber ? RowKind.Reading
                            : RowKind.Look,
                            RowOf(source, step, result)
                        )
                    );
                }
            }
        }
        return rows;
    }

    internal static RecordRow RowOf(RecordSource source, ProcedureStep step, StepResult? result)
    {
        var done = result?.Done;
        var with =
            done is null || done.Gauge.Length == 0
                ? done is not null && (step.Torque is not null || done.Value is not null)
                    ? Texts.Get("record.noGauge")
                    : ""
                : $"{done.Gauge} ({RecordWords.Calibrated(done.Calibrated)})";
        return new(
            step.Torque is { } torque
                ? $"{step.Action} [{StepWords.Fastener(torque.Fastener)}]"
                : step.Action,
            AskedOf(source, step, done),
            done is null ? Texts.Get("record.notDone")
                : done.Note.Length > 0
                    ? Texts.Get("record.noted", RecordWords.Came(done), done.Note)
                : RecordWords.Came(done),
            with,
            result is null
                ? ""
                : $"{(result.By.Length > 0 ? result.By : Texts.Get("record.noSign"))}, {Time(source, result.Done.From.UtcTicks)}"
        );
    }

    private static string AskedOf(RecordSource source, ProcedureStep step, StepDone? done)
    {
        var words = new List<string>();
        if (done is { SaysWhatWasAsked: true })
        {
            words.Add(RecordWords.Limits(done.Lower, done.Aim, done.Upper, done.Unit)!);
        }
        else if (step.Torque is not null || step.Check is { HasNumber: true })
        {
            words.Add(
                source.AsNow?.Invoke(step) is { Faults.IsEmpty: true } aim
                && RecordWords.Limits(aim.Lower, aim.Value, aim.Upper, aim.Unit) is { } figures
                    ? Texts.Get("record.asNow", figures, RecordMarks.AsNow)
                    : Texts.Get("record.notKept")
            );
        }
        if (step.Check is { } check)
        {
            words.AddRange(
                new[] { check.HasNumber ? null : check.Expected, check.Convention }.OfType<string>()
            );
        }
        return string.Join("; ", words);
    }

    private static string Sign(RecordSource source, string fact) =>
        source.Notes.Signs.GetValueOrDefault(fact, Texts.Get("record.noSign"));

    private static string Time(RecordSource source, long utcTicks) =>
        RecordWords.Time(utcTicks, source.OffsetMinutes);
}
