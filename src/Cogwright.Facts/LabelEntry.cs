using System.Collections.Immutable;
using System.Text.Json;
using Cogwright.Log;
using Cogwright.Parts;

namespace Cogwright.Facts;

/// <summary>
/// What is read off a part as the body of an entry, kind <c>label.add</c>, version 1, and its taking away, kind
/// <c>label.remove</c>, version 1. The bodies are canonical JSON as those of <see cref="SpecEntry"/>.
/// docs/how-to/offline.md has the table.
/// </summary>
public static class LabelEntry
{
    /// <summary>The kind of an entry that adds a label.</summary>
    public const string Kind = "label.add";

    /// <summary>The kind of an entry that corrects such a one: the label was a mistake.</summary>
    public const string RemoveKind = "label.remove";

    /// <summary>The version of both that is written; later ones are kept and not read.</summary>
    public const int Version = 1;

    /// <summary>What a photo can be, so that every browser can show it.</summary>
    public static ImmutableArray<string> PhotoTypes { get; } =
    ["image/jpeg", "image/png", "image/webp"];

    /// <summary>The draft of an entry that adds a label; who it is from is not in it yet.</summary>
    public static EntryDraft Draft(PartLabel label) =>
        new("", Kind, Version, Body(label))
        {
            Personal = label.Photo is { } photo ? [photo.Digest] : [],
        };

    /// <summary>The draft of an entry that takes a label away; who it is from is not in it yet.</summary>
    /// <param name="id">The entry that was the mistake.</param>
    /// <param name="reason">Why, in somebody's words.</param>
    public static EntryDraft DraftOfRemoval(EntryId id, string reason) =>
        new(
            "",
            RemoveKind,
            Version,
            EntryBody.Written(json => json.WriteString("reason"u8, EntryBody.Whole(reason)))
        )
        {
            Corrects = id,
        };

    /// <summary>The body; the entry's id and the photo's digest are the entry's own and not in it.</summary>
    public static byte[] Body(PartLabel label) =>
        EntryBody.Written(json =>
        {
            json.WriteString("part"u8, PartKinds.NameOf(label.Part));
            json.WriteIf("partId", label.PartId);
            json.WriteIf("photo", label.Photo?.ContentType);
            json.WriteIf("serial", label.Serial);
            json.WriteIf("words", label.Words);
        });

    /// <summary>
    /// The label that an entry adds, or null when it is of another kind, of a later version, or not readable; also when it names a
    /// kind of part or of photo that this version does not know.
    /// </summary>
    public static PartLabel? Read(Entry entry) =>
        EntryBody.Read(entry, Kind, Version, body => Read(entry, body));

    private static PartLabel? Read(Entry entry, JsonElement body)
    {
        if (PartKinds.Find(EntryBody.TextOf(body, "part") ?? "") is not { } part)
        {
            return null;
        }
        var type = EntryBody.TextOf(body, "photo");
        if (type is not null && (!PhotoTypes.Contains(type) || entry.Personal.Length != 1))
        {
            return null;
        }
        return new(
            part,
            EntryBody.TextOf(body, "partId"),
            EntryBody.TextOf(body, "serial") ?? "",
            EntryBody.TextOf(body, "words") ?? ""
        )
        {
            Id = entry.Id,
            Photo = type is null ? null : new(entry.Personal[0], type),
            UtcTicks = entry.WallClockTicks,
        };
    }

    /// <summary>Whether an entry takes a label away; that it does is the log's own doing, through what it corrects.</summary>
    public static bool IsRemoval(Entry entry) =>
        entry
            is {
                Kind: RemoveKind,
                KindVersion: Version,
                IsFromLaterVersion: false,
                Corrects: not null
            };
}
