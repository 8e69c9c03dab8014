using System.ComponentModel;
using Cogwright.Cli.Output;
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
        var targets = TargetList.Make(bike.Catalogue, bike.Work);
        if (
            ReadingsIntake.Load(settings.ReadingsPath, targets, console, settings.Json)
            is not { } taken
        )
        {
            return ExitCode.BadInput;
        }
        var hanger = HangerReview.Judge(bike.Catalogue, targets, taken.Readings);
        // The index as the model finds it is a question of its own: here only what was read counts.
        var index = taken.Readings.Any(r =>
            r.Quantity is ReadingNames.IndexUp or ReadingNames.IndexDown
        )
            ? IndexReview.Judge(bike.Catalogue, bike.Work, taken.Readings)
            : null;
        var results = ReadingReview.Judge(
            bike.Catalogue,
            targets,
            bike.Work,
            taken.Readings,
            taken.Trial
        );
        if (settings.Json)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    Head.Write(json, bike);
                    ReadingJson.Write(json, results, taken);
                    HangerJson.Write(json, hanger);
                    IndexJson.Write(json, index);
                    json.Assumed(bike.Spec.Assumptions);
                }
            );
        }
        else
        {
            ReadingScreen.Write(console, bike, results, taken, hanger, index);
        }
        return bike.Exit(Proof.Of(results) && Proof.Of(hanger) && index?.IsFine != false);
    }
}
