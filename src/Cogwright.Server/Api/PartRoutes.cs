using System.Globalization;
using Cogwright.Files;
using Cogwright.Parts;
using Cogwright.Storage;
using Microsoft.Net.Http.Headers;

namespace Cogwright.Server;

/// <summary>The shop's library of parts over HTTP.</summary>
internal static class PartRoutes
{
    private const int UsualFound = 50;
    private const int MostFound = 500;
    private const int MostWordsCharacters = 200;
    private const int MostNameCharacters = 128;

    private const string Yaml = "application/yaml";
    private const string Csv = "text/csv";
    private const string Text = "text/plain";
    private const string Json = "application/json";

    internal static void MapParts(this IEndpointRouteBuilder api)
    {
        var parts = api.MapGroup("/parts").WithTags("Parts");
        parts
            .MapGet("", SearchAsync)
            .WithSummary(
                "Finds parts by the beginnings of words, and tells how many there are and the library's revision."
            );
        parts.MapGet("/{id}", GetAsync).WithSummary("A part with all that is known of it.");
        parts
            .MapGet("/file", FileAsync)
            .Produces<string>(200, Yaml, Csv)
            .Produces(304)
            .WithSummary(
                "The whole library as a parts file, format yaml or csv. Its ETag changes with the revision."
            );
        parts
            .MapPut("/{id}", PutAsync)
            .Accepts<string>(Yaml, Json, Csv, Text)
            .Produces<PartsChangeAnswer>()
            .WithMetadata(BodyLimit.Part)
            .WithSummary(
                "Puts one part in: a parts file, as YAML, JSON or CSV, that holds just this one and says all of it. Bad content is told with line, column and field. With the revision in which the part was looked at, it fails if somebody changed that part or took it out since."
            );
        parts
            .MapDelete("/{id}", DeleteAsync)
            .WithSummary("Takes a part out. A spec that names it must name another one then.");
        parts
            .MapPost("/preview", PreviewAsync)
            .Accepts<string>(Csv, Yaml, Json, Text)
            .Produces<PreviewAnswer>()
            .WithMetadata(BodyLimit.PartsFile)
            .WithSummary(
                "What importing a parts file would add and change, and which of its entries are bad. Nothing is stored."
            );
        parts
            .MapPost("/import", ImportAsync)
            .Accepts<string>(Csv, Yaml, Json, Text)
            .Produces<ImportDone>(200, JsonLines.MediaType)
            .WithMetadata(BodyLimit.PartsFile)
            .WithSummary(
                "Imports a parts file, all of it or nothing. Lines of JSON: \"reading\" and \"storing\" with how far it is, at the end \"done\", \"refused\" or \"failed\". Whoever goes away before it is committed ends it, and nothing is stored. Any error refuses it. With skip=bad, bad entries are left out instead; a file that is itself broken is refused even so. What a table has no column for stays as it is; with the revision of a preview, it fails if the library was changed since."
            );
        var demo = api.MapGroup("/demo/parts").WithTags("Parts");
        demo.MapPut(
                "",
                async (ShopStore store, ServerOptions options, CancellationToken cancellation) =>
                    PartsChangeAnswer.Of(
                        await store.PutDemoPartsAsync(
                            options.DemoParts(),
                            onlyIfNew: false,
                            cancellation
                        )
                    )
            )
            .WithSummary("Brings the demo workshop's parts back. What is there stays as it is.");
        demo.MapDelete(
                "",
                async (ShopStore store, CancellationToken cancellation) =>
                    PartsChangeAnswer.Of(await store.RemoveDemoPartsAsync(cancellation))
            )
            .WithSummary(
                "Takes the demo workshop's parts away, apart from those that were changed."
            );
    }

    /// <summary>The kind of that name.</summary>
    /// <exception cref="ProblemException">There is none.</exception>
    internal static PartKind KindOf(string name, string field) =>
        PartKinds.Find(name)
        ?? throw new ProblemException(
            Problem.BadField,
            field,
            Texts.Get("field.kind", string.Join(", ", PartKinds.All.Select(PartKinds.NameOf)))
        );

    private static async Task<PartsAnswer> SearchAsync(
        string? words,
        string? kind,
        int? most,
        PartShelf shelf,
        CancellationToken cancellation
    )
    {
        if (most is < 0 or > MostFound)
        {
            throw new ProblemException(
                Problem.BadField,
                "most",
                Texts.Get("field.from0to", MostFound)
            );
        }
        if (words?.Length > MostWordsCharacters)
        {
            throw new ProblemException(
                Problem.BadField,
                "words",
                Texts.Get("field.characters", MostWordsCharacters)
            );
        }
        PartKind? wanted = string.IsNullOrEmpty(kind) ? null : KindOf(kind, "kind");
        var held = await shelf.PresentAsync(cancellation);
        var found = held.Library.Search(words ?? "", wanted, int.MaxValue);
        return new PartsAnswer(
            held.Revision,
            held.Library.Count,
            found.Length,
            [.. found.Take(most ?? UsualFound).Select(part => PartSummary.Of(part, held))],
            [.. held.Damaged.Order(StringComparer.Ordinal)]
        );
    }

    private static async Task<PartAnswer> GetAsync(
        string id,
        PartShelf shelf,
        CancellationToken cancellation
    )
    {
        var held = await shelf.PresentAsync(cancellation);
        return held.Library.Find(id) is { } part ? PartAnswer.Of(part, held)
            : held.Damaged.Contains(id)
                ? throw new ProblemException(Problem.NotFound, Texts.Get("part.damaged", id))
            : throw NoPart(id);
    }

    private static async Task<IResult> FileAsync(
        string? format,
        HttpContext context,
        PartShelf shelf,
        ShopStore store,
        CancellationToken cancellation
    )
    {
        if (format is not (null or "yaml" or "csv"))
        {
            throw new ProblemException(Problem.BadField, "format", Texts.Get("field.format"));
        }
        var isCsv = format == "csv";
        var revision = await store.PartsRevisionAsync(cancellation);
        if (IsKnown(context, TagOf(revision)))
        {
            Describe(revision);
            return Results.StatusCode(StatusCodes.Status304NotModified);
        }
        var held = await shelf.PresentAsync(cancellation);
        Describe(held.Revision);
        context.Response.Headers.ContentDisposition = isCsv
            ? "attachment; filename=\"parts.csv\""
            : "attachment; filename=\"parts.yaml\"";
        return isCsv
            ? Results.Text(PartsWriter.ToCsv(held.Library.Parts), Csv)
            : Results.Text(PartsWriter.ToYaml(held.Library.Parts), Yaml);

        // A restored backup begins another life, in which the same revision can be another library.
        EntityTagHeaderValue TagOf(long number) =>
            new(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"\"{store.Epoch:N}-{number}-{(isCsv ? "csv" : "yaml")}\""
                )
            );

        void Describe(long number)
        {
            context.Response.Headers.ETag = TagOf(number).ToString();
            // Kept by the browser alone, and asked for at each use.
            context.Response.Headers.CacheControl = "private, no-cache";
        }
    }

    private static bool IsKnown(HttpContext context, EntityTagHeaderValue tag) =>
        EntityTagHeaderValue.TryParseList(context.Request.Headers.IfNoneMatch, out var known)
        && known.Any(each => each.Compare(tag, useStrongComparison: false));

    private static async Task<IResult> PutAsync(
        string id,
        long? revision,
        HttpContext context,
        ShopStore store,
        CancellationToken cancellation
    )
    {
        var reading = await ReadAsync(context, null, cancellation);
        if (reading.Problems.Any(problem => problem.IsError) || reading.Parts.Length != 1)
        {
            throw new ProblemException(Problem.BadParts, reading.Entries, reading.BadEntries)
            {
                Places = PlaceAnswer.Of(reading.Problems),
            };
        }
        if (reading.Parts[0].Id != id)
        {
            throw new ProblemException(
                Problem.BadField,
                "id",
                Texts.Get("field.id", reading.Parts[0].Id)
            );
        }
        var change = await store.PutPartAsync(reading.Parts[0], revision, cancellation);
        return change.Added == 1
            ? Results.Json(PartsChangeAnswer.Of(change), statusCode: StatusCodes.Status201Created)
            : Results.Ok(PartsChangeAnswer.Of(change));
    }

    private static async Task<PartsChangeAnswer> DeleteAsync(
        string id,
        ShopStore store,
        CancellationToken cancellation
    )
    {
        var change = await store.RemovePartAsync(id, cancellation);
        return change.Removed == 0 ? throw NoPart(id) : PartsChangeAnswer.Of(change);
    }

    private static async Task<PreviewAnswer> PreviewAsync(
        HttpContext context,
        PartShelf shelf,
        CancellationToken cancellation
    )
    {
        var reading = await ReadAsync(context, null, cancellation);
        return PreviewAnswer.Of(await shelf.PresentAsync(cancellation), reading);
    }

    private static async Task ImportAsync(
        string? skip,
        long? revision,
        HttpContext context,
        PartShelf shelf,
        ShopStore store,
        TimeProvider clock,
        ILogger<ProblemAnswers> log
    )
    {
        if (skip is not (null or "bad"))
        {
            throw new ProblemException(Problem.BadField, "skip", Texts.Get("field.skip"));
        }
        using var lines = new JsonLines(context, log);
        await lines.RunAsync(async () =>
        {
            // The reader has the whole body before it tells of the first entry: nothing is answered while it is still sent.
            var reading = await ReadAsync(
                context,
                done => lines.WriteAsync(new ImportProgress("reading", done)),
                lines.Cancellation
            );
            var isAnyError = reading.Problems.Any(each => each.IsError);
            // Of a file that breaks off nobody knows what it would have said: that cannot be skipped.
            if (reading.IsUnusable || (isAnyError && skip is null))
            {
                var refusal = new ProblemException(
                    Problem.BadParts,
                    reading.Entries,
                    reading.BadEntries
                );
                await lines.WriteAsync(
                    new ImportRefused(
                        "refused",
                        ProblemLine.Of(refusal),
                        reading.BadEntries,
                        PlaceAnswer.Of(reading.Problems)
                    )
                );
                return;
            }
            var held = await shelf.PresentAsync(lines.Cancellation);
            var parts = reading.Over(held.Library);
            // What the file keeps of the library is right only as long as the library is this one.
            var seen = revision ?? (reading.Columns is null ? null : held.Revision);
            await lines.WriteAsync(new ImportProgress("storing", 0, parts.Length));
            using var ending = CancellationTokenSource.CreateLinkedTokenSource(lines.Cancellation);
            var progress = new LatestOf<int>(clock);
            var change = await progress.WhileAsync(
                () => store.PutPartsAsync(parts, progress, seen, ending.Token),
                done => lines.WriteAsync(new ImportProgress("storing", done, parts.Length)),
                ending.CancelAsync
            );
            await lines.WriteAsync(
                new ImportDone(
                    "done",
                    PartsChangeAnswer.Of(change),
                    reading.BadEntries,
                    PlaceAnswer.Of(reading.Problems)
                )
            );
        });
    }

    private static Task<PartsReading> ReadAsync(
        HttpContext context,
        Func<int, Task>? progress,
        CancellationToken cancellation
    ) => PartsReader.ReadAsync(context.Request.Body, NameOf(context), progress, cancellation);

    /// <summary>What the file is called: as the query says, or after what the body is said to be.</summary>
    private static string NameOf(HttpContext context)
    {
        var name = context.Request.Query["name"].ToString();
        return name.Length is > 0 and <= MostNameCharacters
            ? name
            : context.Request.ContentType?.Split(';')[0].Trim() switch
            {
                Csv => "parts.csv",
                Yaml => "parts.yaml",
                Json => "parts.json",
                _ => "parts",
            };
    }

    private static ProblemException NoPart(string id) =>
        new(Problem.NotFound, Texts.Get("part.none", PartNames.IsId(id) ? id : "?"));
}
