using System.Text.Json;
using Cogwright.Cli.Output;
using Cogwright.Setup;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>Every target of the job, in the order of work.</summary>
internal sealed class TargetsCommand(IAnsiConsole console) : Command<SpecSettings>
{
    /// <inheritdoc />
    public override int Execute(
        CommandContext context,
        SpecSettings settings,
        CancellationToken cancellationToken
    )
    {
        if (Bike.Load(settings, console) is not { } bike)
        {
            return ExitCode.BadInput;
        }
        var targets = TargetList.Make(bike.Catalogue, bike.Work);
        if (settings.Json)
        {
            JsonAnswer.Write(
                console,
                json =>
                {
                    Head.Write(json, bike);
                    json.WriteStartArray("targets");
                    foreach (var target in targets)
                    {
                        json.WriteStartObject();
                        Write(json, target);
                        json.WriteEndObject();
                    }
                    json.WriteEndArray();
                    GearTableJson.Findings(json, bike);
                    json.Assumed(bike.Spec.Assumptions);
                }
            );
        }
        else
        {
            TargetScreen.Write(console, bike, targets);
        }
        return bike.ExitCode;
    }

    private static void Write(Utf8JsonWriter json, Target target)
    {
        json.WriteString("id", target.Id);
        json.WriteString("stage", JsonAnswer.Name(target.Stage));
        json.WriteString("title", target.Title);
        json.Count("ring", target.Gear?.RingTeeth);
        json.Count("cog", target.Gear?.CogTeeth);
        json.WriteString("convention", target.Convention);
        json.Figure("value", target.Value);
        json.Figure("lower", target.Lower);
        json.Figure("upper", target.Upper);
        json.WriteString("unit", target.Unit);
        json.WriteString("source", JsonAnswer.Name(target.Source));
        json.WriteString("tool", target.Tool);
        json.WriteString("note", target.Note);
        json.WriteString("caution", target.Caution);
    }
}
