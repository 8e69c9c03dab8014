namespace Cogwright.Files.Fields;

/// <summary>A field with its full path; the entries of a list are written <c>rings[]</c>.</summary>
internal sealed record TableRow(string Path, Field Field);

/// <summary>Walks a field table from top to bottom.</summary>
internal static class FieldTable
{
    internal static IEnumerable<TableRow> Walk(GroupShape group, string path = "")
    {
        foreach (var field in group.Fields)
        {
            var inner = path.Length == 0 ? field.Name : $"{path}.{field.Name}";
            yield return new(inner, field);
            var nested = field.Shape switch
            {
                GroupShape g => Walk(g, inner),
                ListShape { Item: GroupShape g } => Walk(g, inner + "[]"),
                ListShape { Item: GearShape } => Walk(GearShape.Group, inner + "[]"),
                _ => [],
            };
            foreach (var row in nested)
            {
                yield return row;
            }
        }
    }

    /// <summary>
    /// The sentence about a field. All fasteners share theirs, and so do the two pulleys.
    /// </summary>
    internal static string About(string path) => Texts.Get("about." + TextKey(path));

    /// <summary>What a field is called in the trade, or null when nobody has named it yet.</summary>
    internal static string? LabelOrNull(string path)
    {
        var bare = path.Replace("[]", "", StringComparison.Ordinal);
        const string torques = "work.torques.";
        // Fasteners share their sentence, but each has a name of its own.
        return
            bare.StartsWith(torques, StringComparison.Ordinal)
            && !bare[torques.Length..].Contains('.', StringComparison.Ordinal)
            ? Texts.Find("label." + bare)
            : Texts.Find("label." + TextKey(path));
    }

    private static string TextKey(string path)
    {
        var key = path.Replace("[]", "", StringComparison.Ordinal)
            .Replace(".cage.tension.", ".cage.pulley.", StringComparison.Ordinal)
            .Replace(".cage.guide.", ".cage.pulley.", StringComparison.Ordinal);
        const string torques = "work.torques.";
        if (key.StartsWith(torques, StringComparison.Ordinal))
        {
            var inner = key[torques.Length..].Split('.');
            key = inner.Length == 1 ? torques + "fastener" : torques + "fastener." + inner[1];
        }
        return MeasuredFields.AboutKey(key);
    }
}
