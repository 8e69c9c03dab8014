using Cogwright.Drivetrain;
using Cogwright.Files.Fields;
using Cogwright.Parts;

namespace Cogwright.Files;

/// <summary>The parts of a spec, so that rules about parts can be asked of any spec.</summary>
public static class SpecParts
{
    private const string CogSpacing = "cogs.spacing";

    /// <summary>
    /// The build of a spec: the parts it names, and for each other kind that it describes a stand-in (with an empty
    /// <see cref="Part.Id"/>) that holds what the spec itself gives. Of what is assumed only the distance from cog to cog is in it.
    /// </summary>
    public static Build BuildOf(SpecFile spec)
    {
        ArgumentNullException.ThrowIfNull(spec);
        var leaves = SpecLeaves.Of(spec);
        var isSpacingAssumed = false;
        foreach (var assumed in spec.Drivetrain.Assumptions)
        {
            if (assumed.Path == CogSpacing)
            {
                // Cogs of one number stand alike to a few hundredths: said as assumed, it is better than nothing.
                isSpacingAssumed = true;
                continue;
            }
            leaves.Remove(assumed.Path);
        }
        var build = spec.Parts;
        foreach (var kind in PartKinds.All)
        {
            if (
                kind != PartKind.Adapter
                && build[kind] is null
                && StandIn(spec, leaves, kind) is { } part
            )
            {
                build = build.With(
                    kind == PartKind.Cassette && isSpacingAssumed
                        ? part with
                        {
                            Assumed = [PartFields.Spacing],
                        }
                        : part
                );
            }
        }
        return build;
    }

    private static Part? StandIn(SpecFile spec, Leaves leaves, PartKind kind)
    {
        var part = new Part
        {
            Id = "",
            Kind = kind,
            Name = Texts.Get("part.inSpec", PartKinds.TitleOf(kind)),
        };
        foreach (var (_, field, path) in PartPaths.All.Where(row => row.Kind == kind))
        {
            if (leaves.Find(path) is { } leaf && PartPaths.ToPart(leaf.Value) is { } value)
            {
                part = part.With(field, value);
            }
        }
        part = WithMore(part, spec, leaves);
        return part.Values.IsEmpty && !IsDescribed(spec.Drivetrain, kind) ? null : part;
    }

    /// <summary>What follows from several fields of the spec, or from their number.</summary>
    private static Part WithMore(Part part, SpecFile spec, Leaves leaves)
    {
        switch (part.Kind)
        {
            case PartKind.Rings:
                return part.With(
                    PartFields.Teeth,
                    new PartValue.Numbers([
                        .. spec.Drivetrain.Rings.Select(ring => (double)ring.Teeth).Order(),
                    ])
                );
            case PartKind.RearDerailleur or PartKind.Cage:
                const string cage = "rearDerailleur.cage.";
                return
                    leaves.Find(cage + "guide.offset")?.Value is Point guide
                    && leaves.Find(cage + "tension.offset")?.Value is Point tension
                    && part.Kind == PartKind.RearDerailleur
                    && spec.Parts[PartKind.Cage] is null
                    ? part.With(
                        PartFields.CageLength,
                        new PartValue.Number(
                            Math.Round(
                                Math.Sqrt(
                                    ((guide.X - tension.X) * (guide.X - tension.X))
                                        + ((guide.Y - tension.Y) * (guide.Y - tension.Y))
                                ),
                                3
                            )
                        )
                    )
                    : part;
            case PartKind.RearShifter when spec.Drivetrain.Shifting is { } shifting:
                var positions = shifting.PositionsMm.IsDefaultOrEmpty
                    ? shifting.PullMm.IsDefaultOrEmpty
                        ? 0
                        : shifting.PullMm.Length + 1
                    : shifting.PositionsMm.Length;
                return positions == 0
                    ? part
                    : part.With(PartFields.Speeds, new PartValue.Number(positions));
            default:
                return part;
        }
    }

    private static bool IsDescribed(DrivetrainSpec spec, PartKind kind) =>
        kind switch
        {
            PartKind.Frame => true,
            PartKind.Hanger => spec.Hanger is not null,
            PartKind.RearDerailleur => spec.RearDerailleur is not null,
            PartKind.FrontDerailleur => spec.FrontDerailleur is not null,
            _ => false,
        };
}
