using System.Collections.Immutable;

namespace Cogwright.Server;

/// <summary>
/// Every route and who may use it. A route that is not here is refused to everybody, the server does not start with it, and a
/// test walks the table for every role.
/// </summary>
internal static class Permissions
{
    /// <summary>The table: method, route, who.</summary>
    internal static ImmutableSortedDictionary<string, Who> Table { get; } =
        new Dictionary<string, Who>
        {
            // Pages
            ["GET /"] = Who.Anyone,
            ["GET /{*path}"] = Who.Anyone,
            ["GET /health"] = Who.Anyone,
            ["GET /health/ready"] = Who.Anyone,
            ["GET /trust"] = Who.Anyone,
            ["GET /trust/ca.crt"] = Who.Anyone,
            ["GET /record/{token}"] = Who.Anyone,
            ["GET /record/{token}/record.pdf"] = Who.Anyone,
            ["GET /api/{documentName}"] = Who.Anyone,
            ["GET /api/favicon.svg"] = Who.Anyone,
            ["GET /api/scalar.js"] = Who.Anyone,
            ["GET /api/scalar.aspnetcore.js"] = Who.Anyone,
            ["GET /openapi/{documentName}.json"] = Who.Anyone,

            // Coming in
            ["POST /api/v1/owner"] = Who.Owner,
            ["GET /api/v1/session"] = Who.Anyone,
            ["POST /api/v1/session"] = Who.Anyone,
            ["DELETE /api/v1/session"] = Who.Anyone,
            ["PUT /api/v1/session/person"] = Who.LoggedIn,
            ["DELETE /api/v1/session/person"] = Who.LoggedIn,
            ["PUT /api/v1/session/password"] = Who.LoggedIn,
            ["PUT /api/v1/session/pin"] = Who.LoggedIn,
            ["GET /api/v1/sessions"] = Who.LoggedIn,
            ["DELETE /api/v1/sessions/{id}"] = Who.LoggedIn,

            // People
            ["GET /api/v1/people"] = Who.LoggedIn,
            ["POST /api/v1/people"] = Who.Owner,
            ["PATCH /api/v1/people/{id}"] = Who.Owner,
            ["PUT /api/v1/people/{id}/password"] = Who.Owner,

            // Jobs
            ["GET /api/v1/jobs"] = Who.LoggedIn,
            ["POST /api/v1/jobs/{job}/entries"] = Who.Workers,
            ["GET /api/v1/shop/log"] = Who.LoggedIn,
            ["GET /api/v1/jobs/{job}/entries"] = Who.LoggedIn,
            ["GET /api/v1/jobs/{job}/tips"] = Who.LoggedIn,
            ["GET /api/v1/jobs/{job}/refused"] = Who.Workers,
            ["GET /api/v1/jobs/{job}/statements"] = Who.LoggedIn,
            ["POST /api/v1/jobs/{job}/statements"] = Who.Workers,
            ["GET /api/v1/jobs/{job}/record/{id}/record.pdf"] = Who.LoggedIn,
            ["GET /api/v1/jobs/{job}/record/{id}/code.svg"] = Who.LoggedIn,
            ["GET /api/v1/keys"] = Who.LoggedIn,
            ["GET /api/v1/changes"] = Who.LoggedIn,
            ["GET /api/v1/jobs/{job}/changes"] = Who.LoggedIn,

            // Personal data: a guest sees the work, not the customer
            ["GET /api/v1/jobs/{job}/personal"] = Who.Workers,
            ["PUT /api/v1/jobs/{job}/personal/{digest}"] = Who.Workers,
            ["GET /api/v1/jobs/{job}/personal/{digest}"] = Who.Workers,
            ["DELETE /api/v1/jobs/{job}/personal/{digest}"] = Who.Heads,

            // Links for customers
            ["GET /api/v1/jobs/{job}/links"] = Who.Workers,
            ["POST /api/v1/jobs/{job}/links"] = Who.Workers,
            ["DELETE /api/v1/jobs/{job}/links/{id}"] = Who.Workers,

            // Parts: a mechanic enters the one at hand; a whole file is the head mechanic's
            ["GET /api/v1/parts"] = Who.LoggedIn,
            ["GET /api/v1/parts/file"] = Who.LoggedIn,
            ["GET /api/v1/parts/{id}"] = Who.LoggedIn,
            ["PUT /api/v1/parts/{id}"] = Who.Workers,
            ["DELETE /api/v1/parts/{id}"] = Who.Heads,
            ["POST /api/v1/parts/preview"] = Who.Workers,
            ["POST /api/v1/parts/import"] = Who.Heads,
            ["PUT /api/v1/demo/parts"] = Who.Heads,
            ["DELETE /api/v1/demo/parts"] = Who.Heads,
            ["POST /api/v1/options"] = Who.Workers,

            // The shop at a glance: search looks through what customers said for workers alone
            ["GET /api/v1/overview"] = Who.LoggedIn,
            ["GET /api/v1/search"] = Who.LoggedIn,
            ["GET /api/v1/export.csv"] = Who.Workers,
            ["PUT /api/v1/overview/plan/{kind}"] = Who.Heads,
            ["POST /api/v1/overview/rebuild"] = Who.Heads,

            // The shop's data as a whole
            ["POST /api/v1/backups"] = Who.Owner,
            ["POST /api/v1/exports"] = Who.Owner,
            ["POST /api/v1/checks"] = Who.Heads,
        }.ToImmutableSortedDictionary(StringComparer.Ordinal);

    /// <summary>Who may use a route; nobody, if it is not in the table.</summary>
    internal static Who Of(string method, string? route) =>
        Table.GetValueOrDefault($"{(method == "HEAD" ? "GET" : method)} {Canonical(route)}");

    /// <summary>A route as the table writes it: a slash first, none last, parameters without constraints.</summary>
    internal static string Canonical(string? route)
    {
        var parts = (route ?? "").Trim('/').Split('/');
        return "/" + string.Join('/', parts.Select(Bare));
    }

    /// <summary>The routes of a server that the table does not hold.</summary>
    internal static IEnumerable<string> Missing(IEnumerable<Endpoint> endpoints) =>
        RoutesOf(endpoints).Where(route => !Table.ContainsKey(route));

    /// <summary>The routes of a server as the table writes them.</summary>
    internal static IEnumerable<string> RoutesOf(IEnumerable<Endpoint> endpoints) =>
        endpoints
            .OfType<RouteEndpoint>()
            .Where(endpoint => !WebClient.Holds(endpoint))
            .SelectMany(endpoint =>
                (endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? ["ANY"])
                    .Where(method => method != "HEAD")
                    .Select(method => $"{method} {Canonical(endpoint.RoutePattern.RawText)}")
            )
            .Distinct();

    private static string Bare(string part)
    {
        var open = part.IndexOf('{', StringComparison.Ordinal);
        var colon = part.IndexOfAny([':', '=', '?']);
        var close = part.IndexOf('}', StringComparison.Ordinal);
        return open >= 0 && colon > open && colon < close ? part[..colon] + part[close..] : part;
    }
}
