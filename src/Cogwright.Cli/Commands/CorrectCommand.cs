using System.Collections.Immutable;
using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Files;
using Cogwright.Setup;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>correct</c> takes.</summary>
internal sealed class CorrectSettings : SpecSettings
{
    /// <summary>The readings file.</summary>
    [CommandArgument(1, "<READINGS>")]
    [Description("The readings file (YAML or JSON).")]
    public required string ReadingsPath { get; init; }
}

/// <summary>Judges readings, and says what to turn and what will then hold in every gear.</summary>
internal sealed class CorrectCommand(IAnsiConsole console) : Command<CorrectSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        CorrectSettings settings,
        CancellationToken cancellationToken
    )
    {
        if (Bike.Load(settings, console) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        ReadingsReading reading;
        using (var stream = InputFile.Open(settings.ReadingsPath))
        {
            reading = ReadingsReader.Read(stream, settings.ReadingsPath);
        }
        if (reading.File is not { } file)
        {
            ProblemReport.Write(console, reading.Problems, settings.Json);
            return ExitCode.BadInput;
        }
        var targets = TargetList.Make(bike.Catalogue, bike.Work);
        var taken = ReadingsIntake.Of(file, targets, settings.ReadingsPath);
        if (!taken.Problems.IsEmpty)
        {
            ProblemReport.Write(console, taken.Problems, settings.Json);
            return ExitCode.BadInput;
        }
        var results = ReadingReview.Judge(bike.Catalogue, targets, taken.Readings, taken.Trial);
        if (settings.Json)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    json.WriteString("name", bike.Spec.Name);
                    ReadingJson.Write(json, results, taken.Assumed);
                    json.Assumed(bike.Spec.Assumptions);
                }
            );
        }
        else
        {
            ReadingScreen.Write(console, bike, results, taken.Assumed);
        }
        return AllProven(results) ? ExitCode.Fine : ExitCode.Findings;
    }

    private static bool AllProven(ImmutableArray<ReadingResult> results) =>
        results.All(result =>
            result.Judgement?.Verdict == Measurement.Verdict.Within && result.Questions.IsEmpty
        );
}
