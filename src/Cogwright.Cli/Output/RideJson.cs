using System.Text.Json;
using Cogwright.Cli.Commands;
using Cogwright.Files;
using Cogwright.Gearing;
using Cogwright.Parts;

namespace Cogwright.Cli.Output;

/// <summary>A ride as JSON. The names are documented in docs/how-to/command-line.md and stay.</summary>
internal static class RideJson
{
    internal static void Write(Utf8JsonWriter json, RideOutput ride)
    {
        var route = ride.Question.Route;
        var result = ride.Result;
        json.WriteString("name", ride.Spec.Name);
        json.WriteStartObject("road");
        json.WriteString("name", route.Name);
        json.Figure("lengthM", result.LengthM);
        json.Figure("ascentM", route.AscentM);
        json.Figure("descentM", route.DescentM);
        json.Figure("recordedAscentM", route.RecordedAscentM);
        json.Figure("windowM", route.WindowM);
        json.Sentences("notes", ride.Notes);
        json.WriteEndObject();
        GearsJson.Tyre(json, ride.Question.Tyre);
        json.Figure("heldW", ride.HeldW);
        json.WriteString("heldNote", ride.HeldNote);
        json.Figure("totalS", result.TotalS);
        json.Figure("coastingS", result.CoastingS);
        json.Figure("walkedS", result.WalkedS);
        json.WriteStartObject("steepestMinute");
        json.Figure("startM", result.Steepest.StartM);
        json.Figure("seconds", result.Steepest.Seconds);
        json.Figure("gradientPercent", result.Steepest.Gradient * 100);
        json.Figure("slowestKmh", result.Steepest.SlowestMs * 3.6);
        json.Figure("leastRpm", ride.Spread?.LeastRpm);
        json.Figure("mostRpm", ride.Spread?.MostRpm);
        json.WriteEndObject();
        json.WriteStartObject("present");
        Answer(json, result.Present);
        json.WriteEndObject();
        json.WriteStartArray("beside");
        foreach (var other in ride.Beside)
        {
            json.WriteStartObject();
            json.WriteString("file", other.Candidate.Id);
            json.WriteString("name", other.Candidate.Set.Name);
            Compared(json, other);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        if (ride.Sets is { } sets)
        {
            json.WriteStartObject("library");
            Sets(json, ride, sets);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("library");
        }
        json.WriteStartArray("coefficientsAssumed");
        foreach (var (option, value) in RideOptions.Assumed(ride.Settings))
        {
            json.WriteStartObject();
            json.WriteString("option", option);
            json.WriteString("value", value);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.Assumed([.. GearSets.Assumed(ride.Spec)]);
    }

    private static void Sets(Utf8JsonWriter json, RideOutput ride, RideSets sets)
    {
        json.WriteNumber("all", sets.All);
        json.WriteNumber("doNotBelongTogether", sets.Apart);
        json.WriteNumber("notServed", sets.NotServed);
        json.WriteNumber("cannotSay", sets.NotSaid);
        json.WriteNumber("onTheBike", sets.Present);
        json.WriteNumber("leftAside", sets.Further);
        json.WriteNumber("ridden", sets.Sets.Length);
        json.WriteStartArray("sets");
        foreach (var other in ride.Listed)
        {
            var set = ride.SetOf(other);
            var option = set.Option;
            json.WriteStartObject();
            json.WriteStartObject("parts");
            foreach (var kind in ride.Replaced)
            {
                json.WriteString(PartKinds.NameOf(kind), option.Build[kind]!.Id);
            }
            json.WriteEndObject();
            json.WriteString("name", ride.NameOf(other));
            json.WriteString("answer", JsonAnswer.Name(set.Answer));
            json.Count("pitches", option.Pitches);
            json.Count("pitchesNow", set.PitchesNow);
            json.Figure("reserve", option.Reserve);
            json.WriteString("inStock", OptionsCommand.Stock(option.AllInStock));
            Compared(json, other);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void Compared(Utf8JsonWriter json, RideComparison other)
    {
        json.WriteString(
            "suits",
            other.Suits switch
            {
                > 0 => "better",
                < 0 => "worse",
                _ => "same",
            }
        );
        json.Figure("outsidePointsMore", other.OutsideShareChange * 100);
        json.Figure("offAimRpmMore", other.OffAimRpmChange);
        json.Figure("steepestLowestRpmMore", other.SteepestLowestRpmChange);
        json.Figure("steepestInLowestGearRpmMore", other.SteepestInLowestGearRpmChange);
        json.WriteNumber("frontShiftsMore", other.FrontShiftsChange);
        json.Figure("acrossPointsMore", other.AcrossShareChange * 100);
        Answer(json, other.Answer);
    }

    private static void Answer(Utf8JsonWriter json, RideAnswer answer)
    {
        json.Figure("pedalledS", answer.PedalledS);
        json.Figure("belowPercent", answer.BelowShare * 100);
        json.Figure("abovePercent", answer.AboveShare * 100);
        json.Figure("offAimRpm", answer.OffAimRpm);
        json.Figure("lowestRpm", answer.LowestRpm);
        json.Figure("steepestLowestRpm", answer.SteepestLowestRpm);
        if (answer.SteepestGear is { } steepest)
        {
            json.WriteStartObject("steepestGear");
            json.Gear(steepest);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("steepestGear");
        }
        json.Figure("steepestInLowestGearRpm", answer.SteepestInLowestGearRpm);
        json.WriteNumber("frontShifts", answer.FrontShifts);
        json.WriteNumber("rearShifts", answer.RearShifts);
        json.Figure("acrossS", answer.AcrossS);
        json.Figure("acrossPercent", answer.AcrossShare * 100);
        json.WriteStartArray("shares");
        foreach (var gear in answer.Gears)
        {
            json.WriteStartObject();
            json.Gear(gear.Teeth);
            json.WriteBoolean("across", gear.IsAcross);
            json.Figure("seconds", gear.Seconds);
            json.Figure("percent", gear.Share * 100);
            json.WriteEndObject();
        }
        json.WriteEndArray();
        Teeth(json, "cogShares", answer.Cogs);
        Teeth(json, "ringShares", answer.Rings);
    }

    private static void Teeth(Utf8JsonWriter json, string name, IEnumerable<TeethShare> shares)
    {
        json.WriteStartArray(name);
        foreach (var share in shares)
        {
            json.WriteStartObject();
            json.WriteNumber("teeth", share.Teeth);
            json.Figure("percent", share.Share * 100);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
