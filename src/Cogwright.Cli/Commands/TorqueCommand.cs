using System.Collections.Immutable;
using Cogwright.Cli.Output;
using Cogwright.Fastening;
using Cogwright.Files;
using Cogwright.Setup;
using Cogwright.Setup.Procedures;
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
        // What options and files say is looked at before anything is solved.
        var (only, unit, ask, tool) = (settings.Only, settings.Unit, settings.Joint, settings.Tool);
        var (adapter, today) = (settings.Adapter, settings.Today);
        var read = settings.ReadWith(tool);
        if ((read is not null || ask.IsOfOne) && only is not { Length: 1 })
        {
            throw new BadInputException(Texts.Get("torque.ofOne"));
        }
        if (settings.AdapterText is not null && tool is null && settings.ToolsPath is null)
        {
            throw new BadInputException(Texts.Get("torque.noTool", "--adapter"));
        }
        if (Tools(settings, tool) is not { } tools || !Read(settings, out var procedure))
        {
            return ExitCode.BadInput;
        }
        if (Bike.Load(settings, console) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        var walk = TorqueWalk.Of(
            bike.Catalogue,
            bike.Work,
            TargetList.Make(bike.Catalogue, bike.Work),
            only,
            procedure
        );
        if (walk.Faults is [var fault, ..])
        {
            throw new BadInputException(fault);
        }
        ImmutableArray<TorqueLine> lines =
        [
            .. walk.Stops.Select(stop => TorqueLine.Of(stop, tools, adapter, today, ask, read)),
        ];
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

    // The shop's tools and the one at hand, or null after telling what is wrong with the file.
    private ImmutableArray<TorqueTool>? Tools(TorqueSettings settings, TorqueTool? atHand)
    {
        ImmutableArray<TorqueTool> tools = atHand is null ? [] : [atHand];
        if (settings.ToolsPath is not { } path)
        {
            return tools;
        }
        using var stream = InputFile.Open(path);
        var reading = TorqueToolsReader.Read(stream, path);
        if (reading.Tools is not { } shop)
        {
            ProblemReport.Write(console, reading.Problems, settings.Json);
            return null;
        }
        return [.. tools, .. shop];
    }

    private bool Read(TorqueSettings settings, out Procedure? procedure)
    {
        procedure = null;
        if (settings.ProcedurePath is not { } path)
        {
            return true;
        }
        using var stream = InputFile.Open(path);
        var reading = ProcedureReader.Read(stream, path);
        procedure = reading.Procedure;
        if (procedure is null)
        {
            ProblemReport.Write(console, reading.Problems, settings.Json);
        }
        return procedure is not null;
    }
}
