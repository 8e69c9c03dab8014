using Cogwright.Setup.Jobs;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>The shop at a glance, search over all its jobs, and the jobs as a file.</summary>
internal static class OverviewRoutes
{
    private const string Csv = "text/csv";
    private const int MostDays = 3660;
    private const int UsualDays = 90;
    private const int UsualDueDays = 14;
    private const int UsualListed = 100;
    private const int MostListed = 500;
    private const int UsualFound = 50;
    private const int MostFound = 200;
    private const int MostWordsCharacters = 200;

    internal static void MapOverview(this IEndpointRouteBuilder api)
    {
        var overview = api.MapGroup("").WithTags("Overview");
        overview
            .MapGet("/overview", OverviewAsync)
            .WithSummary(
                "Open jobs by stage and person, what waits and for how long, what is due, comebacks by cause, time worked beside the plan. Times are by the clocks of the devices."
            );
        overview
            .MapGet("/search", SearchAsync)
            .WithSummary(
                "Jobs and bikes by the beginnings of words, accents and case aside. What customers said is looked through for those who may read it."
            );
        overview
            .MapGet("/export.csv", ExportAsync)
            .Produces<string>(200, Csv)
            .WithSummary(
                "Every job as a row of CSV (RFC 4180, UTF-8, times ISO 8601 in UTC). With mark=false without a byte order mark."
            );
        overview
            .MapPut("/overview/plan/{kind}", PlanAsync)
            .Produces(204)
            .WithSummary("Sets the hours planned for a kind of work.");
        overview
            .MapPost(
                "/overview/rebuild",
                async (ShopStore store, JobFolding folding, CancellationToken cancellation) =>
                {
                    await store.UnfoldAllAsync(cancellation);
                    folding.NudgeAll();
                    return Results.Accepted();
                }
            )
            .Produces(202)
            .WithSummary("Has all of it worked out anew from the logs; goes on by itself.");
    }

    private static async Task<OverviewAnswer> OverviewAsync(
        int? days,
        int? dueDays,
        int? most,
        ShopStore store,
        TimeProvider clock,
        CancellationToken cancellation
    )
    {
        Check(days is null or (>= 1 and <= MostDays), "days", "field.from1to", MostDays);
        Check(dueDays is null or (>= 0 and <= MostDays), "dueDays", "field.from0to", MostDays);
        Check(most is null or (>= 1 and <= MostListed), "most", "field.from1to", MostListed);
        var now = clock.GetUtcNow();
        var stored = await store.OverviewAsync(
            new OverviewQuestion(
                now.AddDays(-(days ?? UsualDays)).UtcTicks,
                DateOnly.FromDateTime(now.UtcDateTime.AddDays(dueDays ?? UsualDueDays)),
                most ?? UsualListed
            ),
            JobFolding.Version,
            cancellation
        );
        return OverviewAnswer.Of(stored, await WorkPlan.ReadAsync(store), now, days ?? UsualDays);
    }

    private static async Task<FoundAnswer> SearchAsync(
        string? words,
        int? most,
        HttpContext context,
        ShopStore store,
        CancellationToken cancellation
    )
    {
        Check(
            words is null or { Length: <= MostWordsCharacters },
            "words",
            "field.characters",
            MostWordsCharacters
        );
        Check(most is null or (>= 1 and <= MostFound), "most", "field.from1to", MostFound);
        var found = await store.FindJobsAsync(
            words ?? "",
            (SessionRoutes.CallerOf(context).Who & Who.Workers) != 0,
            most ?? UsualFound,
            cancellation
        );
        return new FoundAnswer([.. found.Jobs.Select(ListedAnswer.Of)], found.HasMore);
    }

    private static async Task ExportAsync(
        bool? mark,
        HttpContext context,
        ShopStore store,
        TimeProvider clock,
        CancellationToken cancellation
    )
    {
        context.Response.ContentType = $"{Csv}; charset=utf-8";
        context.Response.Headers.ContentDisposition =
            $"attachment; filename=\"jobs-{clock.GetUtcNow():yyyy-MM-dd}.csv\"";
        await JobCsvStream.WriteAsync(
            context.Response.Body,
            store.ListedJobsAsync(cancellation),
            mark ?? true,
            cancellation
        );
    }

    private static async Task<IResult> PlanAsync(
        string kind,
        NewPlan plan,
        ShopStore store,
        TimeProvider clock
    )
    {
        Check(
            WorkKinds.Find(kind) is not null,
            "kind",
            "field.kind",
            string.Join(", ", WorkKinds.All.Select(each => each.Name))
        );
        Check(
            plan.Hours is null or (> 0 and <= WorkPlan.MostHours),
            "hours",
            "field.above0to",
            WorkPlan.MostHours
        );
        await WorkPlan.SetAsync(store, kind, plan.Hours, clock.GetUtcNow().UtcTicks);
        return Results.NoContent();
    }

    private static void Check(bool isGood, string field, string key, object limit)
    {
        if (!isGood)
        {
            throw new ProblemException(Problem.BadField, field, Texts.Get(key, limit));
        }
    }
}
