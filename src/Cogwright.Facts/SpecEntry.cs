using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Log;

namespace Cogwright.Facts;

/// <summary>
/// A change of a spec as the body of an entry: kind <c>spec.set</c>, version 1. The body is canonical JSON: names ascend
/// (ordinal), no white space, what is absent is left out, no sign is escaped that need not be.
/// docs/how-to/offline.md has the table.
/// </summary>
public static class SpecEntry
{
    /// <summary>The kind.</summary>
    public const string Kind = "spec.set";

    /// <summary>The version that is written; later ones are kept and not read.</summary>
    public const int Version = 1;

    /// <summary>The draft of an entry; who it is from is not in it yet.</summary>
    public static EntryDraft Draft(SpecChange change) => new("", Kind, Version, Body(change));

    /// <summary>The body of a change; the id is the entry's own and not in it.</summary>
    public static byte[] Body(SpecChange change) =>
        EntryBody.Written(json =>
        {
            json.WriteStartObject("fields"u8);
            foreach (var (path, text) in change.Fields.OrderBy(f => f.Key, StringComparer.Ordinal))
            {
                if (text is null)
                {
                    json.WriteNull(EntryBody.Whole(path));
                }
                else
                {
                    json.WriteString(EntryBody.Whole(path), EntryBody.Whole(text));
                }
            }
            json.WriteEndObject();
            if (change.Redoes is { } redoes)
            {
                json.WriteString("redoes"u8, redoes);
            }
            if (change.Undoes is { } undoes)
            {
                json.WriteString("undoes"u8, undoes);
            }
            json.WriteString("what"u8, EntryBody.Whole(change.What));
        });

    /// <summary>The change that an entry states, or null when it is of another kind, of a later version, or not readable.</summary>
    public static SpecChange? Read(Entry entry)
    {
        if (entry.Kind != Kind || entry.KindVersion != Version || entry.IsFromLaterVersion)
        {
            return null;
        }
        try
        {
            using var json = JsonDocument.Parse(entry.Body);
            var fields = ImmutableSortedDictionary.CreateBuilder<string, string?>(
                StringComparer.Ordinal
            );
            foreach (var field in json.RootElement.GetProperty("fields").EnumerateObject())
            {
                if (field.Name.Length == 0)
                {
                    return null;
                }
                fields[field.Name] = field.Value.GetString();
            }
            return new(json.RootElement.GetProperty("what").GetString() ?? "", fields.ToImmutable())
            {
                Id = entry.Id.ToString(),
                Undoes = EntryBody.TextOf(json.RootElement, "undoes"),
                Redoes = EntryBody.TextOf(json.RootElement, "redoes"),
            };
        }
        catch (Exception e)
            when (e is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            return null;
        }
    }
}
