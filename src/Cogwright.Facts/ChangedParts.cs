using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Facts;

/// <summary>Whose figures a change of a spec is about.</summary>
public static class ChangedParts
{
    /// <summary>The kinds of part, by the names that procedures use; empty for what no setting is made from.</summary>
    /// <param name="change">The change.</param>
    public static ImmutableArray<string> Of(SpecChange change) =>
        [.. change.Fields.Keys.SelectMany(Of).Select(PartKinds.NameOf).Distinct()];

    private static PartKind[] Of(string path)
    {
        var names = path.Split('.', '[');
        return names[0] switch
        {
            "parts" when names.Length > 1 && PartKinds.Find(names[1]) is { } kind => [kind],
            "frame" or "idler" => [PartKind.Frame],
            "wheel" => [PartKind.RearWheel],
            "crank" => [PartKind.Crank],
            "hanger" => [PartKind.Hanger],
            "rings" => [PartKind.Rings],
            "cogs" when names is [_, "hubSpacing" or "recess", ..] => [PartKind.RearWheel],
            // Where the cogs stand is of the hub and of the cogs.
            "cogs" when names is [_, "chainline" or "smallestLateral", ..] =>
            [
                PartKind.RearWheel,
                PartKind.Cassette,
            ],
            "cogs" => [PartKind.Cassette],
            "chain" => [PartKind.Chain],
            "rearDerailleur" when names is [_, "cage", ..] =>
            [
                PartKind.RearDerailleur,
                PartKind.Cage,
            ],
            "rearDerailleur" => [PartKind.RearDerailleur],
            "frontDerailleur" => [PartKind.FrontDerailleur],
            "shifting" => [PartKind.RearShifter, PartKind.RearDerailleur],
            _ => [],
        };
    }
}
