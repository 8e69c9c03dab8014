using System.Globalization;
using System.Text.Json;
using Cogwright.Storage;
using Microsoft.AspNetCore.Mvc;

namespace Cogwright.Server;

/// <summary>Turns every failure into problem details (RFC 9457) that say what, where, and what to do next.</summary>
internal sealed class ProblemAnswers(RequestDelegate next, ILogger<ProblemAnswers> log)
{
    /// <summary>The media type.</summary>
    internal const string MediaType = "application/problem+json";

    private const string TypePrefix = "urn:cogwright:problem:";

    public async Task InvokeAsync(HttpContext context)
    {
        try
        {
            await next(context).ConfigureAwait(false);
            if (
                context.Response is { StatusCode: >= 400, HasStarted: false, ContentLength: null }
                && context.Response.ContentType is null
            )
            {
                await WriteAsync(context, OfStatus(context.Response.StatusCode))
                    .ConfigureAwait(false);
            }
        }
        catch (Exception) when (context.RequestAborted.IsCancellationRequested)
        {
            // Nobody is there to answer.
            context.Response.StatusCode = StatusCodes.Status499ClientClosedRequest;
        }
        catch (Exception e) when (!context.Response.HasStarted)
        {
            await WriteAsync(context, Of(e, log)).ConfigureAwait(false);
        }
    }

    /// <summary>What a failure is told as; what people must look at goes to the log.</summary>
    internal static ProblemException Of(Exception e, ILogger log)
    {
        switch (e)
        {
            case ProblemException told:
                return told;
            case StoreFaultException fault:
                var problem = OfStore(fault.Fault.Kind);
                if (problem.Status >= 500)
                {
                    Telling.StoreFailed(log, fault.Fault.Kind);
                }
                return new ProblemException(problem, fault.Fault.Text);
            case BadHttpRequestException { InnerException: JsonException json }:
                return new ProblemException(
                    Problem.Malformed,
                    json.LineNumber + 1,
                    json.BytePositionInLine + 1,
                    json.Path
                );
            case BadHttpRequestException bad:
                return OfStatus(bad.StatusCode);
            default:
                // The type and the place only: a message may quote what was sent.
                Telling.Unforeseen(log, e.GetType().FullName, e.StackTrace);
                return new ProblemException(Problem.Unforeseen);
        }
    }

    private static ProblemException OfStatus(int status) =>
        new(Problem.OfStatus(status), Texts.Get("problem.plain"));

    private static Problem OfStore(StoreFaultKind kind) =>
        kind switch
        {
            StoreFaultKind.TooLarge => Problem.TooLarge,
            StoreFaultKind.OverQuota => Problem.OverQuota,
            StoreFaultKind.Erased => Problem.Erased,
            StoreFaultKind.Nothing => Problem.NotFound,
            StoreFaultKind.WouldReplace => Problem.Conflict,
            _ => Problem.Store,
        };

    private static Task WriteAsync(HttpContext context, ProblemException problem)
    {
        var response = context.Response;
        response.StatusCode = problem.Problem.Status;
        if (problem.RetryAfter is { } wait)
        {
            response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds)
                .ToString(CultureInfo.InvariantCulture);
        }
        if (HttpMethods.IsHead(context.Request.Method))
        {
            return Task.CompletedTask;
        }
        var details = new ProblemDetails
        {
            Type = TypePrefix + problem.Problem.Code,
            Title = problem.Problem.Title,
            Status = problem.Problem.Status,
            Detail = problem.Problem.Detail(problem.About),
            // The route and not the path, which can hold the token of a link.
            Instance = RouteOf(context),
        };
        details.Extensions["code"] = problem.Problem.Code;
        details.Extensions["next"] = problem.Problem.Next;
        if (!problem.Places.IsEmpty)
        {
            details.Extensions["places"] = problem.Places;
        }
        return response.WriteAsJsonAsync(
            details,
            options: null,
            contentType: MediaType,
            cancellationToken: context.RequestAborted
        );
    }

    internal static string? RouteOf(HttpContext context) =>
        (context.GetEndpoint() as RouteEndpoint)?.RoutePattern.RawText;
}
