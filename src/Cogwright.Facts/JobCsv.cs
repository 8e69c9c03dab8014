using System.Buffers;
using System.Globalization;
using System.Text;

namespace Cogwright.Facts;

/// <summary>
/// Jobs as comma-separated values (RFC 4180): lines end with CR LF, a row for each job below one of names. A text that a
/// spreadsheet would take for a formula gets an apostrophe before it.
/// </summary>
public static class JobCsv
{
    /// <summary>The names of the columns.</summary>
    public static IReadOnlyList<string> Columns { get; } =
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

    /// <summary>All jobs, oldest first; bikes without one are left out.</summary>
    /// <param name="jobs">The jobs.</param>
    public static string Of(IEnumerable<ListedJobOf> jobs)
    {
        var text = new StringBuilder();
        Line(text, Columns);
        foreach (
            var each in jobs.Where(each => each.Job.Job.Length > 0)
                .OrderBy(each => each.Job.BegunTicks)
        )
        {
            Line(text, ValuesOf(each));
        }
        return text.ToString();
    }

    private static IEnumerable<string> ValuesOf(ListedJobOf listed)
    {
        var job = listed.Job;
        return
        [
            listed.Log.ToString(),
            job.Bike,
            job.Job,
            job.Title,
            job.Kind,
            JobNames.Of(job.Stage),
            job.InHandsOf,
            job.Waits,
            Time(job.BegunTicks),
            Time(job.LastTicks),
            job.ClosedTicks is { } closed ? Time(closed) : "",
            job.DueOn?.ToString("O", CultureInfo.InvariantCulture) ?? "",
            job.Due is { } due ? JobNames.Of(due) : "",
            job.Cause,
            job.ComebackOf,
            .. job.StageSeconds.Select(seconds => seconds.ToString(CultureInfo.InvariantCulture)),
            job.PauseSeconds.ToString(CultureInfo.InvariantCulture),
        ];
    }

    /// <summary>Adds a row.</summary>
    /// <param name="line">What is written to.</param>
    /// <param name="values">One for each of <see cref="Columns"/>.</param>
    public static void Line(StringBuilder line, IEnumerable<string> values)
    {
        ArgumentNullException.ThrowIfNull(line);
        ArgumentNullException.ThrowIfNull(values);
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

    /// <summary>A time in UTC. A device can claim any: one that no calendar has becomes the nearest that one has.</summary>
    /// <param name="ticks">100 ns since the year 1, UTC.</param>
    public static string Time(long ticks) =>
        new DateTime(Math.Clamp(ticks, 0, DateTime.MaxValue.Ticks), DateTimeKind.Utc).ToString(
            "yyyy-MM-dd'T'HH:mm:ss'Z'",
            CultureInfo.InvariantCulture
        );
}
