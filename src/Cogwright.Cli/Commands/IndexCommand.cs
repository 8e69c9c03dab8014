using System.Collections.Immutable;
using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Setup;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>index</c> takes beside the spec.</summary>
internal sealed class IndexSettings : SpecSettings
{
    /// <summary>The readings file, or none.</summary>
    [CommandArgument(1, "[READINGS]")]
    [Description("Readings of hanger and index (YAML or JSON), to be reckoned in.")]
    public string? ReadingsPath { get; init; }
}

/// <summary>Where the guide pulley stands beside every cog, and what to turn for the best index.</summary>
internal sealed class IndexCommand(IAnsiConsole console) : Command<IndexSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        IndexSettings settings,
        CancellationToken cancellationToken
    )
    {
        if (Bike.Load(settings, console) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        if (bike.Spec.RearDerailleur is null)
        {
            throw new BadInputException(Texts.Get("index.noDerailleur", settings.SpecPath));
        }
        var targets = TargetList.Make(bike.Catalogue, bike.Work);
        ImmutableArray<TakenReading> readings = [];
        if (settings.ReadingsPath is { } path)
        {
            if (ReadingsIntake.Load(path, targets, console, settings.Json) is not { } intake)
            {
                return ExitCode.BadInput;
            }
            readings = intake.Readings;
        }
        var hanger = HangerReview.Judge(bike.Catalogue, targets, readings);
        if (IndexReview.Judge(bike.Catalogue, bike.Work, readings) is not { } index)
        {
            throw new BadInputException(Texts.Get("index.nothing"));
        }
        if (settings.Json)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    Head.Write(json, bike);
                    HangerJson.Write(json, hanger);
                    IndexJson.Write(json, index);
                    json.Assumed(bike.Spec.Assumptions);
                }
            );
        }
        else
        {
            Head.Show(console, bike);
            if (hanger is not null)
            {
                HangerScreen.Write(console, hanger);
            }
            IndexScreen.Write(console, index);
            Screen.Assumed(console, bike.Spec);
        }
        return bike.Exit(index.IsFine && CorrectCommand.IsProven(hanger));
    }
}
