using System.Text.Json;
using Cogwright.Drivetrain;

namespace Cogwright.Cli.Output;

/// <summary>The room to spokes and frame as JSON; it stands before everything else.</summary>
internal static class ClearanceJson
{
    internal static void Write(Utf8JsonWriter json, Bike bike)
    {
        var report = bike.Clearances;
        json.WriteStartArray("clearances");
        foreach (var clearance in report.All)
        {
            Clearance(json, clearance, report);
        }
        json.WriteEndArray();
        json.Figure("knockMm", report.Knock.IsAngle ? null : report.Knock.Size);
        json.Figure("knockDeg", report.Knock.IsAngle ? Screen.Degrees(report.Knock.Size) : null);
        json.Figure("knockToSpokesMm", report.KnockToSpokesMm);
        json.Figure("hangerLeanDeg", report.Tilt is { } lean ? Screen.Degrees(lean.LeanRad) : null);
        json.Figure("hangerToeDeg", report.Tilt is { } toe ? Screen.Degrees(toe.ToeRad) : null);
        json.WriteStartArray("stops");
        foreach (var stop in (StopReach?[])[report.Inboard, report.Outboard])
        {
            if (stop is not null)
            {
                Stop(json, stop);
            }
        }
        json.WriteEndArray();
    }

    /// <summary>The worst of them and the loose stops, where they are not all told.</summary>
    internal static void Head(Utf8JsonWriter json, Bike bike)
    {
        var report = bike.Clearances;
        Worst(json, report);
        json.WriteStartArray("looseStops");
        foreach (var stop in ClearanceScreen.LooseStops(report))
        {
            Stop(json, stop);
        }
        json.WriteEndArray();
    }

    private static void Worst(Utf8JsonWriter json, ClearanceReport report)
    {
        if (report.Worst is not { } worst)
        {
            json.WriteNull("spokes");
            return;
        }
        json.WriteStartObject("spokes");
        json.WriteString("verdict", JsonAnswer.Name(worst.Verdict));
        json.WriteString("what", LateralWords.Of(worst, report).What);
        json.WriteEndObject();
    }

    private static void Clearance(Utf8JsonWriter json, Clearance clearance, ClearanceReport report)
    {
        json.WriteStartObject();
        json.WriteString("kind", JsonAnswer.Name(clearance.Kind));
        json.WriteString("verdict", JsonAnswer.Name(clearance.Verdict));
        json.Figure("valueMm", clearance.Mm);
        json.Figure("leastMm", clearance.LeastMm);
        json.Count("ring", clearance.Gear?.RingTeeth);
        json.Count("cog", clearance.Gear?.CogTeeth);
        json.WriteBoolean("measured", clearance.IsMeasured);
        json.Sentences("missing", clearance.Missing);
        json.Sentences("assumed", clearance.Assumed);
        var words = LateralWords.Of(clearance, report);
        json.WriteString("what", words.What);
        json.WriteString("whatToDo", words.WhatToDo);
        json.WriteEndObject();
    }

    private static void Stop(Utf8JsonWriter json, StopReach stop)
    {
        json.WriteStartObject();
        json.WriteString("stop", JsonAnswer.Name(stop.Stop));
        json.AngleDeg("swingDeg", stop.SwingRad);
        json.Figure("guideLateralMm", stop.GuideLateralMm);
        json.Figure("overshootMm", stop.OvershootMm);
        json.WriteNumber("cog", stop.CogTeeth);
        json.WriteBoolean("loose", stop.IsLoose);
        var words = LateralWords.Of(stop);
        json.WriteString("what", words.What);
        json.WriteString("whatToDo", words.WhatToDo);
        json.WriteEndObject();
    }
}
