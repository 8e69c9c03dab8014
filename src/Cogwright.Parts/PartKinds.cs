using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>The kinds of part, with their names in files and what a mechanic calls them.</summary>
public static class PartKinds
{
    /// <summary>All kinds, in the order in which a bike is put together.</summary>
    public static ImmutableArray<PartKind> All { get; } = [.. Enum.GetValues<PartKind>()];

    private static readonly ImmutableArray<string> Names =
    [
        .. All.Select(kind => char.ToLowerInvariant(kind.ToString()[0]) + kind.ToString()[1..]),
    ];

    private static readonly FrozenDictionary<string, PartKind> ByName = All.ToFrozenDictionary(
        NameOf,
        StringComparer.Ordinal
    );

    /// <summary>Its name in files, such as <c>rearWheel</c>.</summary>
    public static string NameOf(PartKind kind) => Names[(int)kind];

    /// <summary>The kind of that name, or null when there is none.</summary>
    public static PartKind? Find(string name) =>
        ByName.TryGetValue(name, out var kind) ? kind : null;

    /// <summary>What a mechanic calls it.</summary>
    public static string TitleOf(PartKind kind) => Texts.Get("kind." + kind);
}
