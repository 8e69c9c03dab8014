using System.Globalization;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The index of every cog for a person at a terminal.</summary>
internal static class IndexScreen
{
    internal static void Write(IAnsiConsole console, IndexResult index)
    {
        Screen.Heading(console, Texts.Get("index.heading"));
        if (index.Model is { } model)
        {
            console.Write(Model(model));
        }
        if (index.Read is { } read)
        {
            console.Write(Read(read));
        }
        HangerScreen.Lines(console, index.Sentences, index.Questions, index.ToDo);
    }

    private static Table Model(IndexFacts model)
    {
        var screen = Screen.Table(
            Texts.Get("column.cog"),
            Texts.Get("column.wanted"),
            Texts.Get("column.pulley"),
            Texts.Get("column.click"),
            Texts.Get("column.clickError"),
            Texts.Get("column.cumulative"),
            Texts.Get("column.residual"),
            ""
        );
        foreach (var cog in model.Cogs)
        {
            screen.AddRow(
                Screen.Strong(cog.CogTeeth.ToString(CultureInfo.InvariantCulture)),
                Screen.Number(cog.WantedMm, 2),
                Screen.Number(cog.PulleyMm, 2),
                Screen.Number(cog.ClickMm ?? double.NaN, 2),
                Signed(cog.ClickErrorMm),
                Signed(cog.CumulativeErrorMm),
                Signed(cog.ResidualMm),
                Screen.Plain(Texts.Get(cog.IsFine ? "index.cog.fine" : "index.cog.off"))
            );
        }
        return screen;
    }

    private static Table Read(IndexRead read)
    {
        var screen = Screen.Table(
            Texts.Get("column.cog"),
            Texts.Get("column.up"),
            Texts.Get("column.down"),
            Texts.Get("column.deadBand"),
            Texts.Get("column.middle"),
            Texts.Get("column.afterTurn")
        );
        foreach (var cog in read.Cogs)
        {
            screen.AddRow(
                Screen.Strong(cog.CogTeeth.ToString(CultureInfo.InvariantCulture)),
                Signed(cog.UpMm),
                Signed(cog.DownMm),
                Signed(cog.DeadBandMm),
                Signed(cog.MiddleMm),
                Signed(cog.AfterMm)
            );
        }
        return screen;
    }

    /// <summary>A distance with its sign, outboard positive, or a dash.</summary>
    private static Text Signed(double? mm) =>
        new(mm?.ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture) ?? "–")
        {
            Justification = Justify.Right,
        };
}
