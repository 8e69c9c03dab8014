using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Parts;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>What the rules say, the worst first.</summary>
internal static class CompatibilityOutput
{
    internal static void Show(IAnsiConsole console, ImmutableArray<RuleAnswer> answers)
    {
        var table = Screen.Table([
            Texts.Get("compat.column.answer"),
            Texts.Get("compat.column.what"),
            Texts.Get("compat.column.why"),
        ]);
        foreach (var answer in answers)
        {
            var word = Texts.Get($"compat.{answer.Answer}");
            table.AddRow(
                answer.Answer == Compatibility.Yes ? Screen.Plain(word) : Screen.Strong(word),
                Screen.Plain(answer.Title),
                Screen.Plain(
                    string.Join(
                        ' ',
                        new[]
                        {
                            answer.Sentence,
                            answer.WhatToDo,
                            answer.RestsOnAssumed ? Texts.Get("compat.assumed") : "",
                            answer.Accepted is { } accepted
                                ? Texts.Get("compat.accepted", accepted.By, accepted.Reason)
                                : "",
                        }.Where(words => words.Length > 0)
                    )
                )
            );
        }
        console.Write(table);
    }

    internal static void Write(Utf8JsonWriter json, RuleAnswer answer)
    {
        json.WriteString("rule", answer.RuleId);
        json.WriteString("answer", JsonAnswer.Name(answer.Answer));
        json.WriteString("title", answer.Title);
        json.WriteString("sentence", answer.Sentence);
        json.WriteString("whatToDo", answer.WhatToDo);
        json.Figure("reserve", answer.Reserve);
        json.Count("ring", answer.Gear?.RingTeeth);
        json.Count("cog", answer.Gear?.CogTeeth);
        json.WriteBoolean("restsOnAssumed", answer.RestsOnAssumed);
        json.WriteString("source", answer.Source);
        json.WriteBoolean("blocks", answer.Blocks);
        json.WriteBoolean("mayBeAccepted", answer.MayBeAccepted);
        json.WriteString("ground", answer.Ground);
        if (answer.Accepted is { } accepted)
        {
            json.WriteStartObject("accepted");
            Write(json, accepted);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("accepted");
        }
    }

    internal static void Write(
        Utf8JsonWriter json,
        string name,
        ImmutableArray<Deviation> deviations
    )
    {
        json.WriteStartArray(name);
        foreach (var deviation in deviations)
        {
            json.WriteStartObject();
            json.WriteString("rule", deviation.RuleId);
            Write(json, deviation);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, Deviation deviation)
    {
        json.WriteString("by", deviation.By);
        json.WriteString("reason", deviation.Reason);
    }
}
