using System.Text.Json;
using Cogwright.Setup;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Cli.Output;

/// <summary>The hanger as JSON. The names are documented in docs/how-to/command-line.md and stay.</summary>
internal static class HangerJson
{
    internal static void Write(Utf8JsonWriter json, HangerResult? hanger)
    {
        if (hanger is null)
        {
            json.WriteNull("hanger");
            return;
        }
        json.WriteStartObject("hanger");
        json.WriteString(
            "verdict",
            hanger.Judgement is { } judgement ? JsonAnswer.Name(judgement.Verdict) : null
        );
        json.Figure("probability", hanger.Judgement?.ConformanceProbability);
        json.Figure("decidingUncertaintyMm", hanger.Judgement?.DecidingUncertainty);
        json.Figure("limitMm", hanger.Judgement?.Band.Upper);
        json.WriteStartArray("rounds");
        foreach (var round in hanger.Rounds)
        {
            json.WriteStartObject();
            Round(json, round);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.Sentences("sentences", hanger.Sentences);
        json.Sentences("questions", hanger.Questions);
        json.Sentences("toDo", hanger.ToDo);
        json.WriteEndObject();
    }

    private static void Round(Utf8JsonWriter json, HangerFacts round)
    {
        json.WriteString("kind", JsonAnswer.Name(round.Kind));
        if (round.Kind is not HangerKind.Read)
        {
            return;
        }
        json.Figure("leanDeg", round.LeanDeg);
        json.Figure("leanUncertaintyDeg", round.LeanUncertaintyDeg);
        json.Figure("toeDeg", round.ToeDeg);
        json.Figure("toeUncertaintyDeg", round.ToeUncertaintyDeg);
        json.Figure("topLessBottomMm", round.TopLessBottomMm);
        json.Figure("frontLessRearMm", round.FrontLessRearMm);
        json.Figure("greatestDifferenceMm", round.GreatestDifferenceMm);
        json.Figure("greatestDifferenceUncertaintyMm", round.GreatestDifferenceUncertaintyMm);
        json.Figure("pullOutboardClockHours", round.PullClockHours);
        json.Figure("pullMm", round.PullMm);
        json.Figure("gaugeRadiusMm", round.GaugeRadiusMm);
        json.WriteBoolean("gaugeRadiusAssumed", round.GaugeRadiusAssumed);
        json.WriteBoolean("doubtful", round.IsDoubtful);
        json.WriteStartArray("residualsMm");
        foreach (var residual in round.ResidualsMm)
        {
            json.WriteNumberValue(residual);
        }
        json.WriteEndArray();
        json.WriteString("bending", JsonAnswer.Name(round.Bending));
        json.Count("bends", round.Bends);
        json.Figure("indexedAwayMm", round.IndexedAwayMm);
        json.WriteStartArray("gears");
        foreach (var gear in round.Gears)
        {
            json.WriteStartObject();
            json.WriteNumber("ring", gear.RingTeeth);
            json.WriteNumber("cog", gear.CogTeeth);
            json.Figure("shiftMm", gear.ShiftMm);
            json.Figure("leftMm", gear.LeftMm);
            json.Figure("gapChangeMm", gear.GapChangeMm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
