using Microsoft.AspNetCore.StaticAssets;

namespace Cogwright.Server;

/// <summary>
/// The web client: the files that a published server carries beside it. A server that was built but not published has none and
/// answers with a page that says where the API is.
/// </summary>
internal static class WebClient
{
    private const string Index = "index.html";

    /// <summary>Paths that are the server's own, in whatever case, as routes are found: an address below them that leads nowhere is an error, not a page.</summary>
    private static readonly string[] Own = ["/api", "/openapi", "/health", "/trust", "/record"];

    /// <summary>The folder of the files.</summary>
    internal static string Folder { get; } = Path.Combine(AppContext.BaseDirectory, "wwwroot");

    /// <summary>Whether they are there.</summary>
    internal static bool IsThere { get; } = File.Exists(Path.Combine(Folder, Index));

    /// <summary>Whether a path is one of the server's own.</summary>
    internal static bool IsOwn(PathString path) =>
        Own.Any(own => path.StartsWithSegments(own, StringComparison.OrdinalIgnoreCase));

    /// <summary>Whether an endpoint is one of the files: those hold nothing but the program, and anyone may load them.</summary>
    internal static bool Holds(Endpoint endpoint) =>
        endpoint.Metadata.GetMetadata<StaticAssetDescriptor>() is not null;

    /// <summary>Serves the files, and the page that starts the client at every address that is not the server's own.</summary>
    internal static void MapWebClient(this IEndpointRouteBuilder root)
    {
        if (IsThere)
        {
            root.MapStaticAssets(
                Path.Combine(
                    AppContext.BaseDirectory,
                    "Cogwright.Server.staticwebassets.endpoints.json"
                )
            );
        }
        root.MapFallback(
                "/{*path:nonfile}",
                (HttpContext context) =>
                {
                    if (!IsThere || IsOwn(context.Request.Path))
                    {
                        throw new ProblemException(Problem.NotFound, Texts.Get("problem.plain"));
                    }
                    return Start(context);
                }
            )
            .WithMetadata(new HttpMethodMetadata(["GET"]))
            .ExcludeFromDescription();
    }

    /// <summary>The page that starts the client.</summary>
    internal static IResult Start(HttpContext context)
    {
        context.Response.Headers.CacheControl = "no-cache";
        return Results.File(Path.Combine(Folder, Index), "text/html; charset=utf-8");
    }
}
