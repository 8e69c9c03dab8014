using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;
using Cogwright.Facts.Records;
using Cogwright.Log;
using Cogwright.Paper;
using Cogwright.Setup.Records;
using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>
/// The record of a job as it is handed over: a PDF with its proof in it, the square code, a page to read. Made from the log at
/// the moment it is asked for; nothing is kept of it.
/// </summary>
internal static class RecordRoutes
{
    private const string Pdf = "application/pdf";
    private const string Html = "text/html; charset=utf-8";
    private const int MostOffsetMinutes = 840;

    internal static void MapRecords(this IEndpointRouteBuilder api)
    {
        var records = api.MapGroup("/jobs/{job:guid}/record/{id:guid}").WithTags("Jobs");
        records
            .MapGet("/record.pdf", PdfAsync)
            .Produces(200, contentType: Pdf)
            .WithSummary(
                "The record of a piece of work on this bike, with what proves it in the file. paper: a4 or letter; offset: minutes that its times are ahead of UTC."
            );
        records
            .MapGet("/code.svg", CodeAsync)
            .Produces(200, contentType: "image/svg+xml")
            .WithSummary("The square code of that record.");
    }

    /// <summary>What a customer sees of a bike by a link, to read.</summary>
    /// <param name="context">The request.</param>
    /// <param name="log">The bike's log.</param>
    /// <param name="store">The store.</param>
    /// <param name="key">The keys of statements.</param>
    /// <param name="cancellation">Ends it.</param>
    internal static async Task<IResult> PageAsync(
        HttpContext context,
        LogId log,
        ShopStore store,
        StatementKey key,
        CancellationToken cancellation
    )
    {
        var made = await MakeAsync(context, log, null, 0, store, key, cancellation);
        return Results.Content(RecordPage.Of(context, made.Record.Content), Html);
    }

    /// <summary>The same as a PDF.</summary>
    /// <inheritdoc cref="PageAsync"/>
    internal static async Task<IResult> PdfOfLinkAsync(
        HttpContext context,
        LogId log,
        ShopStore store,
        StatementKey key,
        CancellationToken cancellation
    ) => Printed(await MakeAsync(context, log, null, 0, store, key, cancellation), "a4");

    private static async Task<IResult> PdfAsync(
        Guid job,
        Guid id,
        string? paper,
        int? offset,
        HttpContext context,
        ShopStore store,
        StatementKey key,
        CancellationToken cancellation
    )
    {
        if (paper is not (null or "a4" or "letter"))
        {
            throw new ProblemException(Problem.BadField, "paper", Texts.Get("field.paper"));
        }
        if (offset is < -MostOffsetMinutes or > MostOffsetMinutes)
        {
            throw new ProblemException(
                Problem.BadField,
                "offset",
                Texts.Get("field.offset", MostOffsetMinutes)
            );
        }
        return Printed(
            await MakeAsync(context, new(job), id, offset ?? 0, store, key, cancellation),
            paper ?? "a4"
        );
    }

    private static async Task<IResult> CodeAsync(
        Guid job,
        Guid id,
        HttpContext context,
        ShopStore store,
        StatementKey key,
        CancellationToken cancellation
    )
    {
        var made = await MakeAsync(context, new(job), id, 0, store, key, cancellation);
        return Results.Text(
            SquareCode.Of(made.Record.Code).ToSvg(made.Record.Code),
            "image/svg+xml",
            Encoding.UTF8
        );
    }

    private static IResult Printed(
        (JobRecord Record, RecordAsk Ask, IReadOnlyDictionary<string, string> Keys) made,
        string paper
    )
    {
        var data = RecordFile.Of(
            made.Record,
            made.Ask,
            made.Keys.ToImmutableSortedDictionary(
                each => each.Key,
                each => (ReadOnlyMemory<byte>)Convert.FromBase64String(each.Value),
                StringComparer.Ordinal
            ),
            paper
        );
        return Results.Bytes(
            PrintedRecord.Write(
                made.Record.Content,
                made.Record.Code,
                paper == "letter" ? PaperSize.Letter : PaperSize.A4,
                (RecordFile.AttachmentName, data.Write())
            ),
            Pdf,
            string.Create(CultureInfo.InvariantCulture, $"record-{made.Record.Job[..8]}.pdf")
        );
    }

    /// <summary>The record of a job, or of the last one that is over, or of the last one, when none is named.</summary>
    private static async Task<(
        JobRecord Record,
        RecordAsk Ask,
        IReadOnlyDictionary<string, string> Keys
    )> MakeAsync(
        HttpContext context,
        LogId id,
        Guid? job,
        int offset,
        ShopStore store,
        StatementKey key,
        CancellationToken cancellation
    )
    {
        var log = await store.LoadAsync(id, cancellation);
        var keys = await key.PublicKeysAsync();
        var ask = new RecordAsk
        {
            Address = $"{context.Request.Scheme}://{context.Request.Host}",
            OffsetMinutes = offset,
            Statements =
            [
                .. (await store.StatementsAsync(id, cancellation)).Where(each =>
                    keys.ContainsKey(each.Statement.Key)
                ),
            ],
        };
        var named = job?.ToString("D", CultureInfo.InvariantCulture) ?? JobRecord.LastIn(log)?.Id;
        return named is not null && JobRecord.Of(log, named, ask) is { } record
            ? (record, ask, keys)
            : throw new ProblemException(Problem.NotFound, Texts.Get("problem.plain"));
    }
}

/// <summary>A record as a page that a customer reads: no script, nothing from elsewhere.</summary>
internal static class RecordPage
{
    internal static string Of(HttpContext context, RecordContent content)
    {
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"<h1>{Encoded(content.Title)}</h1>");
        page.Append(
            CultureInfo.InvariantCulture,
            $"<p><b>{Encoded(content.BikeName)}</b><br>{Encoded(content.Standing)}</p>"
        );
        List(page, "done", content.Done);
        List(page, "know", content.Know);
        List(page, "cautions", content.Cautions);
        List(page, "firstCheck", [content.FirstCheck]);
        page.Append(
            CultureInfo.InvariantCulture,
            $"<p><a href=\"{Encoded(context.Request.Path.Value!.TrimEnd('/'))}/record.pdf\">{Encoded(Texts.Get("record.pdf"))}</a></p>"
        );
        List(page, "parts", content.Parts);
        List(page, "torques", [.. content.Torques.Select(Text)]);
        List(page, "readings", [.. content.Readings.Select(Text)]);
        List(page, "looks", [.. content.Looks.Select(Text)]);
        List(page, "exceptions", content.Exceptions);
        List(page, "amendments", content.Amendments);
        List(page, "late", content.Late);
        List(page, "proof", content.Proof);
        page.Append(CultureInfo.InvariantCulture, $"<p>{Encoded(content.Clock)}</p>");
        return PageRoutes.Whole(
            context,
            Texts.Get("record.pageTitle", content.Title, content.BikeName),
            page.ToString()
        );
    }

    private static void List(StringBuilder page, string name, ImmutableArray<string> texts)
    {
        if (texts.IsEmpty)
        {
            return;
        }
        page.Append(
            CultureInfo.InvariantCulture,
            $"<h2>{Encoded(Texts.Get("record." + name))}</h2><ul>"
        );
        foreach (var text in texts)
        {
            page.Append(CultureInfo.InvariantCulture, $"<li>{Encoded(text)}</li>");
        }
        page.Append("</ul>");
    }

    private static string Text(RecordRow row) =>
        string.Join(
            "; ",
            new[]
            {
                $"{row.Step}: {row.Came}",
                row.Asked.Length > 0 ? Texts.Get("record.asked", row.Asked) : "",
                row.With,
                row.By,
            }.Where(text => text.Length > 0)
        );

    private static string Encoded(string text) => WebUtility.HtmlEncode(text);
}
