using System.Collections.Immutable;
using Cogwright.Cli.Output;
using Cogwright.Fastening;
using Cogwright.Setup;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>Every fastener with its torque and where it comes from, in the order of a walk round the bike.</summary>
internal sealed class TorqueCommand(IAnsiConsole console) : Command<TorqueSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        TorqueSettings settings,
        CancellationToken cancellationToken
    )
    {
        // What the options say is looked at before anything is solved.
        var (only, unit, bolt) = (settings.Only, settings.Unit, settings.Bolt);
        var (tool, adapter, today) = (settings.Tool, settings.Adapter, settings.Today);
        if (tool is null && settings.AdapterText is not null)
        {
            throw new BadInputException(Texts.Get("torque.noTool", "--adapter"));
        }
        if (Bike.Load(settings, console) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        var lines = Lines(bike, only, tool is null ? [] : [tool], adapter, today, bolt);
        if (settings.Json)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    Head.Write(json, bike);
                    TorqueOutput.Write(json, lines, unit);
                    json.Assumed(bike.Spec.Assumptions);
                }
            );
        }
        else
        {
            TorqueOutput.Show(console, bike, lines, unit);
        }
        return bike.Exit(lines.All(line => line.IsFine));
    }

    private static ImmutableArray<TorqueLine> Lines(
        Bike bike,
        ImmutableArray<string>? only,
        ImmutableArray<TorqueTool> tools,
        WrenchAdapter adapter,
        DateOnly today,
        BoltMaterial? bolt
    )
    {
        var targets = TargetList
            .Make(bike.Catalogue, bike.Work)
            .Where(target => target.IsTorque && target.Stage == WorkStage.Torque)
            .ToDictionary(target => target.Id);
        var figures = new Dictionary<string, TorqueFigure>();
        foreach (var fastener in Fasteners.All)
        {
            if (targets.TryGetValue(TargetNames.Torque(fastener), out var target))
            {
                figures[fastener] = FigureOf(target);
            }
        }
        if (only is { } names)
        {
            if (names.FirstOrDefault(name => !figures.ContainsKey(name)) is { } missing)
            {
                throw new BadInputException(
                    Texts.Get("torque.notOnBike", missing, string.Join(", ", figures.Keys))
                );
            }
            figures = names.Distinct().ToDictionary(name => name, name => figures[name]);
        }
        return
        [
            .. WalkRound
                .Of(figures)
                .Select(stop =>
                    TorqueLine.Of(
                        stop,
                        targets[TargetNames.Torque(stop.Fastener.Id)],
                        tools,
                        adapter,
                        today,
                        bolt
                    )
                ),
        ];
    }

    private static TorqueFigure FigureOf(Target target)
    {
        var range = target is { Lower: { } lower, Upper: { } upper }
            ? new TorqueRange(lower, upper)
            : null;
        return target.Source == TargetSource.Spec
            ? TorqueFigure.Of(range)
            : TorqueFigure.Of(null, null, range);
    }
}
