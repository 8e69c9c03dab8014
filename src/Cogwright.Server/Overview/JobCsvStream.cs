using System.Globalization;
using System.Text;
using Cogwright.Facts;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>The stored jobs as <see cref="JobCsv"/> has them, in UTF-8.</summary>
internal static class JobCsvStream
{
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
        JobCsv.Line(line, JobCsv.Columns);
        await writer.WriteAsync(line, cancellation).ConfigureAwait(false);
        await foreach (var job in jobs.WithCancellation(cancellation).ConfigureAwait(false))
        {
            line.Clear();
            JobCsv.Line(line, ValuesOf(job));
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
            JobCsv.Time(job.BegunTicks),
            JobCsv.Time(job.LastTicks),
            job.ClosedTicks is { } closed ? JobCsv.Time(closed) : "",
            job.DueOn?.ToString("O", CultureInfo.InvariantCulture) ?? "",
            job.Due,
            job.Cause,
            job.ComebackOf,
            .. job.StageSeconds.Select(seconds => seconds.ToString(CultureInfo.InvariantCulture)),
            job.PauseSeconds.ToString(CultureInfo.InvariantCulture),
        ];
}
