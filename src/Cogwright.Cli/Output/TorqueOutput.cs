using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Cogwright.Fastening;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>The walk round for a person at a terminal, station by station, and for programs.</summary>
internal static class TorqueOutput
{
    internal static void Show(
        IAnsiConsole console,
        Bike bike,
        ImmutableArray<TorqueLine> lines,
        TorqueUnit unit
    )
    {
        Head.Show(console, bike);
        Screen.Heading(console, Texts.Get("torque.heading"));
        foreach (var station in lines.GroupBy(line => line.Stop.Place.Station))
        {
            Screen.Heading(console, WalkRound.TitleOf(station.Key));
            foreach (
                var caution in station.Select(line => line.Caution).OfType<string>().Distinct()
            )
            {
                console.Write(new Text($"  ⚠ {caution}\n", new Style(Color.Yellow)));
            }
            var table = Screen.Table(
                Texts.Get("column.fastener"),
                Texts.Get("column.torque"),
                Texts.Get("column.source"),
                Texts.Get("column.thread")
            );
            foreach (var line in station)
            {
                table.AddRow(
                    Screen.Plain(
                        line.Stop.Place.Bolts > 1
                            ? Texts.Get("torque.bolts", line.Stop.Title, line.Stop.Place.Bolts)
                            : line.Stop.Title
                    ),
                    Screen.Strong(Amount(line.Stop.Figure.Range, unit)),
                    Screen.Plain(Texts.Get($"torqueSource.{line.Stop.Figure.Source}")),
                    Screen.Plain(
                        line.Stop.Fastener.Thread is { } thread
                            ? $"{thread}, {line.Treatment.Title}"
                            : line.Treatment.Title
                    )
                );
            }
            console.Write(table);
            foreach (var line in station)
            {
                Behind(console, line);
            }
        }
        Screen.Line(console, Texts.Get("torque.caution"));
    }

    internal static void Write(
        Utf8JsonWriter json,
        ImmutableArray<TorqueLine> lines,
        TorqueUnit unit
    )
    {
        json.WriteString("unit", unit.Symbol);
        json.WriteStartArray("walkRound");
        foreach (var line in lines)
        {
            json.WriteStartObject();
            Write(json, line, unit);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    /// <summary>The range with its unit; a dash when there is none. Never more than the upper limit nor less than the lower.</summary>
    private static string Amount(TorqueRange? range, TorqueUnit unit)
    {
        if (range is null)
        {
            return "–";
        }
        var (lower, upper) = (Figure(range.LowerNm, up: true), Figure(range.UpperNm, up: false));
        return lower == upper || range.IsSingleFigure
            ? $"{lower} {unit.Symbol}"
            : $"{lower} – {upper} {unit.Symbol}";

        string Figure(double valueNm, bool up)
        {
            // A whole figure that the unit's factor has made 44.99999999999999 is still that figure.
            var value = Math.Round(unit.FromNm(valueNm), 9);
            var hundredths = up ? Math.Ceiling(value * 100) : Math.Floor(value * 100);
            return (hundredths / 100).ToString("0.##", CultureInfo.InvariantCulture);
        }
    }

    private static void Behind(IAnsiConsole console, TorqueLine line)
    {
        if (line.FigureNote is { } figure)
        {
            Screen.Line(console, Texts.Get("torque.behind", line.Stop.Title, figure));
        }
        foreach (var note in line.Stop.Notes)
        {
            Screen.Line(console, Texts.Get("torque.behind", line.Stop.Title, note));
        }
        // One tool by itself is told whatever comes of it; of a shop the best, and those that suit as well.
        foreach (var answer in line.Tools.Where((answer, i) => i == 0 || Serves(answer)))
        {
            Screen.Line(
                console,
                Texts.Get(
                    "torque.toolLine",
                    line.Stop.Title,
                    answer.Tool.Name,
                    Texts.Get($"suitability.{answer.Suitability}"),
                    string.Join(' ', answer.Reasons.Select(reason => reason.Sentence))
                )
            );
        }
        if (line.Read is { } read)
        {
            Screen.Line(
                console,
                Texts.Get("torque.behind", line.Stop.Title, $"{read.What} {read.WhatToDo}".Trim())
            );
        }
        if (line.JointNotKnown)
        {
            Screen.Line(console, Texts.Get("torque.jointNotKnown", line.Stop.Title));
        }
        if (line.Joint is { } joint)
        {
            Screen.Line(
                console,
                Texts.Get(
                    joint.ProofUtilisation is null ? "torque.preload" : "torque.preload.proof",
                    line.Stop.Title,
                    joint.LeastPreloadN / 1000,
                    joint.GreatestPreloadN / 1000,
                    100 * joint.ProofUtilisation,
                    100 * joint.YieldUtilisation
                )
            );
            foreach (var warning in joint.Warnings)
            {
                console.Write(
                    new Text(
                        $"  ⚠ {Texts.Get("torque.behind", line.Stop.Title, warning.Sentence)}\n",
                        new Style(Color.Yellow)
                    )
                );
            }
        }
    }

    private static bool Serves(ToolAnswer answer) => answer.Suitability == Suitability.Suits;

    private static void Write(Utf8JsonWriter json, TorqueLine line, TorqueUnit unit)
    {
        var (stop, fastener) = (line.Stop, line.Stop.Fastener);
        json.WriteString("fastener", fastener.Id);
        json.WriteString("title", stop.Title);
        json.WriteString("station", JsonAnswer.Name(stop.Place.Station));
        json.WriteNumber("bolts", stop.Place.Bolts);
        json.WriteBoolean("leftHand", stop.Place.IsLeftHand);
        json.Figure("lower", unit.FromNm(stop.Figure.Range?.LowerNm ?? double.NaN));
        json.Figure("upper", unit.FromNm(stop.Figure.Range?.UpperNm ?? double.NaN));
        json.WriteString("source", JsonAnswer.Name(stop.Figure.Source));
        json.WriteString("conflict", stop.Figure.Conflict);
        json.WriteString("thread", fastener.Thread?.ToString());
        json.WriteString("treatment", line.Treatment.Id);
        json.WriteBoolean("safetyCritical", fastener.IsSafetyCritical);
        json.WriteBoolean("lookOnly", fastener.SettingsRestOnIt);
        json.WriteString("caution", line.Caution);
        json.WriteString("note", line.FigureNote);
        json.Sentences("notes", stop.Notes);
        json.WriteStartArray("tools");
        foreach (var answer in line.Tools)
        {
            json.WriteStartObject();
            json.WriteString("name", answer.Tool.Name);
            json.WriteString("class", answer.Tool.Class.Id);
            json.WriteString("suitability", JsonAnswer.Name(answer.Suitability));
            json.Figure("setting", unit.FromNm(answer.SettingNm ?? double.NaN));
            json.Figure("least", unit.FromNm(answer.LeastNm ?? double.NaN));
            json.Figure("most", unit.FromNm(answer.MostNm ?? double.NaN));
            json.WriteStartArray("reasons");
            foreach (var reason in answer.Reasons)
            {
                json.WriteStartObject();
                json.WriteString("kind", JsonAnswer.Name(reason.Kind));
                json.WriteString("weight", JsonAnswer.Name(reason.Weight));
                json.WriteString("what", reason.Sentence);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (line.Read is { } read)
        {
            json.WriteStartObject("reading");
            json.WriteString(
                "verdict",
                read.Verdict is { } verdict ? JsonAnswer.Name(verdict) : null
            );
            json.Figure("torque", unit.FromNm(read.Torque.Value));
            json.Figure("standardUncertainty", unit.FromNm(read.Torque.StandardUncertainty));
            json.WriteBoolean("showsLeastOnly", read.ShowsLeastOnly);
            json.WriteString("what", read.What);
            json.WriteString("whatToDo", read.WhatToDo);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("reading");
        }
        if (line.Joint is not { } joint)
        {
            json.WriteNull("preload");
            return;
        }
        json.WriteStartObject("preload");
        json.Figure("leastN", joint.LeastPreloadN);
        json.Figure("greatestN", joint.GreatestPreloadN);
        json.Figure("ofYield", joint.YieldUtilisation);
        json.Figure("ofProof", joint.ProofUtilisation);
        json.Figure("ofStripping", joint.StripUtilisation);
        json.Figure("ofPressure", joint.PressureUtilisation);
        json.Figure("bears", unit.FromNm(joint.BearableNm ?? double.NaN));
        json.WriteStartArray("warnings");
        foreach (var warning in joint.Warnings)
        {
            json.WriteStartObject();
            json.WriteString("kind", JsonAnswer.Name(warning.Kind));
            json.Figure("utilisation", warning.Utilisation);
            json.WriteString("what", warning.Sentence);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }
}
