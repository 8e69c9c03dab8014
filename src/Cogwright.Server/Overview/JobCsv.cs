using System.Buffers;
using System.Globalization;
using System.Text;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>
/// Jobs as comma-separated values (RFC 4180): UTF-8, lines end with CR LF, a row for each job below one of names. A text that a
/// spreadsheet would take for a formula gets an apostrophe before it.
/// </summary>
internal static class JobCsv
{
    /// <summary>The names of the columns.</summary>
    internal static IReadOnlyList<string> Columns { get; } =
    [
        "bike_id",
        "bike",
        "job_id",
        "title",
        "kind_of_work",
        "stage",
        "in_hands_of",
        "waits_for",
        "begun",
        "last_entry",
        "closed",
        "due_on",
        "due",
        "comeback_cause",
        "comeback_of",
        .. JobNames.Stages.Select(stage => $"{stage.Replace('-', '_')}_seconds"),
        "pause_seconds",
    ];

    private static readonly SearchValues<char> Quoted = SearchValues.Create(",\"\r\n");

    /// <summary>Writes all of it, a few rows at a time.</summary>
    internal static async Task WriteAsync(
        Stream to,
        IAsyncEnumerable<ListedJob> jobs,
        bool withMark,
        CancellationToken cancellation
    )
    {
        await using var writer = new StreamWriter(
            to,
            new UTF8Encoding(encoderShouldEmitUTF8Identifier: withMark),
            bufferSize: 16 * 1024,
            leaveOpen: true
        );
        var line = new StringBuilder();
        Line(line, Columns);
        await writer.WriteAsync(line, cancellation).ConfigureAwait(false);
        await foreach (var job in jobs.WithCancellation(cancellation).ConfigureAwait(false))
        {
            line.Clear();
            Line(line, ValuesOf(job));
            await writer.WriteAsync(line, cancellation).ConfigureAwait(false);
        }
    }

    private static IEnumerable<string> ValuesOf(ListedJob job) =>
        [
            job.Log.ToString(),
            job.Bike,
            job.Job,
            job.Title,
            job.Kind,
            job.Stage,
            job.InHandsOf,
            job.Waits,
            Time(job.BegunTicks),
            Time(job.LastTicks),
            job.ClosedTicks is { } closed ? Time(closed) : "",
            job.DueOn?.ToString("O", CultureInfo.InvariantCulture) ?? "",
            job.Due,
            job.Cause,
            job.ComebackOf,
            .. job.StageSeconds.Select(seconds => seconds.ToString(CultureInfo.InvariantCulture)),
            job.PauseSeconds.ToString(CultureInfo.InvariantCulture),
        ];

    private static void Line(StringBuilder line, IEnumerable<string> values)
    {
        var isFirst = true;
        foreach (var value in values)
        {
            if (!isFirst)
            {
                line.Append(',');
            }
            isFirst = false;
            var safe = value is ['=' or '+' or '-' or '@' or '\t' or '\r' or '\n', ..]
                ? $"'{value}"
                : value;
            if (safe.AsSpan().ContainsAny(Quoted))
            {
                line.Append('"')
                    .Append(safe.Replace("\"", "\"\"", StringComparison.Ordinal))
                    .Append('"');
            }
            else
            {
                line.Append(safe);
            }
        }
        line.Append("\r\n");
    }

    private static string Time(long ticks) =>
        OverviewTimes
            .Of(ticks)
            .UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
