using System.Collections.Immutable;
using Cogwright.Files;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>Says what is wrong with a file, place by place.</summary>
internal static class ProblemReport
{
    internal static void Write(
        IAnsiConsole console,
        ImmutableArray<FileProblem> problems,
        bool json
    )
    {
        if (json)
        {
            JsonAnswer.Write(
                console,
                writer =>
                {
                    writer.WriteStartArray("problems");
                    foreach (var problem in problems)
                    {
                        writer.WriteStartObject();
                        writer.WriteString("file", problem.File);
                        writer.WriteNumber("line", problem.Line);
                        writer.WriteNumber("column", problem.Column);
                        writer.WriteString("field", problem.Field);
                        writer.WriteString("message", problem.Message);
                        writer.WriteEndObject();
                    }
                    writer.WriteEndArray();
                }
            );
            return;
        }
        foreach (var problem in problems)
        {
            Screen.Problem(
                console,
                Texts.Get(
                    "problem.place",
                    problem.File,
                    problem.Line,
                    problem.Column,
                    problem.Field
                ),
                $"  {problem.Message}"
            );
        }
    }
}
