namespace Cogwright.Server;

/// <summary>One line for each request: the route, not the path.</summary>
internal sealed class RequestLog(RequestDelegate next, TimeProvider clock, ILogger<RequestLog> log)
{
    public async Task InvokeAsync(HttpContext context)
    {
        var begun = clock.GetTimestamp();
        using var activity = Instruments.Source.StartActivity("request");
        try
        {
            await next(context).ConfigureAwait(false);
        }
        finally
        {
            var route = ProblemAnswers.RouteOf(context) ?? "(none)";
            activity?.SetTag("http.route", route);
            activity?.SetTag("http.response.status_code", context.Response.StatusCode);
            Telling.Answered(
                log,
                MethodOf(context),
                route,
                context.Response.StatusCode,
                context.Features.Get<Caller>()?.Name ?? Caller.Nobody.Name,
                Math.Round(clock.GetElapsedTime(begun).TotalMilliseconds, 1)
            );
        }
    }

    // A method is any token that a client sends: only those that HTTP knows are written down.
    private static string MethodOf(HttpContext context) =>
        context.Request.Method
            is "GET"
                or "HEAD"
                or "POST"
                or "PUT"
                or "PATCH"
                or "DELETE"
                or "OPTIONS"
            ? context.Request.Method
            : "(other)";
}
