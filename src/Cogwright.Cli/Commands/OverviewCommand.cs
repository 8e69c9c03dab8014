using System.Collections.Immutable;
using System.ComponentModel;
using System.Text;
using Cogwright.Cli.Output;
using Cogwright.Cli.Records;
using Cogwright.Facts;
using Cogwright.Log;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>overview</c> takes.</summary>
internal sealed class OverviewSettings : CommandSettings
{
    private const int MostDays = 3660;

    /// <summary>Where the entries are.</summary>
    [CommandArgument(0, "<FILE>")]
    [Description(
        "Where the entries are: a device's file, the folder of a server's export or one of its entries files."
    )]
    public required string From { get; init; }

    /// <summary>Words to look for.</summary>
    [CommandOption("--find <WORDS>")]
    [Description(
        "Lists the jobs and bikes that have words beginning with these, accents and capitals aside, instead of the overview."
    )]
    public string? Find { get; init; }

    /// <summary>The table to write.</summary>
    [CommandOption("--csv <FILE>")]
    [Description("Also write every job as a row of a table (CSV, UTF-8, times in UTC).")]
    public string? CsvPath { get; init; }

    /// <summary>How far back.</summary>
    [CommandOption("--days <N>")]
    [Description("Comebacks and times of so many days; 90 when left out.")]
    public int Days { get; init; } = 90;

    /// <summary>How far ahead.</summary>
    [CommandOption("--due-days <N>")]
    [Description("What is due within so many days; 14 when left out.")]
    public int DueDays { get; init; } = 14;

    /// <summary>The day for which it is asked.</summary>
    [CommandOption("--date <DATE>")]
    [Description("The day for which it is asked, such as 2026-11-02; today when left out.")]
    public string? DateText { get; init; }

    /// <summary>Whether to answer as JSON.</summary>
    [CommandOption("--json")]
    [Description("Answer as JSON with stable names.")]
    public bool Json { get; init; }

    /// <summary>The day for which it is asked, or null for today.</summary>
    /// <exception cref="BadInputException">It is no day.</exception>
    internal DateOnly? Date => DateOption.Parse("--date", DateText);

    /// <summary>Refuses what no overview can be asked for.</summary>
    /// <exception cref="BadInputException">A number of days is out of range, or there is no word to look for.</exception>
    internal void Check()
    {
        if (Days is < 1 or > MostDays)
        {
            throw new BadInputException(Texts.Get("overview.days", Days, MostDays));
        }
        if (DueDays is < 0 or > MostDays)
        {
            throw new BadInputException(Texts.Get("overview.dueDays", DueDays, MostDays));
        }
        if (Find is { } words && SearchWords.Asked(words).IsEmpty)
        {
            throw new BadInputException(Texts.Get("overview.find"));
        }
    }
}

/// <summary>The shop at a glance from the logs in a file, search in them, and all jobs as a table.</summary>
internal sealed class OverviewCommand(IAnsiConsole console) : Command<OverviewSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        OverviewSettings settings,
        CancellationToken cancellationToken
    )
    {
        settings.Check();
        var today = settings.Date ?? DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().Date);
        var filed = RecordInput.Read(settings.From);
        var jobs = ShopOverview.JobsOf(filed.All());
        if (jobs.IsEmpty)
        {
            throw new BadInputException(Texts.Get("overview.noLogs", settings.From));
        }
        cancellationToken.ThrowIfCancellationRequested();
        if (settings.CsvPath is { } path)
        {
            WholeFile.Write(path, Encoding.UTF8.GetBytes(JobCsv.Of(jobs)));
        }
        var since = today.AddDays(-settings.Days);
        var output = new OverviewOutput(
            ShopOverview.Of(
                jobs,
                since.ToDateTime(TimeOnly.MinValue, DateTimeKind.Utc).Ticks,
                today.AddDays(settings.DueDays)
            ),
            settings.Find is { } words ? Found(jobs, words) : null,
            since,
            today.AddDays(settings.DueDays),
            filed.Unreadable,
            filed.Logs.Contains(ShopLog.Id)
        );
        if (settings.Json)
        {
            JsonAnswer.Write(console, output.Write);
        }
        else
        {
            output.Show(console);
            if (settings.CsvPath is { } written)
            {
                Screen.Line(console, written);
            }
        }
        return filed.Unreadable.IsEmpty && !output.IsDue(today) ? ExitCode.Fine : ExitCode.Findings;
    }

    // As the server finds: each asked word begins one of the words of the job; what grew last comes first.
    private static ImmutableArray<ListedJobOf> Found(ImmutableArray<ListedJobOf> jobs, string words)
    {
        var asked = SearchWords.Asked(words);
        return
        [
            .. jobs.Where(each =>
                {
                    var has = SearchWords.Of(each.Job.Texts);
                    return asked.All(word =>
                        has.Any(one => one.StartsWith(word, StringComparison.Ordinal))
                    );
                })
                .OrderByDescending(each => each.Job.LastTicks),
        ];
    }
}
