using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Cogwright.Drivetrain;
using Spectre.Console;

namespace Cogwright.Cli.Output;

/// <summary>Writes a command's answer as JSON with stable names; a figure that does not exist is null, never NaN.</summary>
internal static class JsonAnswer
{
    private static readonly JsonWriterOptions Options = new()
    {
        Indented = true,
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>Writes one object to the console.</summary>
    internal static void Write(IAnsiConsole console, Action<Utf8JsonWriter> content)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Options))
        {
            json.WriteStartObject();
            content(json);
            json.WriteEndObject();
        }
        // Past the console's line breaking: JSON is for programs.
        console.Profile.Out.Writer.Write(Encoding.UTF8.GetString(stream.ToArray()));
        console.Profile.Out.Writer.WriteLine();
        console.Profile.Out.Writer.Flush();
    }

    /// <summary>A figure, or null where there is none.</summary>
    internal static void Figure(this Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number && double.IsFinite(number))
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>A whole number, or null where there is none.</summary>
    internal static void Count(this Utf8JsonWriter json, string name, int? value)
    {
        if (value is { } number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>An angle, in degrees.</summary>
    internal static void AngleDeg(this Utf8JsonWriter json, string name, double radians) =>
        json.Figure(name, Screen.Degrees(radians));

    /// <summary>A gear as ring and cog.</summary>
    internal static void Gear(this Utf8JsonWriter json, Gear gear)
    {
        json.WriteNumber("ring", gear.RingTeeth);
        json.WriteNumber("cog", gear.CogTeeth);
    }

    /// <summary>A list of gears.</summary>
    internal static void Gears(this Utf8JsonWriter json, string name, IEnumerable<Gear> gears)
    {
        json.WriteStartArray(name);
        foreach (var gear in gears)
        {
            json.WriteStartObject();
            json.Gear(gear);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    /// <summary>A list of sentences.</summary>
    internal static void Sentences(
        this Utf8JsonWriter json,
        string name,
        IEnumerable<string> sentences
    )
    {
        json.WriteStartArray(name);
        foreach (var sentence in sentences)
        {
            json.WriteStringValue(sentence);
        }
        json.WriteEndArray();
    }

    /// <summary>The values nobody measured.</summary>
    internal static void Assumed(this Utf8JsonWriter json, ImmutableArray<Assumption> assumptions)
    {
        json.WriteStartArray("assumed");
        foreach (var value in assumptions)
        {
            json.WriteStartObject();
            json.WriteString("path", value.Path);
            json.WriteString("value", value.Value);
            json.WriteString("from", value.From);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    /// <summary>A name of the program as JSON writes it: first letter small.</summary>
    internal static string Name<T>(T value)
        where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}
