using Cogwright.Cli.Output;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli;

/// <summary>Turns what went wrong into a sentence and an exit code; never a stack trace.</summary>
internal static class Failure
{
    internal static int Report(IAnsiConsole console, Exception exception)
    {
        switch (exception)
        {
            case CommandAppException usage:
                Screen.Problem(console, usage.Message, Texts.Get("usage.hint"));
                return ExitCode.BadInput;
            case BadInputException bad:
                Screen.Problem(console, bad.Message, null);
                return ExitCode.BadInput;
            case OperationCanceledException:
                Screen.Problem(console, Texts.Get("cancelled"), null);
                return ExitCode.BadInput;
            case IOException or UnauthorizedAccessException:
                Screen.Problem(console, exception.Message, Texts.Get("file.hint"));
                return ExitCode.BadInput;
            default:
                Screen.Problem(
                    console,
                    Texts.Get("fault", exception.GetType().Name, exception.Message),
                    null
                );
                return ExitCode.Fault;
        }
    }
}

/// <summary>Input that cannot be used; the message says what, where and what to do.</summary>
internal sealed class BadInputException(string message) : Exception(message);
