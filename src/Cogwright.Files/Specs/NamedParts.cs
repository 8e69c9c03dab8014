using System.Collections.Immutable;
using Cogwright.Files.Documents;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>The parts that a spec names: looked up, and afterwards told with what the spec says otherwise.</summary>
internal static class NamedParts
{
    /// <summary>Most ids that are compared with a misspelt one, so that a library of any size answers at once.</summary>
    private const int MostCompared = 5000;

    /// <summary>The parts that are found; the others are told as errors where they are named.</summary>
    internal static ImmutableArray<Part> Resolve(
        Leaves leaves,
        PartLibrary library,
        ProblemList problems
    )
    {
        var found = ImmutableArray.CreateBuilder<Part>();
        foreach (var kind in PartKinds.All)
        {
            var path = PartsFields.PathOf(kind);
            if (kind == PartKind.Adapter)
            {
                var ids = leaves.Find(path)?.Value as ImmutableArray<string>? ?? [];
                for (var i = 0; i < ids.Length; i++)
                {
                    Look(ids[i], kind, $"{path}[{i}]");
                }
            }
            else if (leaves.Text(path) is { } id)
            {
                Look(id, kind, path);
            }
        }
        return found.ToImmutable();

        void Look(string id, PartKind kind, string path)
        {
            var part = library.Find(id);
            if (part?.Kind == kind)
            {
                found.Add(part);
                return;
            }
            leaves.SetFailed(path);
            leaves.SetFailed(PartsFields.PathOf(kind));
            problems.Error(
                leaves.NearestPlace(path),
                path,
                part is not null
                        ? Texts.Get(
                            "part.otherKind",
                            id,
                            PartKinds.TitleOf(part.Kind),
                            PartKinds.TitleOf(kind)
                        )
                    : Near(id, kind, library) is { } near ? Texts.Get("part.unknownNear", id, near)
                    : Texts.Get("part.unknown", id)
            );
        }
    }

    private static string? Near(string id, PartKind kind, PartLibrary library) =>
        NearestName.Find(id, library.Of(kind).Take(MostCompared).Select(part => part.Id));

    /// <summary>The build of these parts, with the values that the spec itself gives in the place of theirs.</summary>
    internal static Build WithOverrides(ImmutableArray<Part> parts, Leaves leaves)
    {
        var build = new Build(parts);
        foreach (var (kind, field, path) in PartPaths.All)
        {
            if (
                build[kind] is { } part
                && IsGiven(leaves, path)
                && PartPaths.ToPart(leaves.Find(path)!.Value) is { } value
            )
            {
                build = build.With(part.With(field, value));
            }
        }
        if (build[PartKind.Rings] is { } rings && IsGiven(leaves, $"{PartPaths.Rings}[0].teeth"))
        {
            build = build.With(rings.With(PartFields.Teeth, RingTeeth(leaves)));
        }
        return build;
    }

    /// <summary>The teeth of the rings, the smallest first.</summary>
    internal static PartValue RingTeeth(Leaves leaves) =>
        new PartValue.Numbers([
            .. Enumerable
                .Range(0, leaves.Count(PartPaths.Rings))
                .Select(i => (double)leaves.Whole($"{PartPaths.Rings}[{i}].teeth"))
                .Order(),
        ]);

    /// <summary>What the parts give to the spec, in the order of the field table.</summary>
    internal static ImmutableArray<PartSupplied> Supplied(Leaves leaves) =>
        [
            .. leaves
                .All.Where(leaf => leaf.Value.PartId is not null)
                .Select(leaf => new PartSupplied(
                    leaf.Key,
                    ValueText.ForPeople(leaf.Value.Value, leaf.Value.Shape),
                    leaf.Value.PartId!
                ))
                .OrderBy(given => SpecOrder.Of(given.Path))
                .ThenBy(given => given.Path, StringComparer.Ordinal),
        ];

    private static bool IsGiven(Leaves leaves, string path) =>
        leaves.Find(path) is { PartId: null, From: null }
        && (
            leaves.StandsInFile(path)
            // A bare number stands for a ring.
            || leaves.StandsInFile(path[..Math.Max(path.LastIndexOf('.'), 0)])
                && path.StartsWith(PartPaths.Rings + "[", StringComparison.Ordinal)
        );
}
