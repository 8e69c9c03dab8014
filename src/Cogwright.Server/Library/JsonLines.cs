using System.Text.Json;

namespace Cogwright.Server;

/// <summary>
/// Answers that come bit by bit: a JSON object on each line. What goes wrong after the first line is the last line, "failed";
/// where neither "done" nor "refused" nor "failed" comes, the connection was cut.
/// </summary>
internal sealed class JsonLines(HttpContext context, ILogger log) : IDisposable
{
    /// <summary>The media type.</summary>
    internal const string MediaType = "application/jsonl";

    private static readonly byte[] End = "\n"u8.ToArray();

    private readonly CancellationTokenSource ending =
        CancellationTokenSource.CreateLinkedTokenSource(
            context.RequestAborted,
            context
                .RequestServices.GetRequiredService<IHostApplicationLifetime>()
                .ApplicationStopping
        );

    /// <summary>Ends when the caller has gone away or the server stops.</summary>
    internal CancellationToken Cancellation => ending.Token;

    /// <summary>Sends a line.</summary>
    internal async Task WriteAsync<T>(T line)
    {
        if (!context.Response.HasStarted)
        {
            context.Response.ContentType = MediaType;
        }
        var body = context.Response.Body;
        var bytes = JsonSerializer.SerializeToUtf8Bytes(line, JsonSerializerOptions.Web);
        await body.WriteAsync(bytes, Cancellation).ConfigureAwait(false);
        await body.WriteAsync(End, Cancellation).ConfigureAwait(false);
        await body.FlushAsync(Cancellation).ConfigureAwait(false);
    }

    /// <summary>Does the work, and tells of its failure in whichever way is still open.</summary>
    internal async Task RunAsync(Func<Task> work)
    {
        try
        {
            await work().ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (Cancellation.IsCancellationRequested)
        {
            // Nobody is there to be told, or nothing more can be said.
            context.Abort();
        }
        catch (Exception e) when (context.Response.HasStarted)
        {
            await WriteAsync(new FailedLine("failed", ProblemLine.Of(ProblemAnswers.Of(e, log))))
                .ConfigureAwait(false);
        }
    }

    public void Dispose() => ending.Dispose();
}

/// <summary>A failure on the way.</summary>
/// <param name="At">"failed".</param>
/// <param name="Problem">What, and what to do next.</param>
internal sealed record FailedLine(string At, ProblemLine Problem);

/// <summary>A problem on a line.</summary>
/// <param name="Code">For programs.</param>
/// <param name="Title">In few words.</param>
/// <param name="Detail">What, where.</param>
/// <param name="Next">What to do next.</param>
internal sealed record ProblemLine(string Code, string Title, string Detail, string Next)
{
    internal static ProblemLine Of(ProblemException e) =>
        new(e.Problem.Code, e.Problem.Title, e.Problem.Detail(e.About), e.Problem.Next);
}
