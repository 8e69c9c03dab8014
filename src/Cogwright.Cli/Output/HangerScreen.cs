using System.Collections.Immutable;
using Cogwright.Setup;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The hanger for a person at a terminal.</summary>
internal static class HangerScreen
{
    internal static void Write(IAnsiConsole console, HangerResult hanger)
    {
        console.Write(
            new Text(Texts.Get("hanger.heading") + " ", new Style(decoration: Decoration.Bold))
        );
        console.Write(ReadingScreen.Verdict(hanger.Judgement));
        console.WriteLine();
        Lines(console, hanger.Sentences, hanger.Questions, hanger.ToDo);
    }

    /// <summary>What holds, what to ask, what to do.</summary>
    internal static void Lines(
        IAnsiConsole console,
        ImmutableArray<string> sentences,
        ImmutableArray<string> questions,
        ImmutableArray<string> toDo
    )
    {
        foreach (var sentence in sentences)
        {
            Screen.Line(console, $"  {sentence}");
        }
        foreach (var question in questions)
        {
            Screen.Line(console, $"  ? {question}");
        }
        foreach (var step in toDo)
        {
            console.Write(new Text($"  → {step}\n", new Style(decoration: Decoration.Bold)));
        }
        console.WriteLine();
    }
}
