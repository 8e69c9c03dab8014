using System.Collections.Immutable;
using Cogwright.Setup;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>Judged readings for a person at a terminal: verdict, what to do, what will then hold.</summary>
internal static class ReadingScreen
{
    internal static void Write(
        IAnsiConsole console,
        Bike bike,
        ImmutableArray<ReadingResult> results,
        ImmutableArray<bool> assumed,
        HangerResult? hanger,
        IndexResult? index
    )
    {
        Screen.Heading(console, bike.Spec.Name);
        for (var i = 0; i < results.Length; i++)
        {
            Write(console, results[i], assumed[i]);
        }
        if (hanger is not null)
        {
            HangerScreen.Write(console, hanger);
        }
        if (index is not null)
        {
            IndexScreen.Write(console, index);
        }
        Screen.Assumed(console, bike.Spec);
    }

    private static void Write(IAnsiConsole console, ReadingResult result, bool assumed)
    {
        var what = result.Target?.Title ?? result.Taken.Quantity;
        var gear = result.Taken.Gear is { } g ? $" {g.RingTeeth}/{g.CogTeeth}" : "";
        console.Write(
            new Text(
                Texts.Get("reading.head", what, gear, result.Taken.Reading.Value, result.Unit)
                    + " ",
                new Style(decoration: Decoration.Bold)
            )
        );
        console.Write(
            result.Judgement is null
                ? new Text(Texts.Get($"readingStatus.{result.Status}"))
                : Verdict(result.Judgement)
        );
        console.WriteLine();
        foreach (var sentence in result.Sentences)
        {
            Screen.Line(console, $"  {sentence}");
        }
        if (assumed)
        {
            Screen.Line(
                console,
                Texts.Get("reading.assumed", result.Taken.Reading.StandardUncertainty, result.Unit)
            );
        }
        foreach (var question in result.Questions)
        {
            Screen.Line(console, $"  ? {question}");
        }
        if (result.Target?.Caution is { Length: > 0 } caution && !result.ToDo.IsEmpty)
        {
            Screen.Line(console, $"  ⚠ {caution}");
        }
        foreach (var step in result.ToDo)
        {
            console.Write(new Text($"  → {step}\n", new Style(decoration: Decoration.Bold)));
        }
        if (!result.After.IsEmpty)
        {
            Screen.Line(console, Texts.Get("reading.after"));
            foreach (var line in result.After)
            {
                Screen.Line(console, $"    {line}");
            }
        }
        if (result.Status is not ReadingStatus.OneOfSeveral)
        {
            console.WriteLine();
        }
    }

    /// <summary>A verdict in a word with a sign before it, empty when nothing was judged.</summary>
    internal static Text Verdict(Measurement.Judgement? judgement) =>
        judgement?.Verdict switch
        {
            Measurement.Verdict.Within => new(Texts.Get("verdict.Within"), new Style(Color.Green)),
            Measurement.Verdict.Outside => new(
                Texts.Get("verdict.Outside"),
                new Style(Color.Red, decoration: Decoration.Bold)
            ),
            Measurement.Verdict.TooCloseToCall => new(
                Texts.Get("verdict.TooCloseToCall"),
                new Style(Color.Yellow)
            ),
            _ => new(""),
        };
}
