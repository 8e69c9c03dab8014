using System.Text.Json;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Cli.Output;

/// <summary>The set-up of a derailleur on the axle as JSON; nothing for one on a hanger.</summary>
internal static class SetUpJson
{
    internal static void Write(Utf8JsonWriter json, Bike bike)
    {
        if (bike.Spec.RearDerailleur is not { Coaxial: { } mount })
        {
            return;
        }
        json.WriteString("bodyAngleFrom", bike.Table.SetUp is null ? "option" : "setUp");
        if (bike.Table.SetUp is not { } setUp)
        {
            return;
        }
        json.WriteStartObject("setUp");
        json.WriteString("status", JsonAnswer.Name(setUp.Status));
        json.Gear(setUp.Gear);
        json.AngleDeg("cageAtSetUpDeg", mount.CageAtSetUpRad);
        json.Figure("chainOffMm", setUp.ChainOffMm);
        json.Figure(
            "gapMm",
            setUp.IsSet && bike.Table.Find(setUp.Gear) is { HasPose: true } gear ? gear.GapMm : null
        );
        json.WriteEndObject();
    }

    /// <summary>What a reading of the gap says of the set-up; nothing for one on a hanger.</summary>
    internal static void Advice(Utf8JsonWriter json, SetUpAdvice? advice)
    {
        if (advice is null)
        {
            return;
        }
        json.WriteStartObject("setUp");
        json.WriteNumber("ring", advice.SetUpGear.RingTeeth);
        json.WriteNumber("cog", advice.SetUpGear.CogTeeth);
        json.Figure("cageOffMarkDeg", advice.CageOffMarkDeg);
        json.Figure("bodyOffDeg", advice.BodyOffDeg);
        json.Figure("mmPerBodyDegree", advice.MmPerBodyDegree);
        json.Figure("mmPerPitchLeft", advice.MmPerPitchLeft);
        json.Figure("mmPerPitchSetAgain", advice.MmPerPitchSetAgain);
        json.WriteStartArray("ways");
        foreach (var way in advice.Ways)
        {
            json.WriteStartObject();
            json.WriteNumber("pitches", way.Pitches);
            json.WriteNumber("setUpCog", way.CogTeeth);
            json.Figure("gapMm", way.GapMm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteEndObject();
    }
}
