using Cogwright.Drivetrain;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The room to spokes and frame for a person at a terminal; it stands before everything else.</summary>
internal static class ClearanceScreen
{
    internal static void Write(IAnsiConsole console, Bike bike)
    {
        var report = bike.Clearances;
        Screen.Heading(console, Texts.Get("clearances.heading"));
        var said = new HashSet<string>(StringComparer.Ordinal);
        foreach (var clearance in report.All)
        {
            var words = LateralWords.Of(clearance, report);
            // What is asked for, or warned of, more than once is told with the first thing that needs it.
            var toDo = said.Add(words.WhatToDo) ? words.WhatToDo : "";
            Line(console, clearance.Verdict, words.What, toDo);
        }
        if (LateralWords.KnockToSpokes(report) is { } knock)
        {
            Screen.Line(console, $"• {knock}");
        }
        foreach (var stop in (StopReach?[])[report.Inboard, report.Outboard])
        {
            if (stop is not null)
            {
                Stop(console, stop);
            }
        }
    }

    /// <summary>
    /// The worst of them, what the command line asked for if that is another, and each loose stop: whatever of it ends a
    /// run with 1 is told.
    /// </summary>
    internal static void Head(IAnsiConsole console, Bike bike)
    {
        var report = bike.Clearances;
        Clearance?[] told =
        [
            report.Worst,
            bike.Tilt is null ? null : report.Find(ClearanceKind.CageTilted),
            bike.Knock is null ? null : report.Find(ClearanceKind.CageKnocked),
        ];
        foreach (var clearance in told.OfType<Clearance>().DistinctBy(one => one.Kind))
        {
            var words = LateralWords.Of(clearance, report);
            Line(console, clearance.Verdict, words.What, words.WhatToDo);
        }
        foreach (var stop in LooseStops(report))
        {
            Stop(console, stop);
        }
    }

    /// <summary>The stops that let the chain past the end cog.</summary>
    internal static IEnumerable<StopReach> LooseStops(ClearanceReport report) =>
        ((StopReach?[])[report.Inboard, report.Outboard])
            .OfType<StopReach>()
            .Where(stop => stop.IsLoose);

    private static void Stop(IAnsiConsole console, StopReach stop)
    {
        var words = LateralWords.Of(stop);
        Line(
            console,
            stop.IsLoose ? ClearanceVerdict.Close : ClearanceVerdict.Clear,
            words.What,
            words.WhatToDo
        );
    }

    /// <summary>The verdict stands in words in the sentence; colour and weight only repeat it.</summary>
    private static void Line(
        IAnsiConsole console,
        ClearanceVerdict verdict,
        string what,
        string whatToDo
    )
    {
        var style = verdict switch
        {
            ClearanceVerdict.Clear => Style.Plain,
            ClearanceVerdict.CannotSay => new Style(decoration: Decoration.Bold),
            _ => new Style(Color.Red, decoration: Decoration.Bold),
        };
        console.Write(new Text($"• {what} {whatToDo}".TrimEnd() + "\n", style));
    }
}
