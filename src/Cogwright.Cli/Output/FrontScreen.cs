using Cogwright.Drivetrain;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The front derailleur for a person at a terminal: its settings, and where the chain rubs in the cage.</summary>
internal static class FrontScreen
{
    internal static void Write(IAnsiConsole console, Bike bike)
    {
        if (FrontClearances.Of(bike.Table) is not { } report)
        {
            return;
        }
        Screen.Heading(console, Texts.Get("front.heading"));
        foreach (var setting in report.Settings)
        {
            var toDo = bike.Correction(setting) is { } correction
                ? " " + FrontWords.Of(correction)
                : "";
            Screen.Line(console, $"• {FrontWords.Of(setting)}{toDo}");
        }
        var screen = Screen.Table(
            Texts.Get("column.gear"),
            Texts.Get("column.innerPlate"),
            Texts.Get("column.outerPlate"),
            Texts.Get("column.bridge"),
            Texts.Get("column.rubs")
        );
        foreach (var gear in report.Gears)
        {
            screen.AddRow(
                Screen.Strong($"{gear.Gear.RingTeeth}/{gear.Gear.CogTeeth}"),
                Room(gear.Own?.InnerPlateMm),
                Room(gear.Own?.OuterPlateMm),
                Room(gear.Own?.BridgeMm),
                Rub(gear)
            );
        }
        console.Write(screen);
    }

    /// <summary>With one decimal; what rounds to nothing has no sign.</summary>
    private static Text Room(double? mm) => Screen.Number(Math.Round(mm ?? double.NaN, 1) + 0.0, 1);

    private static Text Rub(FrontGear gear)
    {
        var notUsed = gear.NotUsed ? Texts.Get("front.notUsed") : "";
        return gear.TrimClears switch
        {
            null => new(notUsed),
            true => new(
                Texts.Get("front.trimmed", FrontWords.Touched(gear.Own!.Value.Rubs)) + notUsed
            ),
            false => new(
                Texts.Get("front.rubs", FrontWords.Touched(gear.Own!.Value.Rubs)) + notUsed,
                new Style(Color.Red, decoration: Decoration.Bold)
            ),
        };
    }
}
