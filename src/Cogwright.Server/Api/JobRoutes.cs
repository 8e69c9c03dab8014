using System.Collections.Immutable;
using Cogwright.Facts;
using Cogwright.Log;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>The log of a job over HTTP: sending, fetching, statements.</summary>
internal static class JobRoutes
{
    internal static void MapJobs(this IEndpointRouteBuilder api)
    {
        var jobs = api.MapGroup("/jobs").WithTags("Jobs");
        jobs.MapGet(
                "",
                async (ShopStore store, CancellationToken cancellation) =>
                    (await store.LogsAsync(cancellation))
                        .Where(log => log.Log != ShopLog.Id)
                        .Select(JobAnswer.Of)
            )
            .WithSummary("Every job, and how many entries it has.");
        api.MapGet(
                "/shop/log",
                async (ShopStore store, CancellationToken cancellation) =>
                    (await store.LogsAsync(cancellation))
                        .Where(log => log.Log == ShopLog.Id)
                        .Select(JobAnswer.Of)
            )
            .WithTags("Jobs")
            .WithSummary(
                "The log that is the shop's own and no job, once it has entries. They are sent and fetched as those of a job."
            );
        jobs.MapPost("/{job:guid}/entries", AppendAsync)
            .WithMetadata(BodyLimit.Entries)
            .WithSummary("Takes in entries. One that was taken in before is answered \"exists\".");
        jobs.MapGet("/{job:guid}/entries", PullAsync)
            .WithSummary("The entries behind a cursor, as they were received.");
        jobs.MapGet(
                "/{job:guid}/tips",
                async (Guid job, ShopStore store, CancellationToken cancellation) =>
                {
                    var page = await store.PullAsync(
                        new LogId(job),
                        PullCursor.Start,
                        1,
                        cancellation
                    );
                    return new TipsAnswer(page.Epoch, [.. page.Tips.Select(TipAnswer.Of)]);
                }
            )
            .WithSummary("The ends of all chains of a job.");
        jobs.MapGet(
                "/{job:guid}/refused",
                async (Guid job, ShopStore store, CancellationToken cancellation) =>
                    (await store.RefusedAsync(new LogId(job), cancellation)).Select(entry =>
                        entry.Encoded
                    )
            )
            .WithSummary("Entries that came under the id of another one, as evidence.");
        jobs.MapGet(
                "/{job:guid}/statements",
                async (Guid job, ShopStore store, CancellationToken cancellation) =>
                    (await store.StatementsAsync(new LogId(job), cancellation)).Select(
                        StatementAnswer.Of
                    )
            )
            .WithSummary("What servers have stated and signed about a job.");
        jobs.MapPost(
                "/{job:guid}/statements",
                async (
                    Guid job,
                    ShopStore store,
                    StatementKey key,
                    CancellationToken cancellation
                ) =>
                    StatementAnswer.Of(
                        await store.CountersignAsync(new LogId(job), key, cancellation)
                    )
            )
            .WithSummary("States and signs what is here of a job.");
        jobs.MapGet(
                "/{job:guid}/changes",
                (Guid job, HttpContext context, ChangeStream stream) =>
                    stream.OfJobAsync(context, new LogId(job))
            )
            .Produces(200, contentType: ChangeStream.MediaType)
            .WithSummary("Server-sent events: the job has grown. Goes on after Last-Event-ID.");
        api.MapGet(
                "/changes",
                (HttpContext context, ChangeStream stream) => stream.AllAsync(context)
            )
            .WithTags("Jobs")
            .Produces(200, contentType: ChangeStream.MediaType)
            .WithSummary("Server-sent events: how far each job is, then every job that grows.");
        api.MapGet("/keys", (StatementKey key) => key.PublicKeysAsync())
            .WithTags("Jobs")
            .WithSummary(
                "The public keys of statements by name: SubjectPublicKeyInfo, ECDSA P-256, SHA-256."
            );
    }

    private static async Task<AppendAnswer> AppendAsync(
        Guid job,
        AppendRequest sent,
        ShopStore store,
        StatementKey key,
        CancellationToken cancellation
    )
    {
        if (sent.Entries.Length > EntryLimits.BatchEntries)
        {
            throw new ProblemException(
                Problem.BadField,
                "entries",
                Texts.Get("field.entries", EntryLimits.BatchEntries)
            );
        }
        var entries = ImmutableArray.CreateBuilder<Entry>(sent.Entries.Length);
        foreach (var bytes in sent.Entries)
        {
            var read = Entry.Read(bytes);
            entries.Add(
                read.IsGood
                    ? read.Value
                    : throw new ProblemException(Problem.BadEntry, entries.Count, read.Fault.Text)
            );
        }
        var taken = entries.MoveToImmutable();
        var page = await store.AppendAsync(new LogId(job), taken, cancellation);
        foreach (var answer in page.Answers)
        {
            Instruments.Entries.Add(1, new KeyValuePair<string, object?>("status", answer.Status));
        }
        if (
            page
                .Answers.Zip(taken)
                .Any(each =>
                    each.First.Status == AnswerStatus.Created
                    && each.Second.Kind == JobEntry.CloseKind
                )
        )
        {
            await StateAsync(new LogId(job), store, key, cancellation);
        }
        return new AppendAnswer(page.Epoch, [.. page.Answers.Select(EntryAnswer.Of)]);
    }

    /// <summary>A job that is over is countersigned as soon as it is here, so that its record can say so.</summary>
    private static async Task StateAsync(
        LogId job,
        ShopStore store,
        StatementKey key,
        CancellationToken cancellation
    )
    {
        try
        {
            await store.CountersignAsync(job, key, cancellation);
        }
        catch (StoreFaultException)
        {
            // The entries are in, and that is what was asked for; the record says that it is not countersigned, and who may can
            // have it countersigned at any time.
            Instruments.NotCountersigned.Add(1);
        }
    }

    private static async Task<PullAnswer> PullAsync(
        Guid job,
        Guid? epoch,
        long? after,
        int? most,
        ShopStore store,
        CancellationToken cancellation
    )
    {
        if (most is < 1 or > EntryLimits.BatchEntries || after < 0)
        {
            throw new ProblemException(
                Problem.BadField,
                after < 0 ? "after" : "most",
                Texts.Get("field.page", EntryLimits.BatchEntries)
            );
        }
        var page = await store.PullAsync(
            new LogId(job),
            new PullCursor(epoch ?? Guid.Empty, after ?? 0),
            most ?? EntryLimits.BatchEntries,
            cancellation
        );
        return PullAnswer.Of(page);
    }
}
