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
        if (Bike.Load(settings, console, settings.BodyAngleDeg * Math.PI / 180) is not { } bike)
        {
            return ExitCode.BadInput;
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
}
