using System.Collections.Immutable;
using System.Globalization;
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
        ReadingsIntake taken,
        HangerResult? hanger,
        IndexResult? index
    )
    {
        Head.Show(console, bike);
        Write(console, results, taken, _ => true);
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

    /// <summary>The readings alone, or some of them.</summary>
    internal static void Write(
        IAnsiConsole console,
        ImmutableArray<ReadingResult> results,
        ReadingsIntake taken,
        Func<ReadingResult, bool> which
    )
    {
        // What is outside its target is read first; readings that only count together are named in one line.
        foreach (var i in Enumerable.Range(0, results.Length).OrderBy(i => Rank(results[i])))
        {
            if (which(results[i]) && results[i].Status is not ReadingStatus.OneOfSeveral)
            {
                Write(console, results[i], taken.Assumed[i], taken.Places[i]);
            }
        }
        Together(console, results, taken.Assumed);
    }

    /// <summary>Readings that the command does not judge, named in one line.</summary>
    internal static void Others(IAnsiConsole console, IEnumerable<ReadingResult> results)
    {
        var names = string.Join(", ", results.Select(Short));
        if (names.Length > 0)
        {
            Screen.Line(console, Texts.Get("reading.others", names));
            console.WriteLine();
        }
    }

    private static int Rank(ReadingResult result) =>
        result.Judgement?.Verdict == Measurement.Verdict.Outside ? 0 : 1;

    private static void Together(
        IAnsiConsole console,
        ImmutableArray<ReadingResult> results,
        ImmutableArray<bool> assumed
    )
    {
        var together = Enumerable
            .Range(0, results.Length)
            .Where(i => results[i].Status is ReadingStatus.OneOfSeveral)
            .ToList();
        if (together.Count == 0)
        {
            return;
        }
        Screen.Line(
            console,
            Texts.Get(
                "reading.together",
                string.Join(", ", together.Select(i => Short(results[i])))
            )
        );
        foreach (
            var alike in together
                .Where(i => assumed[i])
                .Select(i => (results[i].Taken.Reading.StandardUncertainty, results[i].Unit))
                .Distinct()
        )
        {
            Screen.Line(
                console,
                Texts.Get("reading.assumed", Amount(alike.StandardUncertainty, alike.Unit))
            );
        }
        console.WriteLine();
    }

    private static string Short(ReadingResult result) =>
        Texts.Get(
            "reading.short",
            result.Taken.Quantity,
            result.Taken.Gear is { } gear ? $" {gear.RingTeeth}/{gear.CogTeeth}" : "",
            Amount(result.Taken.Reading.Value, result.Unit)
        );

    /// <summary>A figure with its unit; of a quantity that nobody knows there is none.</summary>
    private static string Amount(double value, string unit) =>
        string.Create(CultureInfo.InvariantCulture, $"{value:0.##} {unit}").TrimEnd();

    private static void Write(
        IAnsiConsole console,
        ReadingResult result,
        bool assumed,
        ReadingPlace place
    )
    {
        var what = result.Target?.Title ?? result.Taken.Quantity;
        var gear = result.Taken.Gear is { } g ? $" {g.RingTeeth}/{g.CogTeeth}" : "";
        console.Write(
            new Text(
                Texts.Get(
                    "reading.head",
                    what,
                    gear,
                    Amount(result.Taken.Reading.Value, result.Unit)
                ) + " ",
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
        // Of a quantity that nobody knows no uncertainty is known either.
        if (assumed && result.Unit.Length > 0)
        {
            Screen.Line(
                console,
                Texts.Get(
                    "reading.assumed",
                    Amount(result.Taken.Reading.StandardUncertainty, result.Unit)
                )
            );
        }
        if (result is { Status: ReadingStatus.Asked, Target: null })
        {
            Screen.Line(console, $"  {place.InWords}");
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
        console.WriteLine();
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
