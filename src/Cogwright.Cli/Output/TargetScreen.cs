using System.Collections.Immutable;
using System.Globalization;
using Cogwright.Setup;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The targets for a person at a terminal, stage by stage.</summary>
internal static class TargetScreen
{
    internal static void Write(IAnsiConsole console, Bike bike, ImmutableArray<Target> targets)
    {
        Head.Show(console, bike);
        foreach (var stage in targets.GroupBy(target => target.Stage))
        {
            Screen.Heading(console, StageTitles.Of(stage.Key, bike.Work.Actuation, bike.Catalogue));
            foreach (
                var caution in stage.Select(target => target.Caution).OfType<string>().Distinct()
            )
            {
                console.Write(new Text($"  ⚠ {caution}\n", new Style(Color.Yellow)));
            }
            var screen = Screen.Table(
                Texts.Get("column.what"),
                Texts.Get("column.target"),
                Texts.Get("column.gear"),
                Texts.Get("column.convention"),
                Texts.Get("column.tool"),
                Texts.Get("column.source")
            );
            foreach (var target in stage)
            {
                screen.AddRow(
                    Screen.Plain(target.Title),
                    Screen.Strong(Amount(target)),
                    Screen.Plain(
                        target.Gear is { } gear ? $"{gear.RingTeeth}/{gear.CogTeeth}" : ""
                    ),
                    Screen.Plain(target.Convention),
                    Screen.Plain(target.Tool ?? ""),
                    Screen.Plain(Texts.Get($"source.{target.Source}"))
                );
            }
            console.Write(screen);
        }
        GearTableScreen.SeeFindings(console, bike);
        Screen.Assumed(console, bike.Spec);
    }

    /// <summary>The aim and its bounds with their unit, as short as can be.</summary>
    internal static string Amount(Target target)
    {
        var bounds = (target.Lower, target.Upper) switch
        {
            ({ } lower, { } upper) when Figure(lower) == Figure(upper) => Figure(upper),
            ({ } lower, { } upper) => $"{Figure(lower)} – {Figure(upper)}",
            ({ } lower, null) => $"≥ {Figure(lower)}",
            (null, { } upper) => $"≤ {Figure(upper)}",
            _ => target.Value is { } value ? Figure(value) : "",
        };
        return bounds.Length == 0 ? "" : $"{bounds} {target.Unit}".TrimEnd();
    }

    private static string Figure(double value) =>
        value.ToString("0.##", CultureInfo.InvariantCulture);
}
