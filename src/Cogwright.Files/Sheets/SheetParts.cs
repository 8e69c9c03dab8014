using System.Collections.Immutable;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>Parts put into a spec that somebody fills in.</summary>
public static class SheetParts
{
    /// <summary>Where a sheet names its part of a kind, such as <c>parts.cassette</c>.</summary>
    public static string PathOf(PartKind kind) => PartsFields.PathOf(kind);

    /// <summary>The ids of the parts that a sheet names, as they stand there: whether such parts exist is not asked.</summary>
    public static ImmutableArray<string> NamedIds(this SpecSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return
        [
            .. sheet
                .Values.Where(value =>
                    value.Key.StartsWith(PartsFields.Group + ".", StringComparison.Ordinal)
                )
                .SelectMany(value =>
                    value
                        .Value.Trim('[', ']')
                        .Split(
                            ',',
                            StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries
                        )
                ),
        ];
    }

    /// <summary>What the sheet says itself, without the parts that it names.</summary>
    /// <param name="sheet">The sheet.</param>
    public static SpecSheet WithoutParts(this SpecSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        return sheet
            .Values.Keys.Where(path =>
                path.StartsWith(PartsFields.Group + ".", StringComparison.Ordinal)
            )
            .Aggregate(sheet, (rest, path) => rest.With(path, null));
    }

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
            .PathsOf(part)
            .Where(p => p != PartOwned.ChainLength || part.Kind == PartKind.Chain)
            .ToList();
        foreach (
            var given in sheet
                .Values.Keys.Where(p => owned.Exists(o => IsIn(SpecOrder.TablePath(p), o)))
                .ToList()
        )
        {
            sheet = sheet.With(given, null);
        }
        for (var i = sheet.CountOf(PartOwned.Adjusters) - 1; i >= 0; i--)
        {
            if (PartOwned.OwnsAdjuster(part, sheet[$"{PartOwned.Adjusters}[{i}].moves"]))
            {
                sheet = sheet.Without(PartOwned.Adjusters, i);
            }
        }
        return sheet.With(path, part.Id);
    }

    /// <summary>The sheet with a deviation that a head mechanic answers for; of one rule only the latest stands.</summary>
    public static SpecSheet Accept(this SpecSheet sheet, Deviation deviation)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(deviation);
        for (var i = sheet.CountOf(DeviationFields.List) - 1; i >= 0; i--)
        {
            if (sheet[$"{DeviationFields.List}[{i}].rule"] == deviation.RuleId)
            {
                sheet = sheet.Without(DeviationFields.List, i);
            }
        }
        var entry = $"{DeviationFields.List}[{sheet.CountOf(DeviationFields.List)}]";
        return sheet
            .With(entry + ".rule", deviation.RuleId)
            .With(entry + ".ground", deviation.Ground)
            .With(entry + ".reason", deviation.Reason)
            .With(entry + ".by", deviation.By);
    }

    private static bool IsIn(string path, string group) =>
        path.StartsWith(group, StringComparison.Ordinal)
        && (path.Length == group.Length || path[group.Length] is '.' or '[');
}
