using System.Text.Json;
using System.Text.Json.Nodes;
using Cogwright.Log;

namespace Cogwright.Storage;

/// <summary>An entry as a line of an export. The bytes are in it too: whoever doubts the rest reads those.</summary>
internal static class ExportedEntry
{
    internal static JsonObject Of(long receipt, long receivedTicks, byte[] bytes)
    {
        var line = new JsonObject
        {
            ["receipt"] = receipt,
            ["receivedTicks"] = receivedTicks,
            ["hash"] = Digest.Of(bytes).ToString(),
        };
        if (Entry.Read(bytes) is { IsGood: true, Value: var entry })
        {
            line["id"] = entry.Id.ToString();
            line["device"] = entry.Device.ToString();
            line["sequence"] = entry.Sequence;
            line["wallClockTicks"] = entry.WallClockTicks;
            line["author"] = entry.Author;
            line["kind"] = entry.Kind;
            line["kindVersion"] = entry.KindVersion;
            line["body"] = BodyOf(entry);
            line["heads"] = Array(entry.Heads);
            line["previous"] = entry.Previous?.ToString();
            line["corrects"] = entry.Corrects?.ToString();
            line["personal"] = Array(entry.Personal);
        }
        line["encodedBase64"] = Convert.ToBase64String(bytes);
        return line;
    }

    private static JsonArray Array<T>(IEnumerable<T> values) =>
        [.. values.Select(value => (JsonNode?)JsonValue.Create(value!.ToString()))];

    /// <summary>A body that is no JSON, as a later version may have, is in the bytes only.</summary>
    private static JsonNode? BodyOf(Entry entry)
    {
        try
        {
            return JsonNode.Parse(entry.Body.Span);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
