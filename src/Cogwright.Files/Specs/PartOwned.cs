using System.Collections.Immutable;
using Cogwright.Drivetrain;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>
/// Which fields of a spec tell of which part: what was written, and above all what was measured, of the old part does not
/// hold of a new one.
/// </summary>
internal static class PartOwned
{
    /// <summary>The length of the chain: it stays on the bike when other parts are replaced, unless it is chosen anew.</summary>
    internal const string ChainLength = "chain.pitches";

    /// <summary>The list of the adjusters, which each tell what they move.</summary>
    internal const string Adjusters = "adjusters";

    /// <summary>What was measured on the bench: on the derailleur, and on what it hangs on.</summary>
    internal const string Measured = "measured";

    private const string CageToSpokes = "wheel.cageToSpokes";

    /// <summary>
    /// The fields, or the groups with all that is in them, that tell of the part which this one replaces; in the form of the
    /// field table, such as <c>rings[].lateral</c>.
    /// </summary>
    internal static ImmutableArray<string> PathsOf(Part part) =>
        part.Kind switch
        {
            PartKind.Frame => ["frame", "idler", Measured, CageToSpokes, ChainLength],
            PartKind.Hanger => ["hanger", Measured, CageToSpokes],
            PartKind.RearWheel =>
            [
                "wheel",
                "cogs.hubSpacing",
                "cogs.recess",
                "cogs.chainline",
                "cogs.smallestLateral",
            ],
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
                CageToSpokes,
                "rearDerailleur.gap",
                "gearsNotUsed",
                ChainLength,
            ],
            PartKind.Chain => ["chain"],
            PartKind.Crank => ["crank.chainline", "crank.ringSpacing", "rings[].lateral"],
            PartKind.Rings =>
            [
                "rings",
                "crank.ringThickness",
                // Each names its ring.
                "frontDerailleur.trims",
                "rearDerailleur.gap",
                "gearsNotUsed",
                ChainLength,
            ],
            PartKind.RearDerailleur =>
            [
                "rearDerailleur",
                Measured,
                "shifting.shiftRatio",
                "shifting.positions",
                // A pull says nothing without a ratio.
                .. Without(part, PartFields.ShiftRatio, "shifting.pull"),
                "work.actuation",
                CageToSpokes,
                ChainLength,
            ],
            PartKind.Cage => ["rearDerailleur.cage", Measured, CageToSpokes, ChainLength],
            PartKind.FrontDerailleur => ["frontDerailleur"],
            PartKind.RearShifter =>
            [
                "shifting.pull",
                "shifting.positions",
                .. Without(part, PartFields.Pull, "shifting.shiftRatio"),
                "work.actuation",
            ],
            _ => [],
        };

    /// <summary>Whether what was measured on the bench was measured on a part of that kind, so that it goes with it.</summary>
    internal static bool OwnsMeasured(PartKind kind) =>
        kind is PartKind.Frame or PartKind.Hanger or PartKind.RearDerailleur or PartKind.Cage;

    /// <summary>Whether an adjuster that moves that is one of the part which this one replaces.</summary>
    internal static bool OwnsAdjuster(Part part, string? moves)
    {
        foreach (var (moved, name) in ShiftingFields.Moved)
        {
            if (name == moves)
            {
                return part.Kind switch
                {
                    PartKind.RearDerailleur => moved
                        is Moves.RearInboardStop
                            or Moves.RearOutboardStop
                            or Moves.OffsetStep,
                    PartKind.FrontDerailleur => moved
                        is Moves.FrontInboardStop
                            or Moves.FrontOutboardStop
                            or Moves.FrontHeight
                            or Moves.FrontSupport,
                    _ => false,
                };
            }
        }
        return false;
    }

    private static ImmutableArray<string> Without(Part part, PartField field, string path) =>
        part.Values.ContainsKey(field) ? [] : [path];
}
