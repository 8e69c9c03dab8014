using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>Parts put into a spec that somebody fills in.</summary>
public static class SheetParts
{
    private const string ChainLength = "chain.pitches";

    /// <summary>Where a sheet names its part of a kind, such as <c>parts.cassette</c>.</summary>
    public static string PathOf(PartKind kind) => PartsFields.PathOf(kind);

    /// <summary>
    /// The sheet with a part fitted: it names the part, and what it said itself of the old one is gone. The chain keeps its
    /// length unless it is replaced: it is on the bike, and the rules say whether it still serves.
    /// </summary>
    /// <param name="sheet">The sheet.</param>
    /// <param name="part">The part; an adapter is added to those there are.</param>
    public static SpecSheet Fit(this SpecSheet sheet, Part part)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(part);
        var path = PathOf(part.Kind);
        if (part.Kind == PartKind.Adapter)
        {
            return sheet.With(
                path,
                sheet[path]?.Trim('[', ']') is { Length: > 0 } others
                    ? $"[{others}, {part.Id}]"
                    : $"[{part.Id}]"
            );
        }
        var owned = PartOwned
            .PathsOf(part.Kind)
            .Where(p => p != ChainLength || part.Kind == PartKind.Chain)
            .ToList();
        foreach (var given in sheet.Values.Keys.Where(p => owned.Exists(o => IsIn(p, o))).ToList())
        {
            sheet = sheet.With(given, null);
        }
        return sheet.With(path, part.Id);
    }

    private static bool IsIn(string path, string group) =>
        path.StartsWith(group, StringComparison.Ordinal)
        && (path.Length == group.Length || path[group.Length] is '.' or '[');
}
