using Cogwright.Log;
using Cogwright.Storage;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>
/// Links by which a customer sees one job, and nothing else. A link that never was, one that has ended and one that was
/// revoked are answered alike.
/// </summary>
internal static class LinkRoutes
{
    private const int MostDays = 3650;
    private const int UsualDays = 90;

    internal static void MapLinks(this IEndpointRouteBuilder api)
    {
        var links = api.MapGroup("/jobs/{job:guid}/links").WithTags("Links for customers");
        links
            .MapGet("", ListAsync)
            .WithSummary("The links to a job; not their tokens, which nobody can read again.");
        links
            .MapPost("", MakeAsync)
            .Produces<NewLinkAnswer>(201)
            .WithSummary("Makes a link. Its address is told this once.");
        links.MapDelete("/{id:guid}", RevokeAsync).WithSummary("Revokes a link at once.");
    }

    internal static void MapRecord(this IEndpointRouteBuilder root)
    {
        root.MapGet("/record/{token}", RecordAsync)
            .WithTags("Links for customers")
            .Produces<RecordAnswer>()
            .WithSummary(
                "What a customer sees by a link: a page to read where HTML is asked for, else the entries and signed statements of one job; no personal data."
            );
        root.MapGet(
                "/record/{token}/record.pdf",
                async (
                    string token,
                    HttpContext context,
                    ShopStore store,
                    StatementKey key,
                    TimeProvider clock,
                    CancellationToken cancellation
                ) =>
                    await RecordRoutes.PdfOfLinkAsync(
                        context,
                        await LogOfAsync(token, store, clock, cancellation),
                        store,
                        key,
                        cancellation
                    )
            )
            .WithTags("Links for customers")
            .Produces(200, contentType: "application/pdf")
            .WithSummary("The same record as a PDF.");
    }

    private static async Task<IResult> MakeAsync(
        Guid job,
        NewLink sent,
        HttpContext context,
        ShopStore store,
        TimeProvider clock,
        CancellationToken cancellation
    )
    {
        var days = sent.Days ?? UsualDays;
        if (days is < 1 or > MostDays)
        {
            throw new ProblemException(Problem.BadField, "days", Texts.Get("field.days", MostDays));
        }
        await DemandJobAsync(store, job, cancellation);
        var token = Tokens.New();
        var now = clock.GetUtcNow();
        var link = new CustomerLink
        {
            Id = Guid.CreateVersion7(now),
            Log = job,
            TokenHash = Tokens.HashOf(token),
            CreatedBy = SessionRoutes.CallerOf(context).Account ?? Guid.Empty,
            CreatedTicks = now.UtcTicks,
            ExpiresTicks = now.AddDays(days).UtcTicks,
        };
        await using var data = store.NewContext();
        data.CustomerLinks.Add(link);
        await data.SaveChangesAsync(cancellation);
        return Results.Created(
            (string?)null,
            new NewLinkAnswer(
                link.Id,
                $"{context.Request.Scheme}://{context.Request.Host}/record/{token}",
                new DateTimeOffset(link.ExpiresTicks, TimeSpan.Zero)
            )
        );
    }

    private static async Task<IReadOnlyList<LinkAnswer>> ListAsync(
        Guid job,
        ShopStore store,
        CancellationToken cancellation
    )
    {
        await using var data = store.NewContext();
        var links = await data
            .CustomerLinks.Where(each => each.Log == job)
            .OrderBy(each => each.CreatedTicks)
            .ToListAsync(cancellation);
        return [.. links.Select(LinkAnswer.Of)];
    }

    private static async Task<IResult> RevokeAsync(
        Guid job,
        Guid id,
        ShopStore store,
        TimeProvider clock,
        CancellationToken cancellation
    )
    {
        await using var data = store.NewContext();
        var link =
            await data.CustomerLinks.SingleOrDefaultAsync(
                each => each.Id == id && each.Log == job,
                cancellation
            ) ?? throw new ProblemException(Problem.NotFound, Texts.Get("problem.plain"));
        link.RevokedTicks ??= clock.GetUtcNow().UtcTicks;
        await data.SaveChangesAsync(cancellation);
        return Results.NoContent();
    }

    private static async Task<IResult> RecordAsync(
        string token,
        HttpContext context,
        ShopStore store,
        StatementKey key,
        TimeProvider clock,
        CancellationToken cancellation
    )
    {
        var id = await LogOfAsync(token, store, clock, cancellation);
        if (
            context
                .Request.Headers.Accept.ToString()
                .Contains("text/html", StringComparison.OrdinalIgnoreCase)
        )
        {
            return await RecordRoutes.PageAsync(context, id, store, key, cancellation);
        }
        var log = await store.LoadAsync(id, cancellation);
        var statements = await store.StatementsAsync(id, cancellation);
        return Results.Ok(
            new RecordAnswer(
                id.Value,
                [.. log.Ordered.Select(entry => entry.Encoded)],
                [.. statements.Select(StatementAnswer.Of)]
            )
        );
    }

    /// <summary>The log that a link shows.</summary>
    private static async Task<LogId> LogOfAsync(
        string token,
        ShopStore store,
        TimeProvider clock,
        CancellationToken cancellation
    )
    {
        var hash = Tokens.HashOf(token);
        var now = clock.GetUtcNow().UtcTicks;
        await using var data = store.NewContext();
        var link = await data
            .CustomerLinks.AsNoTracking()
            .SingleOrDefaultAsync(each => each.TokenHash == hash, cancellation);
        if (link is null || link.RevokedTicks is not null || link.ExpiresTicks <= now)
        {
            throw new ProblemException(Problem.NoSuchLink);
        }
        return new(link.Log);
    }

    private static async Task DemandJobAsync(
        ShopStore store,
        Guid job,
        CancellationToken cancellation
    )
    {
        var page = await store.PullAsync(new LogId(job), PullCursor.Start, 1, cancellation);
        if (page.Last == 0)
        {
            throw new ProblemException(Problem.NotFound, Texts.Get("problem.plain"));
        }
    }
}

/// <summary>A link to make.</summary>
/// <param name="Days">How many days it holds; 90 if absent.</param>
internal sealed record NewLink(int? Days = null);

/// <summary>A link that was made.</summary>
/// <param name="Id">The link, to revoke it.</param>
/// <param name="Address">What the customer gets. It is told this once.</param>
/// <param name="Ends">When it ends.</param>
internal sealed record NewLinkAnswer(Guid Id, string Address, DateTimeOffset Ends);

/// <summary>A link.</summary>
/// <param name="Id">The link.</param>
/// <param name="Made">When it was made.</param>
/// <param name="Ends">When it ends.</param>
/// <param name="IsRevoked">Whether somebody revoked it.</param>
internal sealed record LinkAnswer(Guid Id, DateTimeOffset Made, DateTimeOffset Ends, bool IsRevoked)
{
    internal static LinkAnswer Of(CustomerLink link) =>
        new(
            link.Id,
            new DateTimeOffset(link.CreatedTicks, TimeSpan.Zero),
            new DateTimeOffset(link.ExpiresTicks, TimeSpan.Zero),
            link.RevokedTicks is not null
        );
}

/// <summary>What a customer sees.</summary>
/// <param name="Job">The job.</param>
/// <param name="Entries">The bytes of its entries, base 64, in their order.</param>
/// <param name="Statements">What servers have stated and signed about it.</param>
internal sealed record RecordAnswer(
    Guid Job,
    IReadOnlyList<ReadOnlyMemory<byte>> Entries,
    IReadOnlyList<StatementAnswer> Statements
);
