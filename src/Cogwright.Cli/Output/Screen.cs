using System.Globalization;
using Cogwright.Drivetrain;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>Plain pieces of what a person reads on the terminal. Text is never taken for markup.</summary>
internal static class Screen
{
    /// <summary>Width of a line in a file or a pipe (characters).</summary>
    internal const int FileWidth = 160;

    internal static Text Plain(string text) => new(text);

    internal static Text Strong(string text) => new(text, new Style(decoration: Decoration.Bold));

    internal static Text Faint(string text) => new(text, new Style(decoration: Decoration.Dim));

    /// <summary>A number with so many decimals, or a dash where there is none.</summary>
    internal static Text Number(double value, int decimals) =>
        new(
            double.IsNaN(value)
                ? "–"
                : value.ToString(
                    "F" + decimals.ToString(CultureInfo.InvariantCulture),
                    CultureInfo.InvariantCulture
                )
        )
        {
            Justification = Justify.Right,
        };

    internal static double Degrees(double radians) => radians * 180 / Math.PI;

    internal static void Line(IAnsiConsole console, string text) =>
        console.Write(new Text(text + "\n"));

    internal static void Heading(IAnsiConsole console, string text) =>
        console.Write(new Text(text + "\n", new Style(decoration: Decoration.Bold)));

    internal static void Problem(IAnsiConsole console, string what, string? hint)
    {
        console.Write(new Text(what + "\n", new Style(Color.Red)));
        if (hint is not null)
        {
            Line(console, hint);
        }
    }

    internal static Table Table(params ReadOnlySpan<string> headings)
    {
        var table = new Table { Border = TableBorder.Simple };
        foreach (var heading in headings)
        {
            table.AddColumn(new TableColumn(new Text(heading)) { NoWrap = false });
        }
        return table;
    }

    /// <summary>The values that were found from measurements.</summary>
    internal static void Fitted(IAnsiConsole console, DrivetrainSpec spec)
    {
        if (spec.Fitted.IsEmpty)
        {
            return;
        }
        Heading(console, Texts.Get("fitted.heading"));
        foreach (var value in spec.Fitted)
        {
            Line(console, Texts.Get("fitted.line", value.Path, value.Value));
        }
    }

    /// <summary>The values nobody measured, which stay marked on every output.</summary>
    internal static void Assumed(IAnsiConsole console, DrivetrainSpec spec)
    {
        if (spec.Assumptions.IsEmpty)
        {
            return;
        }
        Heading(console, Texts.Get("assumed.heading"));
        foreach (var value in spec.Assumptions)
        {
            Line(console, Texts.Get("assumed.line", value.Path, value.Value, value.From));
        }
    }
}
