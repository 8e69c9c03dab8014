using System.Collections.Immutable;
using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Cli.Records;
using Cogwright.Facts.Records;
using Cogwright.Log;
using Cogwright.Paper;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>record print</c> takes.</summary>
internal sealed class RecordPrintSettings : CommandSettings
{
    /// <summary>Where the entries are.</summary>
    [CommandArgument(0, "<FILE>")]
    [Description(
        "Where the entries are: a device's file, the folder of a server's export or one of its entries files, a record (PDF or JSON)."
    )]
    public required string From { get; init; }

    /// <summary>Which bike.</summary>
    [CommandOption("--bike <ID>")]
    [Description("Which bike, by its id or the beginning of it; needed when the file has several.")]
    public string? BikeId { get; init; }

    /// <summary>Which job.</summary>
    [CommandOption("--job <ID>")]
    [Description(
        "Which job, by its id or the beginning of it; the last one that is over when left out."
    )]
    public string? Job { get; init; }

    /// <summary>The file to write.</summary>
    [CommandOption("--out <FILE>")]
    [Description(
        "The PDF to write, or with the ending .json the machine-readable record alone; named after bike and job when left out."
    )]
    public string? File { get; init; }

    /// <summary>The paper.</summary>
    [CommandOption("--paper <SIZE>")]
    [Description("a4 or letter; a4 when left out.")]
    public string Paper { get; init; } = "a4";

    /// <summary>The address of the shop's server.</summary>
    [CommandOption("--address <URL>")]
    [Description("The address of the shop's server, for the square code.")]
    public string Address { get; init; } = "";

    /// <summary>How far the times are ahead of UTC.</summary>
    [CommandOption("--utc-offset <MINUTES>")]
    [Description("How far the times printed are ahead of UTC, in minutes; 0 when left out.")]
    public int OffsetMinutes { get; init; }

    /// <summary>Whether to answer as JSON.</summary>
    [CommandOption("--json")]
    [Description("Answer as JSON with stable names.")]
    public bool Json { get; init; }
}

/// <summary>The record of a job as a PDF with the proof in it.</summary>
internal sealed class RecordPrintCommand(IAnsiConsole console) : Command<RecordPrintSettings>
{
    private const int MostOffset = 840;

    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        RecordPrintSettings settings,
        CancellationToken cancellationToken
    )
    {
        var paper = PaperOption.Parse(settings.Paper);
        if (Math.Abs(settings.OffsetMinutes) > MostOffset)
        {
            throw new BadInputException(
                Texts.Get("record.offset", settings.OffsetMinutes, MostOffset)
            );
        }
        var filed = RecordInput.Read(settings.From);
        var log = RecordInput.LogOf(filed, settings.BikeId);
        var job = RecordInput.JobOf(log, settings.Job);
        var keys = new KeysAtHand(filed.Keys);
        var ask = new RecordAsk
        {
            Address = settings.Address,
            OffsetMinutes = settings.OffsetMinutes,
            // One whose signature does not hold, or that nobody could check, is not printed.
            Statements = [.. filed.StatementsOn(log.Id).Where(keys.Holds)],
        };
        var record = JobRecord.Of(log, job.Id, ask)!;
        ImmutableArray<string> problems =
        [
            .. filed.Unreadable,
            .. filed
                .StatementsOn(log.Id)
                .SelectMany(each =>
                    keys.Holds(each)
                        ? StatementCheck
                            .Against(each.Statement, log)
                            .Select(finding => Texts.Get("record.stated", finding.Text))
                        : [Texts.Get("record.notHeld", each.Statement.Serial)]
                ),
        ];
        var data = RecordFile.Of(record, ask, filed.Keys, settings.Paper.ToLowerInvariant());
        var file =
            settings.File
            ?? $"{FileName.Of($"{record.Content.BikeName} {record.Content.Title}", "record")}.pdf";
        cancellationToken.ThrowIfCancellationRequested();
        WholeFile.Write(
            file,
            file.EndsWith(".json", StringComparison.OrdinalIgnoreCase)
                ? data.Write()
                : RecordPaper.Pdf(record, data, paper)
        );
        Report(settings, record, file, problems);
        return record.Content.IsClosed && problems.IsEmpty && log.WaitingCount == 0
            ? ExitCode.Fine
            : ExitCode.Findings;
    }

    private void Report(
        RecordPrintSettings settings,
        JobRecord record,
        string file,
        ImmutableArray<string> problems
    )
    {
        var path = Path.GetFullPath(file);
        if (settings.Json)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    json.WriteString("file", path);
                    json.WriteString("bike", record.Log.Id.ToString());
                    json.WriteString("job", record.Job);
                    json.WriteString("title", record.Content.Title);
                    json.WriteBoolean("closed", record.Content.IsClosed);
                    json.WriteNumber("entries", record.Log.Count);
                    json.WriteNumber("notCountersigned", record.NotCountersigned);
                    json.Sentences("problems", problems);
                }
            );
            return;
        }
        Screen.Line(console, Texts.Get("record.written", path));
        Screen.Line(
            console,
            record.NotCountersigned == 0
                ? Texts.Get("record.allCountersigned", record.Past.Count)
                : Texts.Get("record.notCountersigned", record.NotCountersigned, record.Past.Count)
        );
        if (!record.Content.IsClosed)
        {
            Screen.Problem(console, Texts.Get("record.isOpen"), null);
        }
        foreach (var text in problems)
        {
            Screen.Problem(console, text, null);
        }
        Screen.Line(console, Texts.Get("record.verifyHint", path));
    }
}

/// <summary>A record as a PDF.</summary>
internal static class RecordPaper
{
    /// <summary>The PDF with the record for machines in it.</summary>
    internal static byte[] Pdf(JobRecord record, RecordFile data, PaperSize paper) =>
        PrintedRecord.Write(
            record.Content,
            record.Code,
            paper,
            (RecordFile.AttachmentName, data.Write())
        );
}
