using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cogwright.Care;
using Cogwright.Facts;
using Cogwright.Setup.Jobs;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The shop at a glance, for a person at a terminal and for programs.</summary>
/// <param name="shop">The overview.</param>
/// <param name="found">What was found, when words were asked for; null otherwise.</param>
/// <param name="since">Comebacks and times are those since this day.</param>
/// <param name="until">What is due until this day.</param>
/// <param name="hasShop">Whether the shop's own log, which sets the limits of wear, was there.</param>
/// <param name="unreadable">What is the matter with entries that cannot be read, in sentences.</param>
internal sealed class OverviewOutput(
    ShopOverview shop,
    ImmutableArray<ListedJobOf>? found,
    DateOnly since,
    DateOnly until,
    ImmutableArray<string> unreadable,
    bool hasShop
)
{
    /// <summary>Whether something is due by a day.</summary>
    internal bool IsDue(DateOnly day) => shop.Due.Any(each => each.Job.DueOn <= day);

    internal void Show(IAnsiConsole console)
    {
        if (found is { } jobs)
        {
            ShowFound(console, jobs);
        }
        else
        {
            ShowOpen(console);
            ShowDue(console);
            ShowComebacks(console);
            ShowTimes(console);
        }
        foreach (var text in unreadable)
        {
            Screen.Problem(console, text, null);
        }
    }

    private static void ShowFound(IAnsiConsole console, ImmutableArray<ListedJobOf> jobs)
    {
        Screen.Heading(console, Texts.Get("overview.found", jobs.Length));
        var table = Screen.Table(
            Texts.Get("overview.bike"),
            Texts.Get("overview.job"),
            Texts.Get("overview.stage"),
            Texts.Get("overview.lastEntry")
        );
        foreach (var (_, job) in jobs)
        {
            table.AddRow(
                Screen.Strong(job.Bike),
                Screen.Plain(job.Title),
                Screen.Plain(
                    job.Job.Length == 0 ? Texts.Get("overview.noJob")
                    : job.ClosedTicks is { } closed
                        ? Texts.Get("overview.closed", JobCsv.Time(closed))
                    : JobStages.TitleOf(job.Stage)
                ),
                Screen.Plain(JobCsv.Time(job.LastTicks))
            );
        }
        console.Write(table);
    }

    private void ShowOpen(IAnsiConsole console)
    {
        Screen.Heading(console, Texts.Get("overview.standing"));
        if (shop.Standing.IsEmpty)
        {
            Screen.Line(console, Texts.Get("overview.noneOpen"));
            return;
        }
        var stages = Enum.GetValues<JobStage>();
        var standing = Screen.Table([
            Texts.Get("overview.person"),
            .. stages.Select(JobStages.TitleOf),
            Texts.Get("overview.all"),
        ]);
        foreach (
            var person in shop
                .Standing.GroupBy(each => each.InHandsOf)
                .OrderBy(group => group.Key.Length == 0)
                .ThenBy(group => group.Key, StringComparer.OrdinalIgnoreCase)
        )
        {
            standing.AddRow([
                Screen.Strong(Person(person.Key)),
                .. stages.Select(stage =>
                    Screen.Plain(
                        person.Where(each => each.Stage == stage).Sum(each => each.Jobs)
                            is > 0
                                and var jobs
                            ? jobs.ToString(CultureInfo.InvariantCulture)
                            : ""
                    )
                ),
                Screen.Number(person.Sum(each => each.Jobs), 0),
            ]);
        }
        console.Write(standing);
        Screen.Heading(console, Texts.Get("overview.waiting"));
        var waiting = Screen.Table(
            Texts.Get("overview.bike"),
            Texts.Get("overview.job"),
            Texts.Get("overview.stage"),
            Texts.Get("overview.waitsFor"),
            Texts.Get("overview.person"),
            Texts.Get("overview.lastEntry")
        );
        foreach (var (_, job) in shop.Waiting)
        {
            waiting.AddRow(
                Screen.Strong(job.Bike),
                Screen.Plain(job.Title),
                Screen.Plain(JobStages.TitleOf(job.Stage)),
                Screen.Plain(Texts.Get($"overview.waits.{job.Waits}")),
                Screen.Plain(Person(job.InHandsOf)),
                Screen.Plain(JobCsv.Time(job.LastTicks))
            );
        }
        console.Write(waiting);
    }

    private void ShowDue(IAnsiConsole console)
    {
        Screen.Heading(console, Texts.Get("overview.due", Day(until)));
        if (!hasShop)
        {
            Screen.Line(console, Texts.Get("overview.noShop"));
        }
        if (shop.Due.IsEmpty)
        {
            Screen.Line(console, Texts.Get("overview.noneDue"));
            return;
        }
        var table = Screen.Table(
            Texts.Get("column.day"),
            Texts.Get("overview.bike"),
            Texts.Get("overview.what"),
            Texts.Get("overview.job")
        );
        foreach (var (_, job) in shop.Due)
        {
            table.AddRow(
                Screen.Strong(Day(job.DueOn!.Value)),
                Screen.Plain(job.Bike),
                Screen.Plain(CareDue.Title(job.Due!.Value)),
                Screen.Plain(job.Title)
            );
        }
        console.Write(table);
    }

    private void ShowComebacks(IAnsiConsole console)
    {
        Screen.Heading(
            console,
            Texts.Get(
                "overview.comebacks",
                Day(since),
                shop.Comebacks.Sum(each => each.Jobs),
                shop.Over
            )
        );
        if (shop.Comebacks.IsEmpty)
        {
            return;
        }
        var table = Screen.Table(Texts.Get("overview.cause"), Texts.Get("overview.jobs"));
        foreach (var (cause, jobs) in shop.Comebacks)
        {
            table.AddRow(Screen.Plain(ComebackCauses.TitleOf(cause)), Screen.Number(jobs, 0));
        }
        console.Write(table);
    }

    private void ShowTimes(IAnsiConsole console)
    {
        if (shop.Times.IsEmpty)
        {
            return;
        }
        Screen.Heading(
            console,
            Texts.Get("overview.times", Day(since), JobTimes.WorkingPause.TotalMinutes)
        );
        var table = Screen.Table([
            Texts.Get("overview.kind"),
            Texts.Get("overview.jobs"),
            .. Enum.GetValues<JobStage>().Select(JobStages.TitleOf),
            Texts.Get("overview.worked"),
            Texts.Get("overview.plan"),
            Texts.Get("overview.pause"),
        ]);
        foreach (var kind in shop.Times)
        {
            table.AddRow([
                Screen.Strong(
                    kind.Kind.Length == 0
                        ? Texts.Get("overview.kindNone")
                        : WorkKinds.TitleOf(kind.Kind)
                ),
                Screen.Number(kind.Jobs, 0),
                .. kind.StageHours.Select(hours => Screen.Number(hours, 2)),
                Screen.Number(kind.StageHours.Sum(), 2),
                Screen.Number(WorkKinds.Find(kind.Kind)?.PlannedHours ?? double.NaN, 2),
                Screen.Number(kind.PauseHours, 2),
            ]);
        }
        console.Write(table);
    }

    internal void Write(Utf8JsonWriter json)
    {
        if (found is { } jobs)
        {
            Jobs(json, "found", jobs);
        }
        else
        {
            json.WriteString("since", Day(since));
            json.WriteString("until", Day(until));
            json.WriteBoolean("limitsOfTheShop", hasShop);
            json.WriteStartArray("standing");
            foreach (var (stage, person, count) in shop.Standing)
            {
                json.WriteStartObject();
                json.WriteString("stage", JobNames.Of(stage));
                json.WriteString("inHandsOf", person);
                json.WriteNumber("jobs", count);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            Jobs(json, "waiting", shop.Waiting);
            Jobs(json, "due", shop.Due);
            json.WriteStartArray("comebacks");
            foreach (var (cause, count) in shop.Comebacks)
            {
                json.WriteStartObject();
                json.WriteString("cause", cause);
                json.WriteNumber("jobs", count);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            Jobs(json, "cameBack", shop.CameBack);
            json.WriteNumber("over", shop.Over);
            json.WriteStartArray("times");
            foreach (var kind in shop.Times)
            {
                json.WriteStartObject();
                json.WriteString("kind", kind.Kind);
                json.WriteNumber("jobs", kind.Jobs);
                json.WriteStartObject("stageHours");
                foreach (var (stage, hours) in JobNames.Stages.Zip(kind.StageHours))
                {
                    json.Figure(stage, hours);
                }
                json.WriteEndObject();
                json.Figure("pauseHours", kind.PauseHours);
                json.Figure("plannedHours", WorkKinds.Find(kind.Kind)?.PlannedHours);
                json.WriteEndObject();
            }
            json.WriteEndArray();
        }
        json.Sentences("problems", unreadable);
    }

    private static void Jobs(Utf8JsonWriter json, string name, ImmutableArray<ListedJobOf> jobs)
    {
        json.WriteStartArray(name);
        foreach (var (log, job) in jobs)
        {
            json.WriteStartObject();
            json.WriteString("bike", log.ToString());
            json.WriteString("name", job.Bike);
            json.WriteString("job", job.Job);
            json.WriteString("title", job.Title);
            json.WriteString("kind", job.Kind);
            json.WriteString("stage", job.Job.Length > 0 ? JobNames.Of(job.Stage) : "");
            json.WriteString("inHandsOf", job.InHandsOf);
            json.WriteString("waits", job.Waits);
            json.WriteString("begun", JobCsv.Time(job.BegunTicks));
            json.WriteString("last", JobCsv.Time(job.LastTicks));
            json.WriteString("closed", job.ClosedTicks is { } closed ? JobCsv.Time(closed) : null);
            json.WriteString("dueOn", job.DueOn is { } day ? Day(day) : null);
            json.WriteString("due", job.Due is { } due ? JobNames.Of(due) : "");
            json.WriteString("cause", job.Cause);
            json.WriteString("comebackOf", job.ComebackOf);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static string Person(string sign) =>
        sign.Length > 0 ? sign : Texts.Get("overview.nobody");

    private static string Day(DateOnly day) => day.ToString("O", CultureInfo.InvariantCulture);
}
