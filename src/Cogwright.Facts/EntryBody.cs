using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Cogwright.Log;

namespace Cogwright.Facts;

/// <summary>What the bodies of all kinds of entries have in common: canonical JSON, without white space and needless escapes.</summary>
internal static class EntryBody
{
    private static readonly JsonWriterOptions Canonical = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>A body; its names are to be written in ascending order (ordinal).</summary>
    internal static byte[] Written(Action<Utf8JsonWriter> write)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, Canonical))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }
        return stream.ToArray();
    }

    /// <summary>Writes a text, and nothing when it is empty.</summary>
    internal static void WriteIf(this Utf8JsonWriter json, string name, string? text)
    {
        if (!string.IsNullOrEmpty(text))
        {
            json.WriteString(name, Whole(text));
        }
    }

    /// <summary>
    /// What an entry says, or null when it is of another kind or version, of a later program, or not readable.
    /// </summary>
    /// <param name="entry">The entry.</param>
    /// <param name="kind">The kind that is read.</param>
    /// <param name="version">The version that is read.</param>
    /// <param name="read">Reads the body.</param>
    internal static T? Read<T>(Entry entry, string kind, int version, Func<JsonElement, T?> read)
        where T : class
    {
        if (entry.Kind != kind || entry.KindVersion != version || entry.IsFromLaterVersion)
        {
            return null;
        }
        try
        {
            using var json = JsonDocument.Parse(entry.Body);
            return read(json.RootElement);
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>The text of that name, or null when there is none.</summary>
    internal static string? TextOf(JsonElement body, string name) =>
        body.TryGetProperty(name, out var found) ? found.GetString() : null;

    /// <summary>A day written as 2026-03-14, or null.</summary>
    internal static DateOnly? DayOf(string? text) =>
        DateOnly.TryParseExact(
            text,
            "O",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
            : null;

    /// <summary>Half of a surrogate pair has no UTF-8; it becomes the sign for what cannot be read.</summary>
    internal static string Whole(string text) =>
        Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text));
}
