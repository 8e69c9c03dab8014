using System.Text.Json;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Cli.Output;

/// <summary>The index as JSON. The names are documented in docs/how-to/command-line.md and stay.</summary>
internal static class IndexJson
{
    internal static void Write(Utf8JsonWriter json, IndexResult? index)
    {
        if (index is null)
        {
            json.WriteNull("indexing");
            return;
        }
        json.WriteStartObject("indexing");
        json.WriteBoolean("fine", index.IsFine);
        if (index.Model is { } model)
        {
            json.WriteStartObject("model");
            Model(json, model);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("model");
        }
        if (index.Read is { } read)
        {
            json.WriteStartObject("read");
            Read(json, read, index);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("read");
        }
        json.Sentences("sentences", index.Sentences);
        json.Sentences("questions", index.Questions);
        json.Sentences("toDo", index.ToDo);
        json.WriteEndObject();
    }

    /// <summary>A correction of an adjuster, or null.</summary>
    internal static void Adjustment(Utf8JsonWriter json, string name, AdjusterAdvice? advice)
    {
        if (advice is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        json.WriteString("kind", JsonAnswer.Name(advice.Kind));
        json.WriteString("moves", JsonAnswer.Name(advice.Place));
        json.WriteString("adjuster", advice.Name);
        json.Figure("turns", Math.Abs(advice.Turns));
        json.Count("clicks", advice.Clicks is { } clicks ? Math.Abs(clicks) : null);
        json.WriteString(
            "direction",
            (advice.Turns, advice.Place) switch
            {
                (0, _) => null,
                (> 0, AdjusterPlace.OffsetStep) => "outboard",
                (< 0, AdjusterPlace.OffsetStep) => "inboard",
                (> 0, _) => "clockwise",
                _ => "anticlockwise",
            }
        );
        json.Figure("mmPerTurn", advice.MmPerTurn);
        json.Figure("readMm", advice.ReadMm);
        json.Figure("wantedMm", advice.WantedMm);
        json.Figure("expectedMm", advice.ExpectedMm);
        json.WriteEndObject();
    }

    private static void Model(Utf8JsonWriter json, IndexFacts model)
    {
        json.WriteBoolean("cable", model.IsCable);
        if (model.ClicksGoOutboard)
        {
            json.WriteBoolean("clicksGoOutboard", true);
        }
        json.Figure("bestOffsetMm", model.BestOffsetMm);
        json.Figure("greatestResidualMm", model.GreatestResidualMm);
        json.Figure("limitMm", model.LimitMm);
        json.WriteBoolean("limitIsFloat", model.LimitIsFloat);
        json.WriteBoolean("allFine", model.AllFine);
        json.WriteNumber("cogsNotReached", model.CogsNotReached);
        json.WriteNumber("clicksUnused", model.ClicksUnused);
        json.Figure("steadyErrorMm", model.SteadyErrorMm);
        json.WriteBoolean("steady", model.IsSteady);
        json.WriteStartArray("cogs");
        foreach (var cog in model.Cogs)
        {
            json.WriteStartObject();
            json.WriteNumber("cog", cog.CogTeeth);
            json.Figure("wantedMm", cog.WantedMm);
            json.Figure("pulleyMm", cog.PulleyMm);
            json.Figure("clickMm", cog.ClickMm);
            json.Figure("clickErrorMm", cog.ClickErrorMm);
            json.Figure("cumulativeErrorMm", cog.CumulativeErrorMm);
            json.Figure("residualMm", cog.ResidualMm);
            json.WriteBoolean("fine", cog.IsFine);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        Adjustment(json, "correction", model.Advice);
    }

    private static void Read(Utf8JsonWriter json, IndexRead read, IndexResult index)
    {
        json.Figure("bestMoveMm", read.BestMoveMm);
        json.Figure("greatestAfterMm", read.GreatestAfterMm);
        json.Figure("limitMm", read.LimitMm);
        json.Figure("deadBandMm", index.Friction?.Reading.Value);
        json.Figure("deadBandLimitMm", read.BandLimitMm);
        json.WriteString(
            "friction",
            index.Friction is { } friction ? JsonAnswer.Name(friction.Verdict) : null
        );
        json.WriteStartArray("cogs");
        foreach (var cog in read.Cogs)
        {
            json.WriteStartObject();
            json.WriteNumber("cog", cog.CogTeeth);
            json.Figure("upMm", cog.UpMm);
            json.Figure("downMm", cog.DownMm);
            json.Figure("deadBandMm", cog.DeadBandMm);
            json.Figure("middleMm", cog.MiddleMm);
            json.Figure("afterMm", cog.AfterMm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        Adjustment(json, "correction", read.Advice);
    }
}
