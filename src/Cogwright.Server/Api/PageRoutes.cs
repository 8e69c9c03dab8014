using System.Net;
using System.Reflection;
using Cogwright.Storage;
using Microsoft.EntityFrameworkCore;

namespace Cogwright.Server;

/// <summary>Pages for people, and what a machine asks about health.</summary>
internal static class PageRoutes
{
    private const string Html = "text/html; charset=utf-8";

    internal static void MapPages(this IEndpointRouteBuilder root, ShopCertificate? certificate)
    {
        root.MapGet(
                "/",
                (HttpContext context) =>
                    WebClient.IsThere
                        ? WebClient.Start(context)
                        : Results.Content(Page(context, "page.home", Version), Html)
            )
            .ExcludeFromDescription();
        root.MapGet("/health", () => new HealthAnswer("alive", Version))
            .WithTags("Health")
            .WithSummary("Whether the server runs.");
        root.MapGet("/health/ready", ReadyAsync)
            .WithTags("Health")
            .WithSummary("Whether the store answers, so that work can be sent.");
        root.MapGet(
                "/trust",
                (HttpContext context) =>
                    Results.Content(
                        certificate?.Authority is null
                            ? Page(context, "page.trust.none")
                            : Page(context, "page.trust", certificate.Fingerprint),
                        Html
                    )
            )
            .ExcludeFromDescription();
        root.MapGet(
                "/trust/ca.crt",
                () =>
                    certificate?.Authority is { } authority
                        ? Results.Bytes(
                            authority.RawData,
                            "application/x-x509-ca-cert",
                            "cogwright-shop.crt"
                        )
                        : throw new ProblemException(Problem.NotFound, Texts.Get("problem.plain"))
            )
            .ExcludeFromDescription();
    }

    private static string Version { get; } =
        typeof(PageRoutes)
            .Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!
            .InformationalVersion.Split('+')[0];

    private static async Task<HealthAnswer> ReadyAsync(
        ShopStore store,
        CancellationToken cancellation
    )
    {
        try
        {
            await using var data = store.NewContext();
            await data.ShopSettings.AnyAsync(cancellation);
            return new HealthAnswer("ready", Version);
        }
        catch (Exception e) when (e is not OperationCanceledException)
        {
            throw new ProblemException(Problem.Store, Texts.Get("health.noStore"));
        }
    }

    private static string Page(
        HttpContext context,
        string key,
        params ReadOnlySpan<object?> values
    ) => Whole(context, Texts.Get("page.title"), Texts.Get(key, values));

    /// <summary>A whole page of this server.</summary>
    /// <param name="context">The request.</param>
    /// <param name="title">What the page is called; plain text.</param>
    /// <param name="body">What it says, in HTML: whatever anybody has typed is encoded in it.</param>
    internal static string Whole(HttpContext context, string title, string body)
    {
        var nonce = SecurityHeaders.NonceOf(context);
        return $"""
            <!doctype html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <title>{WebUtility.HtmlEncode(title)}</title>
            <style nonce="{nonce}">
            body {"{"} font: 1.25rem/1.6 system-ui, sans-serif; max-width: 40rem; margin: 2rem auto; padding: 0 1rem; color: #14181c; background: #fff {"}"}
            a {"{"} color: #0a4a8a; display: inline-block; min-height: 48px {"}"}
            code {"{"} overflow-wrap: anywhere {"}"}
            </style>
            </head>
            <body>
            <main>
            {body}
            </main>
            </body>
            </html>

            """;
    }
}

/// <summary>How the server is.</summary>
/// <param name="Status">"alive" or "ready".</param>
/// <param name="Version">The version of the program.</param>
internal sealed record HealthAnswer(string Status, string Version);
