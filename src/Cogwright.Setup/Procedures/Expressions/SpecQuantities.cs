using System.Collections.Immutable;
using Cogwright.Setup.Catalogue;

namespace Cogwright.Setup.Procedures.Expressions;

/// <summary>The named quantities of one bike: what its catalogue says, and the targets made from it. Immutable.</summary>
public sealed class SpecQuantities : ISpecQuantities
{
    private readonly QuantityCatalogue catalogue;
    private readonly ImmutableArray<Target> targets;

    private SpecQuantities(QuantityCatalogue catalogue, ImmutableArray<Target> targets)
    {
        this.catalogue = catalogue;
        this.targets = targets;
    }

    /// <summary>The quantities of a bike.</summary>
    /// <param name="catalogue">What the model says of it.</param>
    /// <param name="work">How it is shifted and what its makers ask for; without problems (<see cref="WorkCheck"/>).</param>
    public static SpecQuantities Of(QuantityCatalogue catalogue, WorkSpec work) =>
        new(catalogue, TargetList.Make(catalogue, work));

    /// <inheritdoc />
    public double? Find(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var gap = Target(TargetNames.Gap);
        return name switch
        {
            "largestRing" => catalogue.LargestRing,
            "smallestRing" => catalogue.SmallestRing,
            "largestCog" => catalogue.LargestCog,
            "smallestCog" => catalogue.SmallestCog,
            "ringCount" => catalogue.Rings.Length,
            "cogCount" => catalogue.Cogs.Length,
            "cogSpacing" => catalogue.Cogs.Length > 1 ? catalogue.CogSpacingMm : null,
            "chainPitches" => catalogue.Chain.Pitches,
            "directPath" => catalogue.Chain.DirectPath,
            "gapTarget" => gap?.Value ?? ((gap?.Lower + gap?.Upper) / 2),
            "gapLeast" => gap?.Lower,
            "gapMost" => gap?.Upper,
            "gapRing" => gap?.Gear?.RingTeeth,
            "gapCog" => gap?.Gear?.CogTeeth,
            "hangerMost" => Target(TargetNames.HangerStraight)?.Upper,
            "frontHeightLeast" => Target(TargetNames.FrontHeight)?.Lower,
            "frontHeightMost" => Target(TargetNames.FrontHeight)?.Upper,
            "frontInnerGapLeast" => Target(TargetNames.FrontInnerGap)?.Lower,
            "frontInnerGapMost" => Target(TargetNames.FrontInnerGap)?.Upper,
            "frontOuterGapLeast" => Target(TargetNames.FrontOuterGap)?.Lower,
            "frontOuterGapMost" => Target(TargetNames.FrontOuterGap)?.Upper,
            "sag" => catalogue.SagFraction,
            "sagTravel" => catalogue.SagTravelMm,
            _ when name.EndsWith(SpecNames.Least, StringComparison.Ordinal) => Torque(
                name[..^SpecNames.Least.Length]
            )?.Lower,
            _ when name.EndsWith(SpecNames.Most, StringComparison.Ordinal) => Torque(
                name[..^SpecNames.Most.Length]
            )?.Upper,
            _ => null,
        };
    }

    private Target? Torque(string fastener) => Target(TargetNames.Torque(fastener));

    private Target? Target(string id) => targets.FirstOrDefault(target => target.Id == id);
}
