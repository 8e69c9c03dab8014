using Cogwright.Storage;

namespace Cogwright.Server;

/// <summary>
/// Everything that the server writes to its log: routes, statuses, sorts of failure, ids. Never a name, a path, a query, a
/// header, a body, nor the message of an exception.
/// </summary>
internal static partial class Telling
{
    [LoggerMessage(
        1,
        LogLevel.Information,
        "{Method} {Route} answered {Status} to {Who} in {Milliseconds} ms"
    )]
    internal static partial void Answered(
        ILogger log,
        string method,
        string route,
        int status,
        string who,
        double milliseconds
    );

    [LoggerMessage(2, LogLevel.Error, "The store failed: {Kind}")]
    internal static partial void StoreFailed(ILogger log, StoreFaultKind kind);

    [LoggerMessage(3, LogLevel.Error, "Unforeseen: {ExceptionType} at {Stack}")]
    internal static partial void Unforeseen(ILogger log, string? exceptionType, string? stack);

    [LoggerMessage(4, LogLevel.Warning, "A log-in was refused")]
    internal static partial void LogInRefused(ILogger log);

    [LoggerMessage(5, LogLevel.Information, "Account {Account} logged in, session {Session}")]
    internal static partial void LoggedIn(ILogger log, Guid account, Guid session);

    [LoggerMessage(6, LogLevel.Information, "Session {Session} was revoked")]
    internal static partial void Revoked(ILogger log, Guid session);

    [LoggerMessage(7, LogLevel.Warning, "The door refused a request: {Code}")]
    internal static partial void Refused(ILogger log, string code);

    [LoggerMessage(8, LogLevel.Information, "Personal datum erased in job {Job}")]
    internal static partial void Erased(ILogger log, Guid job);

    [LoggerMessage(
        9,
        LogLevel.Error,
        "{Count} parts of the library are damaged and left out: run the integrity check"
    )]
    internal static partial void PartsDamaged(ILogger log, int count);

    [LoggerMessage(
        10,
        LogLevel.Error,
        "The log {Job} cannot be worked out for the overview: {ExceptionType}"
    )]
    internal static partial void NotFolded(ILogger log, Guid job, string? exceptionType);
}
