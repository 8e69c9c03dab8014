using System.Text.Json;
using Cogwright.Drivetrain;

namespace Cogwright.Cli.Output;

/// <summary>The front derailleur as JSON; left out when the spec describes none.</summary>
internal static class FrontJson
{
    internal static void Write(Utf8JsonWriter json, Bike bike)
    {
        if (FrontClearances.Of(bike.Table) is not { } report)
        {
            return;
        }
        json.WriteStartObject("front");
        json.WriteStartArray("settings");
        foreach (var setting in report.Settings)
        {
            Setting(json, bike, setting);
        }
        json.WriteEndArray();
        json.WriteStartArray("positions");
        foreach (var position in report.Positions)
        {
            json.WriteStartObject();
            json.WriteNumber("ring", position.RingTeeth);
            json.Figure("lateralMm", position.LateralMm);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        Gears(json, "gears", report);
        json.WriteEndObject();
    }

    private static void Setting(Utf8JsonWriter json, Bike bike, FrontSetting setting)
    {
        json.WriteStartObject();
        json.WriteString("kind", JsonAnswer.Name(setting.Kind));
        json.Gear(setting.Gear);
        json.Figure("valueMm", setting.GapMm);
        json.Figure("lowerMm", setting.Wanted.LowerMm);
        json.Figure("upperMm", setting.Wanted.UpperMm);
        json.WriteBoolean("given", setting.IsGiven);
        json.WriteBoolean("within", setting.IsWithin);
        json.WriteString("what", FrontWords.Of(setting));
        if (bike.Correction(setting) is { } correction)
        {
            json.WriteStartObject("correction");
            json.WriteString("what", FrontWords.Of(correction));
            json.WriteString(
                "kind",
                correction.Turning is { } turning ? JsonAnswer.Name(turning.Status) : "slide"
            );
            json.Figure("turns", Math.Abs(correction.Turning?.Turns ?? double.NaN));
            json.WriteString(
                "direction",
                correction.Turning?.Turns switch
                {
                    > 0 => "clockwise",
                    < 0 => "anticlockwise",
                    _ => null,
                }
            );
            json.Figure("wantedMm", correction.WantedMm);
            json.Figure("expectedMm", correction.ExpectedMm);
            if (correction.After is { } after)
            {
                Gears(json, "after", after);
            }
            json.WriteEndObject();
        }
        json.WriteEndObject();
    }

    private static void Gears(Utf8JsonWriter json, string name, FrontReport report)
    {
        json.WriteStartArray(name);
        foreach (var gear in report.Gears)
        {
            json.WriteStartObject();
            json.Gear(gear.Gear);
            json.Figure("innerPlateMm", gear.Own?.InnerPlateMm);
            json.Figure("outerPlateMm", gear.Own?.OuterPlateMm);
            json.Figure("bridgeMm", gear.Own?.BridgeMm);
            json.WriteBoolean("rubs", gear.Rubs);
            if (gear.TrimClears is { } clears)
            {
                json.WriteBoolean("trimClears", clears);
            }
            else
            {
                json.WriteNull("trimClears");
            }
            json.WriteBoolean("gearNotUsed", gear.NotUsed);
            json.WriteStartArray("trims");
            foreach (var pose in gear.Poses.Skip(1))
            {
                json.WriteStartObject();
                json.Figure("lateralMm", pose.LateralMm);
                json.Figure("innerPlateMm", pose.InnerPlateMm);
                json.Figure("outerPlateMm", pose.OuterPlateMm);
                json.Figure("bridgeMm", pose.BridgeMm);
                json.WriteBoolean("rubs", pose.Rubs != CageRub.None);
                json.WriteEndObject();
            }
            json.WriteEndArray();
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
