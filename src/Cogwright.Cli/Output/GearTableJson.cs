using System.Text.Json;
using Cogwright.Drivetrain;

namespace Cogwright.Cli.Output;

/// <summary>The gear table as JSON. The names are documented in docs/how-to/command-line.md and stay.</summary>
internal static class GearTableJson
{
    internal static void Write(Utf8JsonWriter json, Bike bike)
    {
        json.WriteString("name", bike.Spec.Name);
        ClearanceJson.Write(json, bike);
        json.WriteNumber("pitches", bike.Table.Pitches);
        json.WriteString("pitchesFrom", JsonAnswer.Name(bike.PitchesFrom));
        json.AngleDeg(
            "bodyAngleDeg",
            bike.Spec.RearDerailleur is null or { Sprung: not null }
                ? double.NaN
                : bike.Table.BodyAngleRad
        );
        SetUpJson.Write(json, bike);
        if (bike.Table.PreloadNm is { } preload)
        {
            json.Figure("preloadNm", preload);
        }
        if (bike.Spec.Frame.Suspension is { } suspension)
        {
            json.Figure("travelMm", bike.Table.TravelMm);
            json.WriteString("travelMeans", JsonAnswer.Name(suspension.TravelMeans));
            json.Figure(
                "growthMm",
                bike.Table.AxlePose.AxleToBracketMm - bike.Spec.Frame.Axle.Length
            );
            json.AngleDeg("rotationDeg", bike.Table.AxlePose.RotationRad);
        }
        Gears(json, "gears", bike.Table, bike.GapUncertaintyMm);
        FrontJson.Write(json, bike);
        Findings(json, bike);
        if (bike.Fit is { } fit)
        {
            json.WriteString("fit", JsonAnswer.Name(fit.Status));
            json.Fitted(bike.Spec.Fitted);
        }
        json.Assumed(bike.Spec.Assumptions);
    }

    /// <summary>What in the gear table is worth a look.</summary>
    internal static void Findings(Utf8JsonWriter json, Bike bike)
    {
        json.WriteStartArray("findings");
        foreach (var finding in bike.Findings)
        {
            json.WriteStartObject();
            json.Gear(finding.Gear);
            json.WriteString("kind", JsonAnswer.Name(finding.Kind));
            json.Figure("valueMm", finding.ValueMm);
            json.Figure("limitMm", finding.LimitMm);
            json.WriteBoolean("gearNotUsed", finding.NotUsed);
            var explanation = bike.WordsOf(finding);
            json.WriteString("what", explanation.What);
            json.WriteString("whatToDo", explanation.WhatToDo);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    /// <summary>A table's gears under a name.</summary>
    internal static void Gears(
        Utf8JsonWriter json,
        string name,
        GearTable table,
        Func<Gear, double?>? gapUncertaintyMm = null
    )
    {
        json.WriteStartArray(name);
        foreach (var gear in table.Gears)
        {
            json.WriteStartObject();
            Gear(json, gear, table);
            MountJson.Write(json, table, gear);
            json.Figure("nextRingClearanceMm", RingRub.ClearanceMm(table.Spec, gear));
            if (gapUncertaintyMm?.Invoke(gear.Gear) is { } uncertainty)
            {
                json.Figure("gapUncertaintyMm", uncertainty);
            }
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Gear(Utf8JsonWriter json, in GearResult gear, GearTable table)
    {
        json.Gear(gear.Gear);
        json.WriteString("state", JsonAnswer.Name(gear.State));
        json.WriteString("blame", JsonAnswer.Name(gear.Blame));
        json.Figure("shortfallMm", gear.ShortfallMm);
        if (Explanation.Of(gear, table.Spec) is { } explanation)
        {
            json.WriteString("what", explanation.What);
            json.WriteString("whatToDo", explanation.WhatToDo);
        }
        json.AngleDeg("cageAngleDeg", gear.CageAngleRad);
        json.Figure("gapMm", gear.GapMm);
        json.Figure("gapTipUncertaintyMm", gear.HasPose ? gear.GapTipUncertaintyMm : null);
        json.Figure("gapToNextCogMm", gear.GapToNextMm);
        json.Figure("cogTeethInMesh", gear.CogTeethInMesh);
        json.Figure("ringTeethInMesh", gear.RingTeethInMesh);
        json.AngleDeg("swingDeg", gear.SwingRad);
        json.Figure("topRunMm", gear.TopRunMm);
        json.Figure("idlerRunMm", gear.IdlerRunMm);
        json.Figure("idlerTeethInMesh", gear.IdlerTeethInMesh);
        json.Figure("lowerRunMm", gear.LowerRunMm);
        json.Figure("takesAtRearStop", gear.TakesAtRearStop);
        json.Figure("needsAtFrontStop", gear.NeedsAtFrontStop);
        json.AngleDeg("foremostCageAngleDeg", gear.ForemostCageAngleRad);
        json.AngleDeg("chainAngleDeg", gear.ChainAngleRad);
        json.Figure("tightMarginMm", gear.TightMarginMm);
        json.Figure("looseMarginMm", gear.LooseMarginMm);
        json.Figure("lowerRunTensionN", gear.LowerRunTensionN);
        json.Figure("axleMovedMm", gear.AxleMovedMm);
        json.Figure("residualPitches", gear.ResidualPitches);
        json.WriteNumber("evaluations", gear.Evaluations);
    }
}
