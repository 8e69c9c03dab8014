using System.Text.Json;
using Cogwright.Cli.Output;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli;

/// <summary>Turns what went wrong into a sentence and an exit code; never a stack trace.</summary>
internal static class Failure
{
    /// <summary>Says it on the console, or as JSON when a script asked for that.</summary>
    internal static int Report(IAnsiConsole console, Exception exception, bool json)
    {
        var (code, what, hint) = exception switch
        {
            CommandAppException usage => (
                ExitCode.BadInput,
                usage.Message,
                Texts.Get("usage.hint")
            ),
            BadInputException bad => (ExitCode.BadInput, bad.Message, null),
            OperationCanceledException => (ExitCode.BadInput, Texts.Get("cancelled"), null),
            IOException or UnauthorizedAccessException => (
                ExitCode.BadInput,
                exception.Message,
                Texts.Get("file.hint")
            ),
            _ => (
                ExitCode.Fault,
                Texts.Get("fault", exception.GetType().Name, exception.Message),
                (string?)null
            ),
        };
        if (json)
        {
            JsonAnswer.Write(
                console,
                writer => Write(writer, hint is null ? what : $"{what} {hint}")
            );
        }
        else
        {
            Screen.Problem(console, what, hint);
        }
        return code;
    }

    /// <summary>The same form as for a file with problems; there is no place in a file to name.</summary>
    private static void Write(Utf8JsonWriter json, string message)
    {
        json.WriteStartArray("problems");
        json.WriteStartObject();
        json.WriteNull("file");
        json.WriteNull("line");
        json.WriteNull("column");
        json.WriteNull("field");
        json.WriteString("message", message);
        json.WriteEndObject();
        json.WriteEndArray();
    }
}

/// <summary>Input that cannot be used; the message says what, where and what to do.</summary>
internal sealed class BadInputException(string message) : Exception(message);
