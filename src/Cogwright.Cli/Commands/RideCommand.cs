using Cogwright.Cli.Output;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Gearing;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What a ride comes to with a bike's gears, and with those of other specs.</summary>
internal sealed class RideCommand(IAnsiConsole console) : Command<RideSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        RideSettings settings,
        CancellationToken cancellationToken
    )
    {
        if (GearSets.Spec(settings, settings.SpecPath, console) is not { } spec)
        {
            return ExitCode.BadInput;
        }
        var others = new List<(string Path, DrivetrainSpec Spec)>();
        foreach (var path in settings.Beside)
        {
            if (GearSets.Spec(settings, path, console) is not { } other)
            {
                return ExitCode.BadInput;
            }
            others.Add((path, other));
        }
        try
        {
            var tyre = GearSets.Tyre("--tyre", settings.Tyre);
            var rider = RideOptions.Rider(settings, tyre);
            if (RideOptions.Road(settings, console, cancellationToken) is not { } road)
            {
                return ExitCode.BadInput;
            }
            var wind = RideOptions.Wind(settings, road.Route);
            var held = RideOptions.Held(settings);
            var heldW = held?.On(road.Route, rider, wind, cancellationToken);
            var question = new RideQuestion
            {
                Route = road.Route,
                Rider = heldW is { } watts ? rider with { Power = PowerPlan.Steady(watts) } : rider,
                Wind = wind,
                Tyre = tyre,
                Present = SpecGears.Of(spec),
                Candidates =
                [
                    .. others.Select(each => new RideCandidate(each.Path, SpecGears.Of(each.Spec))),
                ],
            };
            var result = RideStudy.Of(question, null, cancellationToken);
            var (easier, harder) = RideOptions.Spread(settings, question.Rider.Load);
            var answer = new RideOutput(settings, spec, question, road.Remarks, result)
            {
                HeldW = heldW,
                HeldNote = held?.Beyond(result.TotalS),
                Spread = RideSpread.OnSteepestMinute(question, easier, harder, cancellationToken),
            };
            if (settings.Json)
            {
                JsonAnswer.Write(console, json => RideJson.Write(json, answer));
            }
            else
            {
                RideScreen.Write(console, answer);
            }
            return ExitCode.Fine;
        }
        catch (ImpossibleInputException refused)
        {
            throw new BadInputException(refused.Message);
        }
    }
}
