using Cogwright.Parts;

namespace Cogwright.Files.Fields;

/// <summary>The fields in which a spec names its parts: one for each kind, and a list of adapters.</summary>
internal static class PartsFields
{
    /// <summary>The group's name.</summary>
    internal const string Group = "parts";

    /// <summary>Where the adapters stand.</summary>
    internal const string Adapters = "parts.adapters";

    /// <summary>Most adapters of one bike; more is a slip.</summary>
    internal const int MostAdapters = 20;

    internal static Field Parts { get; } =
        new(
            Group,
            new GroupShape([
                .. PartKinds
                    .All.Where(kind => kind != PartKind.Adapter)
                    .Select(kind => new Field(
                        PartKinds.NameOf(kind),
                        new PartIdShape(kind),
                        Need.Optional
                    )),
                new("adapters", new PartIdsShape(), Need.Optional),
            ]),
            Need.Optional
        );

    /// <summary>Where a spec names its part of that kind.</summary>
    internal static string PathOf(PartKind kind) =>
        kind == PartKind.Adapter ? Adapters : $"{Group}.{PartKinds.NameOf(kind)}";
}
