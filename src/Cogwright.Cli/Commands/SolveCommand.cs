using System.ComponentModel;
using Cogwright.Cli.Output;
using Cogwright.Drivetrain;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>What <c>solve</c> takes beside the spec.</summary>
internal sealed class SolveSettings : SpecSettings
{
    /// <summary>A body angle to try.</summary>
    [CommandOption("--body-angle <DEGREES>")]
    [Description("Body angle in degrees, instead of the spec's; the cage's stops move with it.")]
    public string? BodyAngle { get; init; }

    /// <summary>The same in degrees, or null.</summary>
    internal double? BodyAngleDeg =>
        NumberOption.Parse("--body-angle", BodyAngle, Texts.Get("expected.degrees"));

    /// <summary>Lean of the hanger that was read.</summary>
    [CommandOption("--lean <DEGREES>")]
    [Description(
        "Lean of the hanger as read, in degrees; positive when its lower part stands inboard."
    )]
    public string? Lean { get; init; }

    /// <summary>The same in degrees, or null.</summary>
    internal double? LeanDeg => NumberOption.Parse("--lean", Lean, Texts.Get("expected.degrees"));

    /// <summary>Toe of the hanger that was read.</summary>
    [CommandOption("--toe <DEGREES>")]
    [Description(
        "Toe of the hanger as read, in degrees; positive when its rear part stands inboard."
    )]
    public string? Toe { get; init; }

    /// <summary>The same in degrees, or null.</summary>
    internal double? ToeDeg => NumberOption.Parse("--toe", Toe, Texts.Get("expected.degrees"));

    /// <summary>A knock to tell the margin for.</summary>
    [CommandOption("--knock <SIZE>")]
    [Description(
        "A knock on the hanger to tell the room to the spokes after: mm inward at the guide pulley, or degrees such as 2deg; 3 mm when left out."
    )]
    public string? Knock { get; init; }

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
        var tilt = Tilt(settings);
        Knock? knock = settings.Knock is { } size ? KnockText.Parse(size) : null;
        var travel = TravelOption.Parse(settings.Travel, sweepAllowed: true);
        if (
            Bike.Load(settings, console, settings.BodyAngleDeg * Math.PI / 180, travel)
            is not { } bike
        )
        {
            return ExitCode.BadInput;
        }
        if (bike.Spec.RearDerailleur is null)
        {
            foreach (
                var (option, value) in (ReadOnlySpan<(string, string?)>)
                    [
                        ("--body-angle", settings.BodyAngle),
                        ("--lean", settings.Lean),
                        ("--toe", settings.Toe),
                        ("--knock", settings.Knock),
                    ]
            )
            {
                if (value is not null)
                {
                    throw new BadInputException(Texts.Get("option.noDerailleur", option));
                }
            }
        }
        if (
            bike.Spec.RearDerailleur is { Coaxial: not null }
            && (settings.LeanDeg is not null || settings.ToeDeg is not null)
        )
        {
            throw new BadInputException(Texts.Get("option.tiltOnAxle"));
        }
        bike = bike with { Tilt = tilt, Knock = knock };
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

    private static HangerTilt? Tilt(SolveSettings settings)
    {
        const double most = 20;
        foreach (var angle in (double?[])[settings.LeanDeg, settings.ToeDeg])
        {
            if (angle is { } degrees && !(Math.Abs(degrees) <= most))
            {
                throw new BadInputException(Texts.Get("option.tilt", most));
            }
        }
        return settings.LeanDeg is null && settings.ToeDeg is null
            ? null
            : new((settings.LeanDeg ?? 0) * Math.PI / 180, (settings.ToeDeg ?? 0) * Math.PI / 180);
    }

    private int Sweep(Bike bike, bool asJson)
    {
        var sweep = TravelSweepOutput.Of(bike);
        var findings = SweepFindings.Of(bike, sweep);
        if (asJson)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    GearTableJson.Write(json, bike);
                    TravelSweepOutput.Write(json, sweep, findings);
                }
            );
        }
        else
        {
            TravelSweepOutput.Show(console, bike, sweep, findings);
            Screen.Assumed(console, bike.Spec);
        }
        return findings.All(finding => finding.NotUsed) ? bike.ExitCode : ExitCode.Findings;
    }
}
