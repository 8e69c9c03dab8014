using System.Buffers;
using System.Collections.Immutable;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Cogwright.Parts;

namespace Cogwright.Storage;

/// <summary>
/// A part as the text that its row keeps: JSON on one line, fields in the order of their names, numbers in the shortest form
/// that reads back to the same number. Equal parts give equal texts, so that a comparison of texts tells what has changed.
/// </summary>
internal static class PartText
{
    private static readonly JsonWriterOptions Relaxed = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    internal static string Write(Part part)
    {
        var bytes = new ArrayBufferWriter<byte>(512);
        using (var json = new Utf8JsonWriter(bytes, Relaxed))
        {
            json.WriteStartObject();
            json.WriteString("id", part.Id);
            json.WriteString("kind", PartKinds.NameOf(part.Kind));
            json.WriteString("name", part.Name);
            json.WriteString("maker", part.Maker);
            json.WriteString("source", part.Source);
            if (part.InStock is { } inStock)
            {
                json.WriteNumber("inStock", inStock);
            }
            json.WriteStartObject("values");
            foreach (
                var (field, value) in part.Values.OrderBy(
                    each => each.Key.Name,
                    StringComparer.Ordinal
                )
            )
            {
                json.WritePropertyName(field.Name);
                Write(json, value);
            }
            json.WriteEndObject();
            json.WriteStartObject("spec");
            foreach (var (path, text) in part.SpecValues)
            {
                json.WriteString(path, text);
            }
            json.WriteEndObject();
            json.WriteEndObject();
        }
        return Encoding.UTF8.GetString(bytes.WrittenSpan);
    }

    /// <summary>
    /// The part of a row, or null when the row does not hold what was written: one must not stand in the way of all others.
    /// </summary>
    internal static Part? OfRow(string id, string content)
    {
        try
        {
            var part = Read(content);
            return part.Id == id ? part : null;
        }
        catch (FormatException)
        {
            return null;
        }
    }

    /// <summary>Reads what <see cref="Write(Part)"/> wrote.</summary>
    /// <exception cref="FormatException">It is something else.</exception>
    internal static Part Read(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            return Read(document.RootElement);
        }
        catch (Exception e)
            when (e
                    is JsonException
                        or InvalidOperationException
                        or KeyNotFoundException
                        // The same field twice, or a text that is no value.
                        or ArgumentException
            )
        {
            throw new FormatException(e.Message, e);
        }
    }

    private static Part Read(JsonElement json)
    {
        var values = ImmutableDictionary.CreateBuilder<PartField, PartValue>();
        foreach (var each in json.GetProperty("values").EnumerateObject())
        {
            var field = PartFields.Find(each.Name) ?? throw new FormatException(each.Name);
            values.Add(field, ValueOf(field, each.Value));
        }
        var spec = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (var each in json.GetProperty("spec").EnumerateObject())
        {
            spec.Add(each.Name, WordsOf(each.Value));
        }
        var kind = WordsOf(json.GetProperty("kind"));
        var id = WordsOf(json.GetProperty("id"));
        return new Part
        {
            Id = PartNames.IsId(id) ? id : throw new FormatException(id),
            Kind = PartKinds.Find(kind) ?? throw new FormatException(kind),
            Name = WordsOf(json.GetProperty("name")),
            Maker = WordsOf(json.GetProperty("maker")),
            Source = WordsOf(json.GetProperty("source")),
            InStock = json.TryGetProperty("inStock", out var stock) ? stock.GetInt32() : null,
            Values = values.ToImmutable(),
            SpecValues = spec.ToImmutable(),
        };
    }

    private static string WordsOf(JsonElement json) =>
        json.GetString() ?? throw new FormatException(nameof(JsonValueKind.Null));

    private static PartValue ValueOf(PartField field, JsonElement json) =>
        field.Shape switch
        {
            PartShape.Tag or PartShape.Tags => new PartValue.Tags([
                .. json.EnumerateArray().Select(WordsOf),
            ]),
            PartShape.Wholes or PartShape.Lengths => new PartValue.Numbers([
                .. json.EnumerateArray().Select(each => each.GetDouble()),
            ]),
            _ => new PartValue.Number(json.GetDouble()),
        };

    private static void Write(Utf8JsonWriter json, PartValue value)
    {
        switch (value)
        {
            case PartValue.Number number:
                json.WriteNumberValue(number.Value);
                break;
            case PartValue.Numbers numbers:
                json.WriteStartArray();
                foreach (var each in numbers.Values)
                {
                    json.WriteNumberValue(each);
                }
                json.WriteEndArray();
                break;
            case PartValue.Tags tags:
                json.WriteStartArray();
                foreach (var each in tags.Names)
                {
                    json.WriteStringValue(each);
                }
                json.WriteEndArray();
                break;
        }
    }
}
