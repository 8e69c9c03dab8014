using System.Collections.Immutable;
using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Files;
using Cogwright.Setup.Procedures;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>procedure check</c> takes.</summary>
internal sealed class ProcedureCheckSettings : CommandSettings
{
    /// <summary>The procedure file.</summary>
    [CommandArgument(0, "<FILE>")]
    [Description("The procedure file (YAML or JSON).")]
    public required string ProcedurePath { get; init; }

    /// <summary>Whether to answer as JSON.</summary>
    [CommandOption("--json")]
    [Description("Answer as JSON with stable names.")]
    public bool Json { get; init; }
}

/// <summary>What should not stand so in a procedure before it is given out.</summary>
internal sealed class ProcedureCheckCommand(IAnsiConsole console) : Command<ProcedureCheckSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        ProcedureCheckSettings settings,
        CancellationToken cancellationToken
    )
    {
        ProcedureReading reading;
        using (var stream = InputFile.Open(settings.ProcedurePath))
        {
            reading = ProcedureReader.Read(stream, settings.ProcedurePath);
        }
        if (reading.Procedure is not { } procedure)
        {
            ProblemReport.Write(console, reading.Problems, settings.Json);
            return ExitCode.BadInput;
        }
        var findings = reading.Lint();
        if (settings.Json)
        {
            Write(settings.ProcedurePath, procedure, findings);
        }
        else
        {
            Show(settings.ProcedurePath, procedure, findings);
        }
        return findings.IsEmpty ? ExitCode.Fine : ExitCode.Findings;
    }

    private void Show(string file, Procedure procedure, ImmutableArray<PlacedFinding> findings)
    {
        Screen.Heading(console, procedure.Title);
        foreach (var (line, column, finding) in findings)
        {
            Screen.Problem(
                console,
                Texts.Get("problem.place", file, line, column, finding.Path),
                Texts.Get(
                    "procedure.finding",
                    finding.Message,
                    finding.WhatToDo,
                    finding.Rule,
                    finding.Source
                )
            );
        }
        Screen.Line(
            console,
            findings.IsEmpty
                ? Texts.Get("procedure.clean", procedure.Steps.Length)
                : Texts.Get("procedure.count", procedure.Steps.Length, findings.Length)
        );
        Screen.Line(console, Texts.Get("procedure.caution"));
    }

    private void Write(string file, Procedure procedure, ImmutableArray<PlacedFinding> findings) =>
        JsonAnswer.Write(
            console,
            json =>
            {
                json.WriteString("title", procedure.Title);
                json.WriteNumber("steps", procedure.Steps.Length);
                json.WriteStartArray("findings");
                foreach (var (line, column, finding) in findings)
                {
                    json.WriteStartObject();
                    json.WriteString("file", file);
                    json.WriteNumber("line", line);
                    json.WriteNumber("column", column);
                    json.WriteString("field", finding.Path);
                    json.WriteString("rule", finding.Rule);
                    json.WriteString("message", finding.Message);
                    json.WriteString("whatToDo", finding.WhatToDo);
                    json.WriteString("source", finding.Source);
                    json.WriteEndObject();
                }
                json.WriteEndArray();
            }
        );
}
