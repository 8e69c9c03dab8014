namespace Cogwright.Setup.Targets;

/// <summary>Makes targets whose words stand in the resources under their own name.</summary>
internal static class Check
{
    /// <summary>
    /// A target with title, convention, tool and note from <c>target.{id}.…</c>; a variant such as <c>motor</c> has
    /// words of its own where it has any. The title must be there.
    /// </summary>
    internal static Target Of(
        string id,
        WorkStage stage,
        string? variant = null,
        string? caution = null
    ) =>
        new()
        {
            Id = id,
            Stage = stage,
            Title = Find(id, variant, "title") ?? Texts.Get($"target.{id}.title"),
            Convention = Find(id, variant, "convention") ?? "",
            Tool = Find(id, variant, "tool"),
            Note = Find(id, variant, "note"),
            Source = TargetSource.CommonPractice,
            TitleInShort = Find(id, variant, "short"),
            ConventionInShort = Find(id, variant, "conventionShort"),
            Caution = caution is null ? null : Texts.Get($"caution.{caution}"),
            CautionInShort = caution is null ? null : Texts.Get($"caution.{caution}.short"),
        };

    private static string? Find(string id, string? variant, string part) =>
        (variant is null ? null : Texts.Find($"target.{id}.{variant}.{part}"))
        ?? Texts.Find($"target.{id}.{part}");
}
