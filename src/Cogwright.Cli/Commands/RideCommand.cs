using System.Collections.Immutable;
using Cogwright.Cli.Output;
using Cogwright.Drivetrain;
using Cogwright.Files;
using Cogwright.Gearing;
using Cogwright.Parts;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What a ride comes to with a bike's gears, with those of other specs, and with rings and cassettes of the library.</summary>
internal sealed class RideCommand(IAnsiConsole console) : Command<RideSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        RideSettings settings,
        CancellationToken cancellationToken
    )
    {
        var replaced = RideOptions.Replaced(settings);
        var work = new SlowWork(Console.Error, TimeProvider.System);
        SpecFitting? fitting = null;
        var library = PartLibrary.Empty;
        DrivetrainSpec? spec;
        if (replaced.IsEmpty)
        {
            spec = GearSets.Spec(settings, settings.SpecPath, console);
        }
        else
        {
            library = PartFiles.Library(settings);
            fitting = PartFiles.Fitting(settings, library, console);
            spec = fitting?.Spec.Drivetrain;
        }
        if (spec is null)
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
            if (RideOptions.Road(settings, console, work, cancellationToken) is not { } road)
            {
                return ExitCode.BadInput;
            }
            var wind = RideOptions.Wind(settings, road.Route);
            var held = RideOptions.Held(settings);
            var heldW = held?.On(road.Route, rider, wind, cancellationToken);
            var sets = fitting is null
                ? null
                : Sets(fitting, library, replaced, settings.InStock, work, cancellationToken);
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
                    .. sets?.Sets.Select(set => set.Candidate) ?? [],
                ],
            };
            var result = RideStudy.Of(
                question,
                work.Of<RideProgress>(step =>
                    Texts.Get("ride.progress.ride", 100.0 * step.Done / step.All)
                ),
                cancellationToken
            );
            var (easier, harder) = RideOptions.Spread(settings, question.Rider.Load);
            work.Step(() => Texts.Get("ride.progress.spread"));
            var answer = new RideOutput(settings, spec, question, road.Remarks, result)
            {
                HeldW = heldW,
                HeldNote = held?.Beyond(result.TotalS),
                Sets = sets,
                Replaced = replaced,
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

    /// <summary>What the library would make of the bike.</summary>
    private static RideSets Sets(
        SpecFitting fitting,
        PartLibrary library,
        ImmutableArray<PartKind> kinds,
        bool inStock,
        SlowWork work,
        CancellationToken cancellation
    )
    {
        var question = RideSets.Question(fitting, library, kinds, inStock);
        return RideSets.Of(
            question,
            OptionSearch.Find(
                question,
                work.Of<OptionProgress>(step =>
                    Texts.Get("ride.progress.parts", step.Seen, step.All)
                ),
                cancellation
            ),
            fitting.Spec.Drivetrain.Chain.Pitches
        );
    }
}
