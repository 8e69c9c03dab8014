using System.Text.Json;
using Cogwright.Drivetrain.Bench;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>
/// What stands before everything else: the bike's name, that its bench readings give no mechanism, and the room to the
/// spokes in one line where it is not told in full.
/// </summary>
internal static class Head
{
    /// <summary>Name, fit and the worst room to the spokes.</summary>
    internal static void Show(IAnsiConsole console, Bike bike)
    {
        Screen.Heading(console, bike.Spec.Name);
        Fit(console, bike);
        ClearanceScreen.Head(console, bike);
    }

    /// <summary>The same as JSON.</summary>
    internal static void Write(Utf8JsonWriter json, Bike bike)
    {
        json.WriteString("name", bike.Spec.Name);
        Fit(json, bike);
        ClearanceJson.Head(json, bike);
    }

    /// <summary>Says in the words of <c>measure</c> that the readings give no sure mechanism; nothing when they do.</summary>
    internal static void Fit(IAnsiConsole console, Bike bike)
    {
        if (bike.Fit is { } fit && bike.FitFailed)
        {
            var words = BenchWords.Of(fit);
            Screen.Problem(console, words.What, words.WhatToDo);
        }
    }

    /// <summary>How the fit ended, when the spec holds measurements.</summary>
    internal static void Fit(Utf8JsonWriter json, Bike bike)
    {
        if (bike.Fit is { } fit)
        {
            json.WriteString("fit", JsonAnswer.Name(fit.Status));
        }
    }
}
