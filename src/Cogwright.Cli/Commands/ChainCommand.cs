using System.Text.Json;
using Cogwright.Cli.Output;
using Cogwright.Drivetrain;
using Spectre.Console;
using Spectre.Console.Cli;

namespace Cogwright.Cli.Commands;

/// <summary>The chain length to cut, with its reasons.</summary>
internal sealed class ChainCommand(IAnsiConsole console) : Command<SpecSettings>
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
        if (settings.Json)
        {
            JsonAnswer.Write(console, json => Write(json, bike));
        }
        else
        {
            Show(bike);
        }
        return bike.Exit(bike.Choice.Status == ChainChoiceStatus.ServesAll);
    }

    private void Show(Bike bike)
    {
        var n = bike.Choice.Numbers;
        Head.Show(console, bike);
        Screen.Heading(
            console,
            n.Recommended is { } pitches
                ? Texts.Get(
                    "chain.recommended",
                    pitches,
                    (pitches + 1) / 2,
                    pitches / 2,
                    pitches * Sprocket.PitchMm
                )
                : Texts.Get("chain.noLength")
        );
        foreach (var reason in Explanation.Reasons(bike.Spec, bike.Choice))
        {
            Screen.Line(console, $"• {reason}");
        }
        Screen.Line(console, Texts.Get("chain.beforeCutting"));
        Screen.Assumed(console, bike.Spec);
    }

    private static void Write(Utf8JsonWriter json, Bike bike)
    {
        var choice = bike.Choice;
        Head.Write(json, bike);
        json.WriteString("status", JsonAnswer.Name(choice.Status));
        Numbers(json, choice.Numbers);
        json.Figure("roundingEdgePitches", choice.RoundingEdgePitches);
        json.WriteString("roundingEdgeSide", choice.RoundingEdgeIsBelow ? "below" : "above");
        json.WriteStartArray("chainstaySensitivity");
        foreach (var moved in choice.ChainstaySensitivity)
        {
            json.WriteStartObject();
            json.Figure("chainstayDeltaMm", moved.ChainstayDeltaMm);
            Numbers(json, moved);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (choice.LongestPosition is { } position)
        {
            json.Figure("longestPositionTravelMm", position.TravelMm);
            json.Figure("longestAxleToBracketMm", position.AxleToBracketMm);
            json.Figure("growthMm", position.GrowthMm);
            json.Figure("shortestSetAtTravelMm", choice.ShortestSetAtTravelMm);
            json.Figure("longestSetAtTravelMm", choice.LongestSetAtTravelMm);
        }
        json.WriteNumber("capacityTeeth", choice.CapacityTeeth);
        json.Figure("cageTakesMm", choice.CageTakesMm);
        json.WriteNumber("missingPitches", choice.MissingPitches);
        json.Gears("lockOut", choice.LockOut);
        json.WriteStartArray("leftOut");
        foreach (var gear in choice.LeftOut)
        {
            json.WriteStartObject();
            json.Gear(gear.Gear);
            json.WriteString("state", JsonAnswer.Name(gear.State));
            json.WriteString("blame", JsonAnswer.Name(gear.Blame));
            json.Figure("shortfallMm", gear.ShortfallMm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.Sentences("reasons", Explanation.Reasons(bike.Spec, choice));
        json.Assumed(bike.Spec.Assumptions);
    }

    private static void Numbers(Utf8JsonWriter json, ChainNumbers numbers)
    {
        json.Figure("directLargestPitches", numbers.DirectLargestPitches);
        json.WriteNumber("benchRule", numbers.BenchRule);
        json.Count("shortestSafe", numbers.ShortestSafe);
        json.Count("longestSafe", numbers.LongestSafe);
        json.Count("recommended", numbers.Recommended);
    }
}
