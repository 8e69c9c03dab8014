using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Files;
using Cogwright.Paper;
using Cogwright.Setup;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>procedure print</c> takes.</summary>
internal sealed class ProcedurePrintSettings : CommandSettings
{
    /// <summary>The procedure file.</summary>
    [CommandArgument(0, "<FILE>")]
    [Description("The procedure file (YAML or JSON).")]
    public required string ProcedurePath { get; init; }

    /// <summary>The spec of the bike.</summary>
    [CommandOption("--spec <SPEC>")]
    [Description("The spec file of the bike that it is printed for.")]
    public string? SpecPath { get; init; }

    /// <summary>The PDF to write.</summary>
    [CommandOption("--out <FILE>")]
    [Description("The PDF to write; named after bike and procedure when left out.")]
    public string? File { get; init; }

    /// <summary>The paper.</summary>
    [CommandOption("--paper <SIZE>")]
    [Description("a4 or letter; a4 when left out.")]
    public string Paper { get; init; } = "a4";

    /// <summary>Whether to answer as JSON.</summary>
    [CommandOption("--json")]
    [Description("Answer as JSON with stable names.")]
    public bool Json { get; init; }

    /// <summary>Files of parts that the spec may name.</summary>
    [CommandOption("--parts <FILE>")]
    [Description(
        "A file of parts (YAML or CSV) that the spec may name; may be given several times. The demo workshop's unless told."
    )]
    public string[] PartsPaths { get; init; } = [];

    /// <summary>A chain length to use instead of the spec's.</summary>
    [CommandOption("--pitches <N>")]
    [Description("Chain length in pitches, instead of the spec's.")]
    public string? PitchesText { get; init; }

    /// <summary>What of it concerns the spec.</summary>
    internal SpecSettings OfSpec() =>
        new()
        {
            SpecPath = SpecPath ?? throw new BadInputException(Texts.Get("procedure.print.noSpec")),
            Json = Json,
            PartsPaths = PartsPaths,
            PitchesText = PitchesText,
        };
}

/// <summary>A procedure as a booklet for the bench, with the figures and the drawings of one bike.</summary>
internal sealed class ProcedurePrintCommand(IAnsiConsole console) : Command<ProcedurePrintSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        ProcedurePrintSettings settings,
        CancellationToken cancellationToken
    )
    {
        var paper = PaperOption.Parse(settings.Paper);
        var ofSpec = settings.OfSpec();
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
        if (Bike.Load(ofSpec, console) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        var content = BookletContent.Make(procedure, bike.Catalogue, bike.Work);
        var file =
            settings.File ?? $"{FileName.Of($"{bike.Spec.Name} {procedure.Title}", "booklet")}.pdf";
        cancellationToken.ThrowIfCancellationRequested();
        WholeFile.Write(file, Booklet.Write(content, bike.Table, paper));
        WrittenFiles.Report(
            console,
            bike,
            [file],
            settings.Json,
            json =>
            {
                json.WriteString("title", content.Title);
                json.WriteNumber("steps", content.Steps.Length);
                json.Sentences("rulesBroken", content.RulesBroken);
                json.WriteStartArray("withoutFigure");
                foreach (var (step, fault) in content.WithoutFigure)
                {
                    json.WriteStartObject();
                    json.WriteNumber("step", step);
                    json.WriteString("what", fault);
                    json.WriteEndObject();
                }
                json.WriteEndArray();
            }
        );
        if (!settings.Json)
        {
            Show(settings.ProcedurePath, content);
        }
        return content.RulesBroken.IsEmpty && content.WithoutFigure.IsEmpty
            ? bike.ExitCode
            : ExitCode.Findings;
    }

    private void Show(string procedurePath, BookletContent content)
    {
        if (!content.RulesBroken.IsEmpty)
        {
            Screen.Problem(
                console,
                Texts.Get("procedure.print.rules", content.RulesBroken.Length),
                Texts.Get("procedure.print.check", procedurePath)
            );
        }
        foreach (var (step, fault) in content.WithoutFigure)
        {
            Screen.Problem(console, Texts.Get("procedure.print.noFigure", step, fault), null);
        }
        Screen.Line(console, Texts.Get("procedure.caution"));
    }
}
