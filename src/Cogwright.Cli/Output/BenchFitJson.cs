using System.Text.Json;
using Cogwright.Drivetrain.Bench;

namespace Cogwright.Cli.Output;

/// <summary>What the bench says, as JSON. The names are documented in docs/how-to/command-line.md and stay.</summary>
internal static class BenchFitJson
{
    internal static void Write(Utf8JsonWriter json, Bike bike, BenchFit fit)
    {
        var words = BenchWords.Of(fit);
        json.WriteString("name", bike.Spec.Name);
        json.WriteString("status", JsonAnswer.Name(fit.Status));
        json.WriteString("what", words.What);
        json.WriteString("whatToDo", words.WhatToDo);
        ClearanceJson.Head(json, bike);
        json.WriteNumber("pitches", fit.Pitches);
        json.Figure("sumOfSquares", fit.SumOfSquares);
        json.Figure("gapUncertaintyMm", fit.GapUncertaintyMm);
        json.Figure(
            "otherGapDifferenceMm",
            fit.Status == BenchFitStatus.Ambiguous ? fit.OtherGapDifferenceMm : null
        );
        Parameters(json, fit);
        Readings(json, fit);
        json.WriteStartArray("gears");
        foreach (var gap in fit.Gaps)
        {
            json.WriteStartObject();
            json.Gear(gap.Gear);
            json.WriteString("state", JsonAnswer.Name(gap.State));
            json.Figure("gapMm", gap.GapMm);
            json.Figure("gapUncertaintyMm", gap.GapUncertaintyMm);
            json.Figure("guideForwardUncertaintyMm", gap.GuideForwardUncertaintyMm);
            json.Figure("guideUpUncertaintyMm", gap.GuideUpUncertaintyMm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("notIdentified");
        foreach (var direction in fit.NotIdentified)
        {
            json.WriteStartObject();
            json.Figure("gapEffectMm", direction.GapEffectMm);
            json.WriteStartArray("parts");
            foreach (var (parameter, weight) in direction.Parts)
            {
                json.WriteStartObject();
                json.WriteString("parameter", JsonAnswer.Name(parameter));
                json.Figure("weight", weight);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("further");
        foreach (var further in fit.Further)
        {
            json.WriteStartObject();
            Place(json, further.Place);
            json.Figure("gapUncertaintyMm", further.GapUncertaintyMm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.Sentences("leftOut", BenchWords.LeftOut(fit));
        json.Fitted(bike.Spec.Fitted);
        json.Assumed(bike.Spec.Assumptions);
    }

    /// <summary>The values that were found from measurements.</summary>
    internal static void Fitted(this Utf8JsonWriter json, IEnumerable<FittedValue> values)
    {
        json.WriteStartArray("measured");
        foreach (var value in values)
        {
            json.WriteStartObject();
            json.WriteString("path", value.Path);
            json.WriteString("value", value.Value);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Parameters(Utf8JsonWriter json, BenchFit fit)
    {
        json.WriteStartArray("parameters");
        foreach (var parameter in fit.Parameters)
        {
            var toEdge = BenchUnits.IsAngle(parameter.Parameter) ? Screen.Degrees(1) : 1;
            json.WriteStartObject();
            json.WriteString("parameter", JsonAnswer.Name(parameter.Parameter));
            json.WriteString("unit", BenchUnits.IsAngle(parameter.Parameter) ? "°" : "mm");
            json.Figure("value", parameter.Value * toEdge);
            json.Figure("uncertainty", parameter.Uncertainty * toEdge);
            json.Figure("classValue", parameter.PriorValue * toEdge);
            json.Figure("classUncertainty", parameter.PriorUncertainty * toEdge);
            json.WriteString("origin", JsonAnswer.Name(parameter.Origin));
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Readings(Utf8JsonWriter json, BenchFit fit)
    {
        json.WriteStartArray("readings");
        for (var i = 0; i < fit.Readings.Length; i++)
        {
            var reading = fit.Readings[i];
            json.WriteStartObject();
            Place(json, reading.Reading.Place);
            json.Figure("valueMm", reading.Reading.ValueMm);
            json.Figure("uncertaintyMm", reading.Reading.UncertaintyMm);
            json.Figure("modelMm", reading.ModelMm);
            json.Figure("residualMm", reading.ResidualMm);
            json.Figure("residualInU", reading.ResidualInU);
            json.Figure("normalizedResidual", reading.Normalized);
            json.WriteBoolean("worst", fit.WorstReading == i);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Place(Utf8JsonWriter json, in BenchPlace place)
    {
        json.WriteString("place", BenchNames.Path(place.Distance));
        json.Count("cog", place.CogTeeth == 0 ? null : place.CogTeeth);
        json.Count("ring", place.RingTeeth == 0 ? null : place.RingTeeth);
        json.Figure("turns", place.Turns == 0 ? null : place.Turns);
        json.WriteString("words", BenchWords.Of(place));
    }
}
