using System.Text.Json;
using Cogwright.Gearing;

namespace Cogwright.Cli.Output;

/// <summary>The measures of gears as JSON. The names are documented in docs/how-to/command-line.md and stay.</summary>
internal static class GearsJson
{
    private const double KmhPerMs = 3.6;

    internal static void Write(
        Utf8JsonWriter json,
        IReadOnlyList<GearSetUp> setUps,
        bool tyreAssumed
    )
    {
        json.WriteString("name", setUps[0].Spec.Name);
        json.WriteBoolean("tyreAssumed", tyreAssumed);
        json.WriteStartArray("setUps");
        foreach (var setUp in setUps)
        {
            json.WriteStartObject();
            SetUp(json, setUp);
            json.Assumed([.. GearSets.Assumed(setUp.Spec)]);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.Assumed([.. GearSets.Assumed(setUps[0].Spec)]);
    }

    /// <summary>A tyre under the name <c>tyre</c>.</summary>
    internal static void Tyre(Utf8JsonWriter json, Tyre tyre)
    {
        json.WriteStartObject("tyre");
        json.WriteString("size", tyre.Designation);
        json.WriteString("source", JsonAnswer.Name(tyre.Source));
        json.Figure("rollOutMm", tyre.CircumferenceM * 1000);
        json.Figure("leastMm", tyre.LeastM * 1000);
        json.Figure("mostMm", tyre.MostM * 1000);
        json.WriteBoolean("usualBeadSeat", tyre.IsSeatListed);
        json.WriteEndObject();
    }

    /// <summary>A gear as ring and cog.</summary>
    internal static void Gear(this Utf8JsonWriter json, GearTeeth gear)
    {
        json.WriteNumber("ring", gear.Ring);
        json.WriteNumber("cog", gear.Cog);
    }

    private static void SetUp(Utf8JsonWriter json, GearSetUp setUp)
    {
        var ladder = setUp.Ladder;
        json.WriteString("name", setUp.Spec.Name);
        json.WriteString("file", setUp.Path);
        Tyre(json, ladder.Tyre);
        json.Figure("crankMm", ladder.CrankMm);
        json.Figure("range", ladder.Range);
        json.WriteNumber("distinctGears", ladder.Distinct);
        json.WriteStartArray("ladder");
        foreach (var gear in ladder.Gears)
        {
            json.WriteStartObject();
            Gear(json, gear, setUp.CadencesRpm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("doubles");
        foreach (var pair in ladder.Doubles)
        {
            json.WriteStartObject();
            json.WriteStartObject("lower");
            json.Gear(pair.Lower);
            json.WriteEndObject();
            json.WriteStartObject("higher");
            json.Gear(pair.Higher);
            json.WriteEndObject();
            json.Figure("stepPercent", pair.Step * 100);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartArray("cogGaps");
        foreach (var gap in ladder.Gaps)
        {
            json.WriteStartObject();
            json.WriteNumber("larger", gap.Larger);
            json.WriteNumber("smaller", gap.Smaller);
            json.Figure("stepPercent", gap.Step * 100);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteStartObject("shiftOrder");
        Order(json, setUp.Order);
        json.WriteEndObject();
    }

    private static void Gear(Utf8JsonWriter json, LadderGear gear, double[] cadencesRpm)
    {
        json.Gear(gear.Teeth);
        json.Figure("ratio", gear.Ratio);
        json.Figure("developmentM", gear.DevelopmentM);
        json.Figure("leastDevelopmentM", gear.LeastDevelopmentM);
        json.Figure("mostDevelopmentM", gear.MostDevelopmentM);
        json.Figure("gearInches", gear.GearInches);
        json.Figure("gain", gear.Gain);
        json.Figure("stepToNextPercent", gear.StepToNext * 100);
        json.Figure("stepOnRingPercent", gear.StepOnRing * 100);
        json.WriteBoolean("across", gear.IsAcross);
        json.WriteBoolean("gearNotUsed", !gear.IsUsed);
        json.WriteStartArray("speeds");
        foreach (var rpm in cadencesRpm)
        {
            json.WriteStartObject();
            json.Figure("rpm", rpm);
            json.Figure("kmh", GearMeasures.SpeedMs(gear.DevelopmentM, rpm) * KmhPerMs);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Order(Utf8JsonWriter json, ShiftOrder order)
    {
        json.WriteNumber("frontShifts", order.FrontShifts);
        json.Figure("largestStepPercent", order.LargestStep * 100);
        json.Figure("cost", order.Cost);
        json.WriteStartObject("from");
        json.Gear(order.Gears[0].Teeth);
        json.WriteEndObject();
        json.WriteStartArray("shifts");
        foreach (var shift in order.Shifts)
        {
            json.WriteStartObject();
            json.Gear(shift.To);
            json.WriteNumber("ringsMoved", shift.Rings);
            json.WriteNumber("cogsMoved", shift.Cogs);
            json.Figure("stepPercent", shift.Step * 100);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
