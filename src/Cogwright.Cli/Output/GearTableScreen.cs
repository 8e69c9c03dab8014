using Cogwright.Drivetrain;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The gear table for a person at a terminal.</summary>
internal static class GearTableScreen
{
    internal static void Write(IAnsiConsole console, Bike bike)
    {
        Screen.Heading(console, bike.Spec.Name);
        Head.Fit(console, bike);
        ClearanceScreen.Write(console, bike);
        Screen.Line(
            console,
            Texts.Get(
                $"pitches.{bike.PitchesFrom}",
                bike.Table.Pitches,
                (bike.Table.Pitches + 1) / 2,
                bike.Table.Pitches / 2
            )
        );
        if (bike.Table.SetUp is { } setUp)
        {
            Screen.Line(
                console,
                Texts.Get(
                    setUp.IsSet ? "setUp.set" : "setUp.notSet",
                    Screen.Degrees(bike.Table.BodyAngleRad),
                    setUp.Gear.RingTeeth,
                    setUp.Gear.CogTeeth
                )
            );
        }
        if (bike.Spec.Frame.Suspension is { } suspension)
        {
            Screen.Line(
                console,
                Texts.Get(
                    Growth(bike.Spec, $"travel.{suspension.TravelMeans}"),
                    bike.Table.TravelMm,
                    suspension.TravelMm,
                    bike.Table.AxlePose.AxleToBracketMm - bike.Spec.Frame.Axle.Length
                )
            );
        }
        MountScreen.Write(console, bike);
        console.Write(bike.Spec.RearDerailleur is null ? Direct(bike.Table) : WithDerailleur(bike));
        FrontScreen.Write(console, bike);
        Findings(console, bike);
        Screen.Fitted(console, bike.Spec);
        Screen.Assumed(console, bike.Spec);
    }

    private static Table WithDerailleur(Bike bike)
    {
        var table = bike.Table;
        var screen = Screen.Table(
            Texts.Get("column.gear"),
            Texts.Get("column.state"),
            Texts.Get("column.gap"),
            Texts.Get("column.cageAngle"),
            Texts.Get("column.mesh"),
            Texts.Get("column.swing"),
            Texts.Get("column.chainAngle"),
            Texts.Get("column.nextRing"),
            Texts.Get("column.tight"),
            Texts.Get("column.loose"),
            Texts.Get("column.needs"),
            Texts.Get("column.takes"),
            Texts.Get("column.tension")
        );
        MountScreen.AddColumns(screen, table);
        var ring = -1;
        foreach (var gear in table.Gears)
        {
            if (ring >= 0 && gear.RingIndex != ring)
            {
                screen.AddEmptyRow();
            }
            ring = gear.RingIndex;
            screen.AddRow([
                Screen.Strong($"{gear.Gear.RingTeeth}/{gear.Gear.CogTeeth}"),
                State(gear),
                Gap(gear, bike.GapUncertaintyMm(gear.Gear)),
                Screen.Number(Screen.Degrees(gear.CageAngleRad), 1),
                Screen.Number(gear.CogTeethInMesh, 1),
                Screen.Number(Screen.Degrees(gear.SwingRad), 1),
                Screen.Number(Screen.Degrees(gear.ChainAngleRad), 1),
                Screen.Number(RingRub.ClearanceMm(table.Spec, gear), 1),
                Screen.Number(gear.TightMarginMm, 0),
                Screen.Number(gear.LooseMarginMm, 0),
                Screen.Number(gear.NeedsAtFrontStop, 1),
                Screen.Number(gear.TakesAtRearStop, 1),
                Screen.Number(gear.LowerRunTensionN, 0),
                .. MountScreen.Cells(table, gear),
            ]);
        }
        return screen;
    }

    /// <summary>The gap, with its standard uncertainty where the mechanism was measured.</summary>
    private static Text Gap(in GearResult gear, double? uncertaintyMm) =>
        uncertaintyMm is { } u
            ? new(Texts.Get("gap.withU", gear.GapMm, u)) { Justification = Justify.Right }
            : Screen.Number(gear.GapMm, 1);

    private static Table Direct(GearTable table)
    {
        var screen = Screen.Table(
            Texts.Get("column.gear"),
            Texts.Get("column.state"),
            Texts.Get("column.axleMoved"),
            Texts.Get("column.mesh"),
            Texts.Get("column.chainAngle"),
            Texts.Get("column.needs"),
            Texts.Get("column.takes")
        );
        foreach (var gear in table.Gears)
        {
            screen.AddRow(
                Screen.Strong($"{gear.Gear.RingTeeth}/{gear.Gear.CogTeeth}"),
                State(gear),
                Screen.Number(gear.AxleMovedMm, 1),
                Screen.Number(gear.CogTeethInMesh, 1),
                Screen.Number(Screen.Degrees(gear.ChainAngleRad), 1),
                Screen.Number(gear.NeedsAtFrontStop, 2),
                Screen.Number(gear.TakesAtRearStop, 2)
            );
        }
        return screen;
    }

    /// <summary>The state in a word with a sign before it, so that colour is never alone.</summary>
    private static Text State(in GearResult gear)
    {
        var word = Texts.Get($"state.{gear.State}");
        return gear.State == GearState.Ok
            ? new(word)
            : new(word, new Style(Color.Red, decoration: Decoration.Bold));
    }

    /// <summary>With an idler the way from axle to bottom bracket is not what the chain grows by: it is then called what it is.</summary>
    internal static string Growth(DrivetrainSpec spec, string key) =>
        spec.Idler is null ? key : $"{key}.idler";

    /// <summary>One line that there is something to look at, where it is not told what.</summary>
    internal static void SeeFindings(IAnsiConsole console, Bike bike)
    {
        if (!bike.Findings.IsEmpty)
        {
            Screen.Line(
                console,
                Texts.Get(
                    bike.Findings.Length == 1 ? "findings.see.one" : "findings.see",
                    bike.Findings.Length
                )
            );
        }
    }

    internal static void Findings(IAnsiConsole console, Bike bike)
    {
        if (bike.Findings.IsEmpty)
        {
            Screen.Line(
                console,
                Texts.Get(
                    bike.Clearances.SpokesUnknown ? "findings.noneSpokesUnknown" : "findings.none"
                )
            );
            return;
        }
        Screen.Heading(console, Texts.Get("findings.heading"));
        var said = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (finding, words) in Explanation.Of(bike.Findings, bike.WordsOf, bike.Spec))
        {
            var note = finding.NotUsed ? Texts.Get("findings.notUsed") : "";
            // The same advice is given once, with the first gear that needs it.
            var toDo = said.Add(words.WhatToDo) ? $" {words.WhatToDo}" : "";
            Screen.Line(console, $"• {words.What}{note}{toDo}");
        }
    }
}
