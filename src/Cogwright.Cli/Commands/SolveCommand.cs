using System.ComponentModel;
using Cogwright.Cli.Output;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>solve</c> takes beside the spec.</summary>
internal sealed class SolveSettings : SpecSettings
{
    /// <summary>A body angle to try.</summary>
    [CommandOption("--body-angle <DEGREES>")]
    [Description("Body angle in degrees, instead of the spec's; the cage's stops move with it.")]
    public double? BodyAngleDeg { get; init; }

    /// <summary>A travel of the rear end.</summary>
    [CommandOption("--travel <MM>")]
    [Description("Travel of the rear end in mm, or \"sweep\" for all of it; at sag when left out.")]
    public string? Travel { get; init; }
}

/// <summary>The gear table of a spec.</summary>
internal sealed class SolveCommand(IAnsiConsole console) : Command<SolveSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        SolveSettings settings,
        CancellationToken cancellationToken
    )
    {
        if (settings.BodyAngleDeg is { } angle && !(Math.Abs(angle) <= 180))
        {
            throw new BadInputException(Texts.Get("option.bodyAngle"));
        }
        var travel = TravelOption.Parse(settings.Travel, sweepAllowed: true);
        if (
            Bike.Load(settings, console, settings.BodyAngleDeg * Math.PI / 180, travel)
            is not { } bike
        )
        {
            return ExitCode.BadInput;
        }
        if (travel.IsSweep)
        {
            return Sweep(bike, settings.Json);
        }
        if (settings.Json)
        {
            JsonAnswer.Write(console, json => GearTableJson.Write(json, bike));
        }
        else
        {
            GearTableScreen.Write(console, bike);
        }
        return bike.ExitCode;
    }

    private int Sweep(Bike bike, bool asJson)
    {
        var sweep = TravelSweepOutput.Of(bike);
        if (asJson)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    GearTableJson.Write(json, bike);
                    TravelSweepOutput.Write(json, sweep);
                }
            );
        }
        else
        {
            TravelSweepOutput.Show(console, bike, sweep);
            Screen.Assumed(console, bike.Spec);
        }
        return TravelSweepOutput.IsFine(bike, sweep) ? bike.ExitCode : ExitCode.Findings;
    }
}
