using System.Globalization;
using Cogwright.Drivetrain.Bench;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>What the bench says, for a person at a terminal.</summary>
internal static class BenchFitScreen
{
    /// <summary>More than this many further readings is no advice any more.</summary>
    private const int MostFurther = 5;

    internal static void Write(IAnsiConsole console, Bike bike, BenchFit fit)
    {
        var words = BenchWords.Of(fit);
        Screen.Heading(console, bike.Spec.Name);
        if (fit.Status == BenchFitStatus.Fitted)
        {
            Screen.Line(console, words.What);
            Screen.Line(console, words.WhatToDo);
        }
        else
        {
            Screen.Problem(console, words.What, words.WhatToDo);
        }
        ClearanceScreen.Head(console, bike);
        if (fit.Gaps.IsEmpty)
        {
            return;
        }
        console.Write(Gaps(fit));
        console.Write(Readings(fit));
        console.Write(Parameters(fit));
        foreach (var sentence in BenchWords.LeftOut(fit))
        {
            Screen.Line(console, sentence);
        }
        Loose(console, fit);
        Further(console, fit);
        Screen.Fitted(console, bike.Spec);
        Screen.Assumed(console, bike.Spec);
    }

    private static Table Gaps(BenchFit fit)
    {
        var table = Screen.Table(
            Texts.Get("column.gear"),
            Texts.Get("column.state"),
            Texts.Get("column.gap"),
            Texts.Get("column.u"),
            Texts.Get("column.guideForward"),
            Texts.Get("column.guideUp")
        );
        foreach (var gap in fit.Gaps)
        {
            table.AddRow(
                Screen.Strong($"{gap.Gear.RingTeeth}/{gap.Gear.CogTeeth}"),
                Screen.Plain(Texts.Get($"state.{gap.State}")),
                Screen.Number(gap.GapMm, 1),
                Screen.Number(gap.GapUncertaintyMm, 2),
                Screen.Number(gap.GuideForwardUncertaintyMm, 2),
                Screen.Number(gap.GuideUpUncertaintyMm, 2)
            );
        }
        return table;
    }

    private static Table Readings(BenchFit fit)
    {
        var table = Screen.Table(
            Texts.Get("column.measured"),
            Texts.Get("column.read"),
            Texts.Get("column.u"),
            Texts.Get("column.model"),
            Texts.Get("column.readLessModel"),
            Texts.Get("column.inU")
        );
        for (var i = 0; i < fit.Readings.Length; i++)
        {
            var reading = fit.Readings[i];
            var mark = fit.WorstReading == i ? "! " : "";
            table.AddRow(
                Screen.Plain(mark + BenchWords.Of(reading.Reading.Place)),
                Screen.Number(reading.Reading.ValueMm, 1),
                Screen.Number(reading.Reading.UncertaintyMm, 2),
                Screen.Number(reading.ModelMm, 1),
                Screen.Number(reading.ResidualMm, 2),
                Screen.Number(reading.ResidualInU, 1)
            );
        }
        return table;
    }

    private static Table Parameters(BenchFit fit)
    {
        var table = Screen.Table(
            Texts.Get("column.parameter"),
            Texts.Get("column.value"),
            Texts.Get("column.u"),
            Texts.Get("column.unit"),
            Texts.Get("column.classValue"),
            Texts.Get("column.origin")
        );
        foreach (var parameter in fit.Parameters)
        {
            var isAngle = BenchUnits.IsAngle(parameter.Parameter);
            var toEdge = isAngle ? Screen.Degrees(1) : 1;
            table.AddRow(
                Screen.Plain(BenchWords.Of(parameter.Parameter)),
                Screen.Number(parameter.Value * toEdge, 2),
                Screen.Number(parameter.Uncertainty * toEdge, 2),
                Screen.Plain(isAngle ? "°" : "mm"),
                Screen.Number(parameter.PriorValue * toEdge, 2),
                Screen.Plain(Texts.Get($"origin.{parameter.Origin}"))
            );
        }
        return table;
    }

    private static void Loose(IAnsiConsole console, BenchFit fit)
    {
        if (fit.NotIdentified.IsEmpty)
        {
            return;
        }
        Screen.Heading(console, Texts.Get("measure.loose"));
        foreach (var direction in fit.NotIdentified)
        {
            var parts = direction.Parts.Select(part =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{BenchWords.Of(part.Parameter)} ({part.Weight:+0.0;-0.0})"
                )
            );
            Screen.Line(
                console,
                Texts.Get("measure.looseLine", string.Join(", ", parts), direction.GapEffectMm)
            );
        }
    }

    private static void Further(IAnsiConsole console, BenchFit fit)
    {
        if (fit.Further.IsEmpty)
        {
            return;
        }
        Screen.Heading(console, Texts.Get("measure.further", fit.GapUncertaintyMm));
        foreach (var further in fit.Further.Take(MostFurther))
        {
            Screen.Line(
                console,
                Texts.Get(
                    "measure.furtherLine",
                    BenchWords.Of(further.Place),
                    further.GapUncertaintyMm
                )
            );
        }
    }
}
