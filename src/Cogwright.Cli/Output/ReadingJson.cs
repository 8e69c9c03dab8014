using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Cli.Output;

/// <summary>Judged readings as JSON. The names are documented in docs/how-to/command-line.md and stay.</summary>
internal static class ReadingJson
{
    internal static void Write(
        Utf8JsonWriter json,
        ImmutableArray<ReadingResult> results,
        ReadingsIntake taken,
        string name = "readings",
        Func<ReadingResult, bool>? which = null
    )
    {
        json.WriteStartArray(name);
        for (var i = 0; i < results.Length; i++)
        {
            if (which?.Invoke(results[i]) == false)
            {
                continue;
            }
            json.WriteStartObject();
            Write(json, results[i], taken.Assumed[i], taken.Places[i]);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Write(
        Utf8JsonWriter json,
        ReadingResult result,
        bool assumed,
        ReadingPlace place
    )
    {
        json.WriteString("quantity", result.Taken.Quantity);
        json.WriteNumber("line", place.Line);
        json.WriteNumber("column", place.Column);
        json.Count("ring", result.Taken.Gear?.RingTeeth);
        json.Count("cog", result.Taken.Gear?.CogTeeth);
        json.Figure("value", result.Taken.Reading.Value);
        json.WriteString("unit", result.Unit);
        json.Figure("standardUncertainty", result.Taken.Reading.StandardUncertainty);
        json.WriteBoolean("uncertaintyAssumed", assumed);
        json.WriteString("status", JsonAnswer.Name(result.Status));
        json.WriteString(
            "verdict",
            result.Judgement is { } judgement ? JsonAnswer.Name(judgement.Verdict) : null
        );
        json.Figure("probability", result.Judgement?.ConformanceProbability);
        json.Figure("decidingUncertainty", result.Judgement?.DecidingUncertainty);
        json.Figure("expected", result.Expected);
        json.Figure("lower", result.Judgement?.Band.Lower);
        json.Figure("upper", result.Judgement?.Band.Upper);
        json.WriteBoolean("againstPrediction", result.AgainstPrediction);
        json.WriteString("convention", result.Target?.Convention);
        json.Sentences("sentences", result.Sentences);
        json.Sentences("questions", result.Questions);
        if (result.Correction is { } advice)
        {
            json.WriteStartObject("correction");
            Correction(json, advice);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("correction");
        }
        IndexJson.Adjustment(json, "adjustment", result.Adjustment);
        json.WriteString("caution", result.ToDo.IsEmpty ? null : result.Target?.Caution);
        json.Sentences("toDo", result.ToDo);
    }

    private static void Correction(Utf8JsonWriter json, GapAdvice advice)
    {
        json.WriteString("kind", JsonAnswer.Name(advice.Kind));
        json.WriteNumber("turns", Math.Abs(advice.Turns));
        json.WriteString(
            "direction",
            advice.Turns switch
            {
                > 0 => "clockwise",
                < 0 => "anticlockwise",
                _ => null,
            }
        );
        json.Figure("readMm", advice.ReadMm);
        json.Figure("wantedMm", advice.WantedMm);
        json.Figure("modelMm", advice.ModelMm);
        json.Figure("expectedMm", advice.ExpectedMm);
        SetUpJson.Advice(json, advice.SetUp);
        json.WriteStartArray("after");
        foreach (var gear in advice.After)
        {
            json.WriteStartObject();
            json.WriteNumber("ring", gear.RingTeeth);
            json.WriteNumber("cog", gear.CogTeeth);
            json.WriteBoolean("ok", gear.IsOk);
            json.Figure("gapMm", gear.GapMm);
            json.Sentences("words", gear.Words);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
