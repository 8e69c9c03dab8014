using System.ComponentModel;
using System.Text;
using Cogwright.Care;
using Cogwright.Cli.Output;
using Cogwright.Files;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>wear</c> takes.</summary>
internal sealed class WearSettings : CommandSettings
{
    /// <summary>The file of wear.</summary>
    [CommandArgument(0, "<FILE>")]
    [Description("The file of wear and care of one bike (YAML or JSON).")]
    public required string Path { get; init; }

    /// <summary>Whether to answer as JSON.</summary>
    [CommandOption("--json")]
    [Description("Answer as JSON with stable names.")]
    public bool Json { get; init; }

    /// <summary>The calendar to write.</summary>
    [CommandOption("--calendar <FILE>")]
    [Description("Also write what falls due as a calendar file (iCalendar, .ics).")]
    public string? CalendarPath { get; init; }

    /// <summary>The day for which it is asked.</summary>
    [CommandOption("--date <DATE>")]
    [Description("The day for which it is asked, such as 2026-11-02; today when left out.")]
    public string? DateText { get; init; }

    /// <summary>The day for which it is asked, or null for today.</summary>
    /// <exception cref="BadInputException">It is no day.</exception>
    internal DateOnly? Date => DateOption.Parse("--date", DateText);
}

/// <summary>How worn chain and parts of a bike are, when limits are reached, and what falls due.</summary>
internal sealed class WearCommand(IAnsiConsole console) : Command<WearSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        WearSettings settings,
        CancellationToken cancellationToken
    )
    {
        var now = TimeProvider.System.GetUtcNow();
        var today = settings.Date ?? DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().Date);
        using var stream = InputFile.Open(settings.Path);
        var reading = WearReader.Read(stream, settings.Path);
        if (reading.File is not { } file)
        {
            ProblemReport.Write(console, reading.Problems, settings.Json);
            return ExitCode.BadInput;
        }
        var answer = new WearOutput(file, reading.Problems, today);
        if (settings.CalendarPath is { } path)
        {
            if (string.IsNullOrWhiteSpace(file.Code))
            {
                throw new BadInputException(Texts.Get("wear.noCode", settings.Path));
            }
            var calendar = CareCalendar.Write(answer.Due, file.Code, today, now.UtcDateTime);
            WholeFile.Write(path, Encoding.UTF8.GetBytes(calendar));
        }
        if (settings.Json)
        {
            JsonAnswer.Write(console, answer.Write);
        }
        else
        {
            answer.Show(console);
            if (settings.CalendarPath is not null)
            {
                Screen.Line(console, settings.CalendarPath);
            }
        }
        // A chain that is not within its limit is due.
        return answer.Due.Any(item => item.State == DueState.Due)
            ? ExitCode.Findings
            : ExitCode.Fine;
    }
}
