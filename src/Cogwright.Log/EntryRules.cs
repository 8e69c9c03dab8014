using System.Text;

namespace Cogwright.Log;

/// <summary>What must hold for the fields of every entry, made here or read.</summary>
internal static class EntryRules
{
    /// <summary>The first rule broken, or null.</summary>
    internal static LogFault? Broken(EntryFields fields) =>
        Sequence(fields)
        ?? Word(fields, "author", fields.Author, EntryLimits.AuthorBytes)
        ?? Word(fields, "kind", fields.Kind, EntryLimits.KindBytes)
        ?? KindVersion(fields)
        ?? Count(fields, "body", fields.Body.Length, EntryLimits.BodyBytes)
        ?? Count(fields, "heads", fields.Heads.Length, EntryLimits.Heads)
        ?? Count(fields, "personal", fields.Personal.Length, EntryLimits.Personal)
        ?? Itself(fields)
        ?? Twice(fields)
        ?? Extensions(fields)
        ?? Count(fields, "entry", EntryEncoding.SizeOf(fields), EntryLimits.EntryBytes);

    private static LogFault? Sequence(EntryFields fields)
    {
        if (fields.Sequence is < 1 or > EntryLimits.Sequence)
        {
            return Impossible("rule.sequence", fields.Id, fields.Sequence, EntryLimits.Sequence);
        }
        if (fields.Sequence == 1 == fields.Previous is null)
        {
            return null;
        }
        return Impossible(
            fields.Sequence == 1 ? "rule.firstWithPrevious" : "rule.laterWithoutPrevious",
            fields.Id,
            fields.Sequence
        );
    }

    private static LogFault? Word(EntryFields fields, string name, string text, int limit)
    {
        if (text.Length == 0)
        {
            return new LogFault(LogFaultKind.Missing, Texts.Get("rule.empty", fields.Id, name));
        }
        // Half of a surrogate pair has no UTF-8: it would come back as another sign, under another hash.
        return HasLoneSurrogate(text)
            ? Impossible("rule.surrogate", fields.Id, name)
            : Count(fields, name, Encoding.UTF8.GetByteCount(text), limit);
    }

    private static bool HasLoneSurrogate(string text)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (!char.IsSurrogate(text[i]))
            {
                continue;
            }
            if (!char.IsSurrogatePair(text, i))
            {
                return true;
            }
            i++;
        }
        return false;
    }

    private static LogFault? KindVersion(EntryFields fields) =>
        fields.KindVersion >= 1
            ? null
            : Impossible("rule.kindVersion", fields.Id, fields.KindVersion);

    private static LogFault? Count(EntryFields fields, string name, int count, int limit) =>
        count <= limit
            ? null
            : new LogFault(
                LogFaultKind.TooLarge,
                Texts.Get("rule.tooLarge", fields.Id, Texts.Get("rule.name." + name), count, limit)
            );

    private static LogFault? Itself(EntryFields fields) =>
        fields.Corrects == fields.Id || fields.Heads.Contains(fields.Id)
            ? Impossible("rule.itself", fields.Id)
            : null;

    private static LogFault? Twice(EntryFields fields) =>
        fields.Personal.Length > 1 && fields.Personal.Distinct().Count() < fields.Personal.Length
            ? Impossible("rule.personalTwice", fields.Id)
            : null;

    private static LogFault? Extensions(EntryFields fields)
    {
        var last = EntryTag.FirstUnknown - 1;
        foreach (var extension in fields.Extensions)
        {
            if (extension.Tag <= last)
            {
                return Impossible("rule.extension", fields.Id, extension.Tag);
            }
            last = extension.Tag;
        }
        return null;
    }

    private static LogFault Impossible(string key, params ReadOnlySpan<object?> values) =>
        new(LogFaultKind.Impossible, Texts.Get(key, values));
}
