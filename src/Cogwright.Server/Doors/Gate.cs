namespace Cogwright.Server;

/// <summary>Looks up who calls and whether the table lets them.</summary>
internal sealed class Gate(RequestDelegate next, Sessions sessions)
{
    public async Task InvokeAsync(HttpContext context)
    {
        if (context.GetEndpoint() is RouteEndpoint endpoint && !WebClient.Holds(endpoint))
        {
            var allowed = Permissions.Of(context.Request.Method, endpoint.RoutePattern.RawText);
            var caller = await sessions.OfAsync(context).ConfigureAwait(false);
            context.Features.Set(caller);
            if ((allowed & caller.Who) == 0)
            {
                throw caller.Who == Who.Anonymous
                    ? new ProblemException(Problem.NotLoggedIn)
                    : new ProblemException(
                        Problem.NotAllowed,
                        caller.Name,
                        string.Join(", ", Roles.All.Where(role => (allowed & Roles.Of(role)) != 0))
                    );
            }
        }
        else if (context.GetEndpoint() is { } held && WebClient.Holds(held))
        {
            // A file of the program says itself how long it may be kept; what stands there already would win over it.
            context.Response.Headers.Remove("Cache-Control");
        }
        await next(context).ConfigureAwait(false);
    }
}
