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
        var taken = ReadingsIntake.None;
        if (settings.ReadingsPath is { } path)
        {
            if (ReadingsIntake.Load(path, targets, console, settings.Json) is not { } intake)
            {
                return ExitCode.BadInput;
            }
            taken = intake;
        }
        var results = ReadingReview.Judge(
            bike.Catalogue,
            targets,
            bike.Work,
            taken.Readings,
            taken.Trial
        );
        var hanger = HangerReview.Judge(bike.Catalogue, targets, taken.Readings);
        var index = IndexReview.Judge(bike.Catalogue, bike.Work, taken.Readings);
        if (index is null && !results.Any(IsUnknown))
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
                    ReadingJson.Write(json, results, taken, "readings", IsOfIndex);
                    ReadingJson.Write(json, results, taken, "otherReadings", IsOther);
                    HangerJson.Write(json, hanger);
                    IndexJson.Write(json, index);
                    json.Assumed(bike.Spec.Assumptions);
                }
            );
        }
        else
        {
            Head.Show(console, bike);
            ReadingScreen.Write(console, results, taken, IsOfIndex);
            ReadingScreen.Others(console, results.Where(IsOther));
            if (hanger is not null)
            {
                HangerScreen.Write(console, hanger);
            }
            if (index is not null)
            {
                IndexScreen.Write(console, index);
            }
            Screen.Assumed(console, bike.Spec);
        }
        return bike.Exit(
            index is { IsFine: true } && Proof.Of(hanger) && Proof.Of(results.Where(IsOfIndex))
        );
    }

    /// <summary>A reading that nothing is known of: misspelt, or of a gear that the bike has not.</summary>
    private static bool IsUnknown(ReadingResult result) =>
        result is { Status: ReadingStatus.Asked, Target: null };

    private static bool IsOfIndex(ReadingResult result) =>
        IsUnknown(result) || result.Status is ReadingStatus.OneOfSeveral;

    /// <summary>A reading that <c>correct</c> judges; it is named here, so that nobody takes it for judged.</summary>
    private static bool IsOther(ReadingResult result) => !IsOfIndex(result);
}
