using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cogwright.Files;
using Cogwright.Log;
using Cogwright.Setup.Jobs;

namespace Cogwright.Facts;

/// <summary>
/// The facts of the work on a bike as bodies of entries, kinds <c>job.…</c>, version 1. The bodies are canonical JSON as those
/// of <see cref="SpecEntry"/>: names ascend, what is absent or empty is left out. docs/how-to/offline.md has the table.
/// </summary>
public static class JobEntry
{
    /// <summary>The version that is written; later ones are kept and not read.</summary>
    public const int Version = 1;

    /// <summary>The kind of an entry that begins a procedure.</summary>
    public const string ProcedureKind = Prefix + "procedure";

    /// <summary>The kind of an entry that says that a job is over.</summary>
    public const string CloseKind = Prefix + "close";

    private const string Prefix = "job.";

    /// <summary>A job begins; its id is the entry's own.</summary>
    public static EntryDraft Begin(string title) => Draft("begin", ("title", title));

    /// <summary>What was asked and found.</summary>
    public static EntryDraft Intake(string job, string field, string answer) =>
        // An answer taken back is said, not left out.
        Draft(
            "intake",
            ("answer", answer.Length == 0 ? " " : answer),
            ("field", field),
            ("job", job)
        );

    /// <summary>A job is at a stage.</summary>
    public static EntryDraft Stage(string job, JobStage stage) =>
        Draft("stage", ("job", job), ("stage", JobNames.Of(stage)));

    /// <summary>A procedure is begun, with its whole text: what it says then is what was done.</summary>
    public static EntryDraft Procedure(string job, string text) =>
        Draft("procedure", ("job", job), ("text", text));

    /// <summary>A step was done; who says so and when is the entry's own.</summary>
    public static EntryDraft Step(StepDone done) =>
        Draft(
            "step",
            ("aim", Text(done.Aim)),
            ("calibrated", done.Calibrated?.ToString("O", CultureInfo.InvariantCulture) ?? ""),
            ("gauge", done.Gauge),
            ("held", done.Held ? "true" : ""),
            ("lower", Text(done.Lower)),
            ("note", done.Note),
            ("outcome", JobNames.Of(done.Outcome)),
            ("run", done.Run),
            ("step", done.Step),
            ("turned", Text(done.Turned)),
            ("u", Text(done.Uncertainty)),
            ("unit", done.Unit),
            ("upper", Text(done.Upper)),
            ("value", Text(done.Value))
        );

    /// <summary>Gears were tried in a pass of the test.</summary>
    public static EntryDraft Tried(GearsTried tried) =>
        Draft(
            "tried",
            ("avoided", tried.IsAvoided ? "true" : ""),
            ("gears", string.Join(' ', tried.Gears.Select(TextOf))),
            ("note", tried.Note),
            ("run", tried.Run),
            ("step", tried.Step),
            ("symptoms", string.Join(' ', tried.Symptoms))
        );

    /// <summary>The mechanic says how the mechanism stands.</summary>
    public static EntryDraft Condition(string condition, bool holds) =>
        Draft("condition", ("condition", condition), ("holds", holds ? "true" : "false"));

    /// <summary>Something happened to the bike.</summary>
    public static EntryDraft Change(string change, string note) =>
        Draft("change", ("change", change), ("note", note));

    /// <summary>Somebody answers for a result as it is.</summary>
    public static EntryDraft Exception(string run, string step, string reason) =>
        Draft("exception", ("reason", reason), ("run", run), ("step", step));

    /// <summary>Somebody has the job in hand.</summary>
    public static EntryDraft Hands(string job, string by, string note) =>
        Draft("hands", ("by", by), ("job", job), ("note", note));

    /// <summary>A job is done because an earlier one did not last; without a cause it is no comeback after all.</summary>
    public static EntryDraft Comeback(string job, string of, string cause, string note) =>
        Draft("comeback", ("cause", cause), ("job", job), ("note", note), ("of", of));

    /// <summary>Words that lie beside the log; null: they are taken back.</summary>
    public static EntryDraft Words(string job, string what, Digest? digest) =>
        Draft("words", ("job", job), ("what", what)) with
        {
            Personal = digest is { } named ? [named] : [],
        };

    /// <summary>What an entry of a step is about, so that two that did not see one another show; null of another entry.</summary>
    public static string? StepOf(Entry entry) =>
        entry.Kind == Prefix + "step" && Read(entry) is StepDone done
            ? $"step:{done.Run}/{done.Step}"
            : null;

    /// <summary>A job is over; the rider has a day for the first check, or none.</summary>
    public static EntryDraft Close(string job, DateOnly? firstCheck) =>
        Draft(
            "close",
            ("firstCheck", firstCheck?.ToString("O", CultureInfo.InvariantCulture) ?? ""),
            ("job", job)
        );

    /// <summary>The bike came for its first check.</summary>
    public static EntryDraft Check(string job, string note) =>
        Draft("check", ("job", job), ("note", note));

    /// <summary>Something is added to the record of a job that is over.</summary>
    public static EntryDraft Amend(string job, string by, string text) =>
        Draft("amend", ("by", by), ("job", job), ("text", text));

    /// <summary>A fact was a mistake: the entry that states it is out of force.</summary>
    public static EntryDraft TakeBack(EntryId id, string reason) =>
        Draft("take-back", ("reason", reason)) with
        {
            Corrects = id,
        };

    /// <summary>Whether an entry takes a fact back; that it does is the log's own doing, through what it corrects.</summary>
    public static bool IsTakeBack(Entry entry) =>
        entry
            is {
                Kind: Prefix + "take-back",
                KindVersion: Version,
                IsFromLaterVersion: false,
                Corrects: not null
            };

    /// <summary>
    /// The fact that an entry states, or null when it is of another kind, of a later version, or not readable, or names a stage
    /// or an outcome that this version does not know.
    /// </summary>
    public static JobFact? Read(Entry entry)
    {
        if (
            !entry.Kind.StartsWith(Prefix, StringComparison.Ordinal)
            || entry.KindVersion != Version
            || entry.IsFromLaterVersion
        )
        {
            return null;
        }
        try
        {
            using var json = JsonDocument.Parse(entry.Body);
            return Read(
                new(entry.Id.ToString(), entry.WallClockTicks, entry.Author),
                entry.Kind[Prefix.Length..],
                new([.. json.RootElement.EnumerateObject()]),
                entry.Personal is [var digest] ? digest.ToString() : ""
            );
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static JobFact? Read(FactSource from, string kind, Body body, string personal) =>
        kind switch
        {
            "begin" => new JobBegun(from, body["title"]),
            "intake" => new IntakeNoted(
                from,
                body["job"],
                ImmutableSortedDictionary
                    .Create<string, string>(StringComparer.Ordinal)
                    .Add(body["field"], body["answer"].Trim())
            ),
            "stage" => JobNames.Find<JobStage>(body["stage"]) is { } stage
                ? new StageReached(from, body["job"], stage)
                : null,
            "procedure" => ProcedureReader.Read(body["text"], "").Procedure is { } procedure
                ? new ProcedureBegun(from, body["job"], procedure)
                : null,
            "step" => JobNames.Find<StepOutcome>(body["outcome"]) is { } outcome
                ? new StepDone(from, body["run"], body["step"], outcome)
                {
                    Held = body["held"] == "true",
                    Value = body.Number("value"),
                    Unit = body["unit"],
                    Uncertainty = body.Number("u"),
                    Gauge = body["gauge"],
                    Calibrated = EntryBody.DayOf(body["calibrated"]),
                    Lower = body.Number("lower"),
                    Aim = body.Number("aim"),
                    Upper = body.Number("upper"),
                    Turned = body.Number("turned"),
                    Note = body["note"],
                }
                : null,
            "tried" => GearsOf(body["gears"]) is { IsEmpty: false } gears
                ? new GearsTried(from, body["run"], body["step"], gears)
                {
                    Symptoms = [.. Split(body["symptoms"])],
                    IsAvoided = body["avoided"] == "true",
                    Note = body["note"],
                }
                : null,
            "condition" => new ConditionSaid(from, body["condition"], body["holds"] == "true"),
            "change" => new ChangeMade(from, body["change"], body["note"]),
            "exception" => new ResultExcepted(from, body["run"], body["step"], body["reason"]),
            "hands" => new JobTaken(from, body["job"], body["by"], body["note"]),
            "comeback" => new CameBack(from, body["job"], body["of"], body["cause"], body["note"]),
            "words" => new WordsTaken(from, body["job"], body["what"], personal),
            "amend" => body["text"].Trim() is { Length: > 0 } text
                ? new JobAmended(from, body["job"], body["by"], text)
                : null,
            "close" => new JobClosed(from, body["job"])
            {
                FirstCheck = EntryBody.DayOf(body["firstCheck"]),
            },
            "check" => new JobChecked(from, body["job"], body["note"]),
            _ => null,
        };

    private static EntryDraft Draft(string kind, params (string Name, string Text)[] body) =>
        new(
            "",
            Prefix + kind,
            Version,
            EntryBody.Written(json =>
            {
                foreach (var (name, text) in body)
                {
                    json.WriteIf(name, text);
                }
            })
        );

    private static string[] Split(string text) =>
        text.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static string TextOf(TestGear gear) =>
        string.Create(CultureInfo.InvariantCulture, $"{gear.RingTeeth}/{gear.CogTeeth}");

    /// <summary>The gears, or none when one of them is not readable: what was said of it would go amiss.</summary>
    private static ImmutableArray<TestGear> GearsOf(string text)
    {
        var gears = ImmutableArray.CreateBuilder<TestGear>();
        foreach (var word in Split(text))
        {
            if (
                word.Split('/') is not [var ring, var cog]
                || !int.TryParse(ring, NumberStyles.None, CultureInfo.InvariantCulture, out var r)
                || !int.TryParse(cog, NumberStyles.None, CultureInfo.InvariantCulture, out var c)
            )
            {
                return [];
            }
            gears.Add(new(r, c));
        }
        return gears.ToImmutable();
    }

    private static string Text(double? number) =>
        number?.ToString("R", CultureInfo.InvariantCulture) ?? "";

    /// <summary>The texts of a body; one that is not there is empty.</summary>
    private readonly record struct Body(JsonProperty[] Properties)
    {
        // An entry has few and is asked for many: they are found once.
        private readonly string[] names = Array.ConvertAll(Properties, each => each.Name);

        public string this[string name]
        {
            get
            {
                var i = Array.LastIndexOf(names, name);
                return i < 0 ? "" : Properties[i].Value.GetString() ?? "";
            }
        }

        public double? Number(string name) =>
            double.TryParse(this[name], NumberStyles.Float, CultureInfo.InvariantCulture, out var n)
            && double.IsFinite(n)
                ? n
                : null;
    }
}
