using System.Collections.Immutable;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// Which fields of a spec tell of which kind of part: what was written there of the old part does not hold of a new one.
/// </summary>
internal static class PartOwned
{
    /// <summary>The fields, or the groups with all that is in them, that tell of a part of that kind.</summary>
    internal static ImmutableArray<string> PathsOf(PartKind kind) =>
        kind switch
        {
            PartKind.Frame => ["frame", "idler", "measured", "chain.pitches"],
            PartKind.Hanger => ["hanger", "measured"],
            PartKind.RearWheel => ["wheel", "cogs.hubSpacing", "cogs.recess", "cogs.chainline"],
            PartKind.Cassette =>
            [
                "cogs.teeth",
                "cogs.spacing",
                "cogs.stackWidth",
                "cogs.thickness",
                "cogs.locknutGap",
                "cogs.chainline",
                "cogs.smallestLateral",
                "cogs.tipDiameters",
                "wheel.cogToSpokes",
                "wheel.cageToSpokes",
                "rearDerailleur.gap",
                "gearsNotUsed",
                "chain.pitches",
            ],
            PartKind.Chain => ["chain"],
            PartKind.Crank => ["crank.chainline", "crank.ringSpacing"],
            PartKind.Rings =>
            [
                "rings",
                "crank.ringThickness",
                "rearDerailleur.gap",
                "gearsNotUsed",
                "chain.pitches",
            ],
            PartKind.RearDerailleur =>
            [
                "rearDerailleur",
                "measured",
                "shifting.shiftRatio",
                "shifting.positions",
                "wheel.cageToSpokes",
                "chain.pitches",
            ],
            PartKind.Cage => ["rearDerailleur.cage", "measured", "chain.pitches"],
            PartKind.FrontDerailleur => ["frontDerailleur"],
            PartKind.RearShifter => ["shifting.pull", "shifting.positions"],
            _ => [],
        };
}
