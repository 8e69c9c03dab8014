using System.Collections.Immutable;
using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Cli.Records;
using Cogwright.Facts.Records;
using Cogwright.Paper;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>record verify</c> takes.</summary>
internal sealed class RecordVerifySettings : CommandSettings
{
    /// <summary>The record.</summary>
    [CommandArgument(0, "<FILE>")]
    [Description("The record: its PDF, or the JSON that lies in it.")]
    public required string RecordPath { get; init; }

    /// <summary>The log to hold it against.</summary>
    [CommandOption("--log <EXPORT>")]
    [Description(
        "The log to hold it against: the folder of a server's export, one of its entries files, or a device's file."
    )]
    public string? LogPath { get; init; }

    /// <summary>The key that is known to be the shop's.</summary>
    [CommandOption("--key <FINGERPRINT>")]
    [Description("The fingerprint of the shop's key, as p256:… on paper that you trust.")]
    public string? Key { get; init; }

    /// <summary>Whether to answer as JSON.</summary>
    [CommandOption("--json")]
    [Description("Answer as JSON with stable names.")]
    public bool Json { get; init; }
}

/// <summary>Holds a record against itself and against the log, and says what that proves and what not.</summary>
internal sealed class RecordVerifyCommand(IAnsiConsole console) : Command<RecordVerifySettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        RecordVerifySettings settings,
        CancellationToken cancellationToken
    )
    {
        var bytes = RecordInput.Bytes(settings.RecordPath);
        var isPdf = RecordInput.IsPdf(bytes);
        var data = isPdf ? RecordInput.Attached(settings.RecordPath, bytes) : bytes;
        var file =
            RecordFile.Read(data)
            ?? throw new BadInputException(Texts.Get("record.noRecord", settings.RecordPath));
        var against = settings.LogPath is { } log ? RecordInput.Read(log) : null;
        // Only signatures are asked for asynchronously, and these keys answer at once.
        var checking = RecordCheck.OfAsync(file, new KeysAtHand(file.Keys), settings.Key, against);
        var report = checking.AsTask().GetAwaiter().GetResult();
        report = isPdf
            ? RecordPages.Add(report, file, data, bytes)
            : report with
            {
                NotProven = report.NotProven.Add(Texts.Get("record.verify.noPages")),
            };
        Write(settings, file, report);
        return report.Findings.IsEmpty ? ExitCode.Fine : ExitCode.Findings;
    }

    private void Write(RecordVerifySettings settings, RecordFile file, RecordReport report)
    {
        if (settings.Json)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    json.WriteString("bike", file.Log.ToString());
                    json.WriteString("job", file.Job);
                    json.WriteStartArray("findings");
                    foreach (var (fault, where, text) in report.Findings)
                    {
                        json.WriteStartObject();
                        json.WriteString("fault", fault.ToString());
                        json.WriteString("where", where);
                        json.WriteString("text", text);
                        json.WriteEndObject();
                    }
                    json.WriteEndArray();
                    json.Sentences("holds", report.Proven);
                    json.Sentences("notProven", report.NotProven);
                }
            );
            return;
        }
        foreach (var (_, where, text) in report.Findings)
        {
            Screen.Problem(console, where.Length > 0 ? $"{where}: {text}" : text, null);
        }
        List(Texts.Get("record.verify.holds"), report.Proven);
        List(Texts.Get("record.verify.not"), report.NotProven);
        Screen.Heading(
            console,
            report.Findings.IsEmpty
                ? Texts.Get("record.verify.fine")
                : Texts.Get("record.verify.wrong", report.Findings.Length)
        );
    }

    private void List(string heading, ImmutableArray<string> texts)
    {
        if (!texts.IsEmpty)
        {
            Screen.Heading(console, heading);
            foreach (var text in texts)
            {
                Screen.Line(console, "- " + text);
            }
        }
    }
}

/// <summary>Holds the pages of a PDF against those that the record in it makes.</summary>
internal static class RecordPages
{
    /// <summary>The report with what the pages came to.</summary>
    /// <param name="report">The report on the record in the PDF.</param>
    /// <param name="file">That record.</param>
    /// <param name="data">Its bytes as they lie in the PDF.</param>
    /// <param name="pdf">The PDF.</param>
    internal static RecordReport Add(RecordReport report, RecordFile file, byte[] data, byte[] pdf)
    {
        if (RecordCheck.Remade(file) is not { } record)
        {
            return report;
        }
        var made = PrintedRecord.Write(
            record.Content,
            record.Code,
            file.Paper == "letter" ? PaperSize.Letter : PaperSize.A4,
            (RecordFile.AttachmentName, data)
        );
        if (made.AsSpan().SequenceEqual(pdf))
        {
            return report with { Proven = report.Proven.Add(Texts.Get("record.verify.pages")) };
        }
        if (PdfPages.Lines(pdf) is not { } printed || PdfPages.Lines(made) is not { } follows)
        {
            return With(report, "", Texts.Get("record.verify.unreadable"));
        }
        for (var page = 0; page < Math.Max(printed.Length, follows.Length); page++)
        {
            if (page >= printed.Length || page >= follows.Length)
            {
                return With(
                    report,
                    Texts.Get("record.verify.page", page + 1),
                    Texts.Get("record.verify.pageCount", printed.Length, follows.Length)
                );
            }
            if (FirstDifference(printed[page], follows[page]) is { } differs)
            {
                return With(
                    report,
                    Texts.Get("record.verify.page", page + 1),
                    Texts.Get("record.verify.differs", differs.Printed, differs.Follows)
                );
            }
        }
        return report with
        {
            NotProven = report.NotProven.Add(Texts.Get("record.verify.otherBytes")),
        };
    }

    private static RecordReport With(RecordReport report, string where, string text) =>
        report with
        {
            Findings = report.Findings.Add(new(RecordFault.PagesDiffer, where, text)),
        };

    private static (string Printed, string Follows)? FirstDifference(
        ImmutableArray<string> printed,
        ImmutableArray<string> follows
    )
    {
        for (var i = 0; i < Math.Max(printed.Length, follows.Length); i++)
        {
            var (one, other) = (
                i < printed.Length ? printed[i] : "–",
                i < follows.Length ? follows[i] : "–"
            );
            if (one != other)
            {
                return (one, other);
            }
        }
        return null;
    }
}
