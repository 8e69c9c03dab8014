using System.Globalization;
using System.Text.Json;
using Cogwright.Log;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>
/// Tells a browser that logs have grown, as server-sent events. An event says how far; the entries are fetched as always. What
/// a browser missed while it was away it is told when it comes back.
/// </summary>
internal sealed class ChangeStream(
    ShopStore store,
    Sessions sessions,
    ServerOptions options,
    IHostApplicationLifetime lifetime
)
{
    /// <summary>The media type of the stream.</summary>
    internal const string MediaType = "text/event-stream";

    // Shorter than what routers forget; also how long a revoked session may hold a stream on which nothing happens.
    private static readonly TimeSpan Breath = TimeSpan.FromSeconds(15);

    /// <summary>All jobs: first how far each is, then what changes.</summary>
    internal Task AllAsync(HttpContext context) =>
        RunAsync(
            context,
            _ => true,
            async () =>
                (await store.LogsAsync(context.RequestAborted).ConfigureAwait(false)).Select(
                    log => new LogChange(log.Log, log.LastReceipt)
                )
        );

    /// <summary>One job, from the event on that the browser names; the id of an event is EPOCH:RECEIPT.</summary>
    internal Task OfJobAsync(HttpContext context, LogId job)
    {
        var seen = SeenBy(context);
        return RunAsync(
            context,
            change => change.Log == job,
            async () =>
            {
                var logs = await store.LogsAsync(context.RequestAborted).ConfigureAwait(false);
                return logs.Where(log => log.Log == job && log.LastReceipt > seen)
                    .Select(log => new LogChange(log.Log, log.LastReceipt));
            }
        );
    }

    private long SeenBy(HttpContext context)
    {
        var parts = context.Request.Headers["Last-Event-ID"].ToString().Split(':');
        return
            parts is [var epoch, var receipt]
            && Guid.TryParse(epoch, out var id)
            && id == store.Epoch
            && long.TryParse(
                receipt,
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var number
            )
            ? number
            : 0;
    }

    private async Task RunAsync(
        HttpContext context,
        Func<LogChange, bool> isWanted,
        Func<Task<IEnumerable<LogChange>>> missed
    )
    {
        var caller = context.Features.Get<Caller>()!;
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(
            context.RequestAborted,
            lifetime.ApplicationStopping
        );
        // Before what was missed is read: between the two nothing can fall through.
        using var watch = store.Watch();
        context.Response.ContentType = MediaType;
        Instruments.Streams.Add(1);
        Task<bool>? next = null;
        try
        {
            await context
                .Response.WriteAsync("retry: 2000\n\n", ending.Token)
                .ConfigureAwait(false);
            foreach (var change in await missed().ConfigureAwait(false))
            {
                await TellAsync(context, change, ending.Token).ConfigureAwait(false);
            }
            await context.Response.Body.FlushAsync(ending.Token).ConfigureAwait(false);
            var changes = watch.GetAsyncEnumerator(ending.Token);
            next = changes.MoveNextAsync().AsTask();
            while (true)
            {
                using var breathing = CancellationTokenSource.CreateLinkedTokenSource(ending.Token);
                var breath = Task.Delay(Breath, options.Clock, breathing.Token);
                var first = await Task.WhenAny(next, breath).ConfigureAwait(false);
                await breathing.CancelAsync().ConfigureAwait(false);
                if (!await sessions.StillHoldsAsync(context, caller).ConfigureAwait(false))
                {
                    return;
                }
                if (first == breath)
                {
                    ending.Token.ThrowIfCancellationRequested();
                    await context
                        .Response.WriteAsync(": still here\n\n", ending.Token)
                        .ConfigureAwait(false);
                }
                else if (!await next.ConfigureAwait(false))
                {
                    return;
                }
                else
                {
                    if (isWanted(changes.Current))
                    {
                        await TellAsync(context, changes.Current, ending.Token)
                            .ConfigureAwait(false);
                    }
                    next = changes.MoveNextAsync().AsTask();
                }
                await context.Response.Body.FlushAsync(ending.Token).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            // The browser went away, or the server stops: the browser comes back with the last id.
        }
        finally
        {
            await ending.CancelAsync().ConfigureAwait(false);
            if (next is not null)
            {
                // Its end is of no interest, but it must have come before the watch is disposed of.
                await Task.WhenAny(next).ConfigureAwait(false);
            }
            Instruments.Streams.Add(-1);
        }
    }

    private Task TellAsync(HttpContext context, LogChange change, CancellationToken cancellation)
    {
        var receipt = change.Receipt.ToString(CultureInfo.InvariantCulture);
        var data = JsonSerializer.Serialize(
            new ChangeTold(change.Log.Value, store.Epoch, change.Receipt),
            JsonSerializerOptions.Web
        );
        return context.Response.WriteAsync(
            $"id: {store.Epoch:D}:{receipt}\nevent: grown\ndata: {data}\n\n",
            cancellation
        );
    }
}
