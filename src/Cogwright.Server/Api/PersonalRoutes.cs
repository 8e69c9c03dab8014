using System.Buffers;
using Cogwright.Log;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>Personal data and photos beside a job.</summary>
internal static class PersonalRoutes
{
    /// <summary>The header with the salt of a datum, hexadecimal.</summary>
    internal const string SaltHeader = "Cogwright-Salt";

    // What a browser may be told; anything else is bytes to save.
    private static readonly SearchValues<string> Shown = SearchValues.Create(
        ["image/jpeg", "image/png", "image/webp", "application/json", "text/plain"],
        StringComparison.Ordinal
    );

    internal static void MapPersonal(this IEndpointRouteBuilder api, StoreOptions options)
    {
        var personal = api.MapGroup("/jobs/{job:guid}/personal").WithTags("Personal data");
        personal
            .MapGet(
                "",
                async (Guid job, ShopStore store, CancellationToken cancellation) =>
                {
                    var holdings = await store.PersonalOfAsync(new LogId(job), cancellation);
                    return new HoldingsAnswer(
                        [.. holdings.Held.Select(each => each.ToString())],
                        [.. holdings.Erased.Select(each => each.ToString())]
                    );
                }
            )
            .WithSummary("Which data of a job are here, and which were erased.");
        personal
            .MapPut("/{digest}", PutAsync)
            .WithMetadata(BodyLimit.Photo(options))
            .WithSummary(
                $"Takes in a datum: its bytes as the body, its salt in the header {SaltHeader}."
            );
        personal
            .MapGet("/{digest}", GetAsync)
            .Produces(200, contentType: "application/octet-stream")
            .WithSummary($"A datum, its salt in the header {SaltHeader}.");
        personal
            .MapDelete(
                "/{digest}",
                async (
                    Guid job,
                    string digest,
                    ShopStore store,
                    JobFolding folding,
                    ILoggerFactory logs,
                    CancellationToken cancellation
                ) =>
                {
                    var report = await store.EraseAsync(
                        new LogId(job),
                        DigestOf(digest),
                        cancellation
                    );
                    folding.Nudge(new LogId(job));
                    Telling.Erased(logs.CreateLogger("Cogwright.Server.Personal"), job);
                    return new ErasedAnswer(report.WasHere, report.IsGoneFromFiles);
                }
            )
            .WithSummary("Erases a datum with its salt, for good.");
    }

    private static async Task<IResult> PutAsync(
        Guid job,
        string digest,
        HttpContext context,
        ShopStore store,
        JobFolding folding,
        CancellationToken cancellation
    )
    {
        var wanted = DigestOf(digest);
        var salt = BytesOf(
            context.Request.Headers[SaltHeader].ToString(),
            PersonalDatum.SaltBytes,
            SaltHeader
        );
        using var body = new MemoryStream((int)(context.Request.ContentLength ?? 0));
        await context.Request.Body.CopyToAsync(body, cancellation);
        var datum = new PersonalDatum(salt, body.GetBuffer().AsSpan(0, (int)body.Length));
        if (datum.Digest != wanted)
        {
            throw new ProblemException(Problem.DigestDiffers);
        }
        var type = context.Request.ContentType is { Length: > 0 and <= 128 } said
            ? said
            : "application/octet-stream";
        var answer = await store.PutPersonalAsync(new LogId(job), datum, type, cancellation);
        // Words are found from now on.
        folding.Nudge(new LogId(job));
        return answer.Fault is { } fault ? throw new StoreFaultException(fault)
            : answer.Status == PersonalStatus.Stored ? Results.Created()
            : Results.NoContent();
    }

    private static async Task<IResult> GetAsync(
        Guid job,
        string digest,
        HttpContext context,
        ShopStore store,
        CancellationToken cancellation
    )
    {
        var file = await store.FindPersonalAsync(DigestOf(digest), cancellation);
        if (file is null || file.Log.Value != job)
        {
            throw new ProblemException(Problem.NotFound, Texts.Get("problem.plain"));
        }
        context.Response.Headers[SaltHeader] = Convert.ToHexStringLower(file.Datum.Salt.Span);
        // Whatever the device said it was, it must not run here.
        context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; sandbox";
        return Results.Bytes(
            file.Datum.Data,
            Shown.Contains(file.ContentType) ? file.ContentType : "application/octet-stream",
            Shown.Contains(file.ContentType) ? null : digest
        );
    }

    internal static Digest DigestOf(string text) => new(BytesOf(text, Digest.Length, "digest"));

    private static byte[] BytesOf(string text, int length, string name)
    {
        var bytes = new byte[length];
        return
            text.Length == 2 * length
            && Convert.FromHexString(text, bytes, out _, out _) == OperationStatus.Done
            ? bytes
            : throw new ProblemException(
                Problem.BadField,
                name,
                Texts.Get("field.hex", 2 * length)
            );
    }
}

/// <summary>The personal data of a job.</summary>
/// <param name="Held">Digests of what is here.</param>
/// <param name="Erased">Digests of what was erased.</param>
internal sealed record HoldingsAnswer(IReadOnlyList<string> Held, IReadOnlyList<string> Erased);

/// <summary>What an erasure did.</summary>
/// <param name="WasHere">Whether the datum was here; if not, it is kept from coming.</param>
/// <param name="IsGoneFromFiles">Whether its bytes are gone from the database's files too.</param>
internal sealed record ErasedAnswer(bool WasHere, bool IsGoneFromFiles);
