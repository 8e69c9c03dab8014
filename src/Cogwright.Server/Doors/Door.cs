using System.Net;

namespace Cogwright.Server;

/// <summary>
/// The first thing a request meets. From this machine: plain HTTP is good enough, under a name of loopback. From anywhere
/// else: only over HTTPS, under a name that the certificate has, and only once somebody owns the shop. From a page of another
/// site: never.
/// </summary>
internal sealed class Door(
    RequestDelegate next,
    HostNames names,
    Ownership ownership,
    ILogger<Door> log
)
{
    /// <summary>
    /// Every request that changes something carries it. A page of another site cannot send a header of its own making without
    /// asking first, and is never answered.
    /// </summary>
    internal const string Header = "X-Cogwright";

    private static readonly string[] ProxyHeaders =
    [
        "Forwarded",
        "X-Forwarded-For",
        "X-Forwarded-Host",
        "X-Forwarded-Proto",
        "Via",
    ];

    public async Task InvokeAsync(HttpContext context)
    {
        var isHere = IsFromThisMachine(context);
        if (await RefusalAsync(context, isHere).ConfigureAwait(false) is { } problem)
        {
            Telling.Refused(log, problem.Problem.Code);
            Instruments.Refused.Add(
                1,
                new KeyValuePair<string, object?>("code", problem.Problem.Code)
            );
            throw problem;
        }
        await next(context).ConfigureAwait(false);
    }

    /// <summary>Both ends on loopback; a connection without addresses is not from here.</summary>
    internal static bool IsFromThisMachine(HttpContext context) =>
        context.Connection is { RemoteIpAddress: { } remote, LocalIpAddress: { } local }
        && IPAddress.IsLoopback(remote)
        && IPAddress.IsLoopback(local);

    private async Task<ProblemException?> RefusalAsync(HttpContext context, bool isHere)
    {
        var request = context.Request;
        var isOwned = await ownership.ExistsAsync().ConfigureAwait(false);
        if (!isHere && !request.IsHttps)
        {
            return new ProblemException(Problem.NotEncrypted);
        }
        if (!isHere && !isOwned)
        {
            return new ProblemException(Problem.NoOwner);
        }
        // A proxy on this machine would make everybody look as if they sat at it.
        if (isHere && !isOwned && ProxyHeaders.Any(request.Headers.ContainsKey))
        {
            return new ProblemException(Problem.Proxied);
        }
        var host = request.Host.Host;
        if (!(isHere && HostNames.IsLoopback(host)) && !(request.IsHttps && names.IsShops(host)))
        {
            return new ProblemException(Problem.UnknownHost);
        }
        return IsFromAnotherSite(request) ? new ProblemException(Problem.CrossOrigin)
            : IsWithoutHeader(request) ? new ProblemException(Problem.MissingHeader, Header)
            : null;
    }

    private static bool IsFromAnotherSite(HttpRequest request)
    {
        var origin = request.Headers.Origin.ToString();
        if (origin.Length > 0)
        {
            return !string.Equals(
                origin,
                $"{request.Scheme}://{request.Host.Value}",
                StringComparison.OrdinalIgnoreCase
            );
        }
        // Every browser of today says where a request comes from. To follow a link to a page is fine.
        var site = request.Headers["Sec-Fetch-Site"].ToString();
        return site is not ("" or "same-origin" or "none")
            && !(IsReading(request) && request.Headers["Sec-Fetch-Mode"] == "navigate");
    }

    private static bool IsWithoutHeader(HttpRequest request) =>
        !IsReading(request) && !request.Headers.ContainsKey(Header);

    private static bool IsReading(HttpRequest request) =>
        HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);
}
