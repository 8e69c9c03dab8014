using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Web.Bikes;

/// <summary>Whose figures a change of a spec is about.</summary>
internal static class ChangedParts
{
    /// <summary>The kinds of part, by the names that procedures use; empty for what no setting is made from.</summary>
    /// <param name="change">The change.</param>
    internal static ImmutableArray<string> Of(SpecChange change) =>
        [.. change.Fields.Keys.SelectMany(Of).Select(PartKinds.NameOf).Distinct()];

    private static PartKind[] Of(string path)
    {
        var names = path.Split('.', '[');
        return names[0] switch
        {
            "parts" when names.Length > 1 && PartKinds.Find(names[1]) is { } kind => [kind],
            "frame" => [PartKind.Frame],
            "hanger" => [PartKind.Hanger],
            "rings" => [PartKind.Rings],
            "cogs" when names is [_, "hubSpacing" or "smallestLateral", ..] => [PartKind.RearWheel],
            "cogs" => [PartKind.Cassette],
            "chain" => [PartKind.Chain],
            "rearDerailleur" => [PartKind.RearDerailleur],
            "frontDerailleur" => [PartKind.FrontDerailleur],
            "shifting" => [PartKind.RearShifter],
            _ => [],
        };
    }
}
