using System.Collections.Immutable;

namespace Cogwright.Parts.Rules;

/// <summary>
/// The rules that compare parts, as data. What is compared and how stands here; title, sentences and source of each stand
/// under its id in the resources. The rules that ask the mechanism itself are in <see cref="MechanismRules"/>.
/// </summary>
internal static class RuleCatalogue
{
    private static readonly BuildNumber CogCount = BuildNumber.OfTeeth(
        "cogCount",
        PartKind.Cassette,
        teeth => teeth.Length
    );

    private static readonly BuildNumber Largest = BuildNumber.OfTeeth(
        "largest",
        PartKind.Cassette,
        teeth => teeth.Max()
    );

    private static readonly BuildNumber Smallest = BuildNumber.OfTeeth(
        "smallest",
        PartKind.Cassette,
        teeth => teeth.Min()
    );

    private static readonly BuildNumber LargestRing = BuildNumber.OfTeeth(
        "ring",
        PartKind.Rings,
        teeth => teeth.Max()
    );

    private static readonly BuildNumber SmallestRing = BuildNumber.OfTeeth(
        "ring",
        PartKind.Rings,
        teeth => teeth.Min()
    );

    private static readonly BuildNumber Rings = BuildNumber.OfTeeth(
        "rings",
        PartKind.Rings,
        teeth => teeth.Length
    );

    private static readonly BuildNumber RingDifference = BuildNumber.OfTeeth(
        "ringDifference",
        PartKind.Rings,
        teeth => teeth.Max() - teeth.Min()
    );

    private static readonly BuildNumber LeastRingStep = BuildNumber.OfTeeth(
        "ringStep",
        PartKind.Rings,
        LeastStep
    );

    /// <summary>Ring difference and cog difference together (teeth).</summary>
    private static readonly BuildNumber CapacityAsked = new(
        "capacityAsked",
        "",
        0,
        [(PartFields.Teeth, [PartKind.Rings]), (PartFields.Teeth, [PartKind.Cassette])],
        parts =>
            parts[(int)PartKind.Rings]?.Numbers(PartFields.Teeth) is { IsEmpty: false } rings
            && parts[(int)PartKind.Cassette]?.Numbers(PartFields.Teeth) is { IsEmpty: false } cogs
                ? rings.Max() - rings.Min() + cogs.Max() - cogs.Min()
                : null
    );

    /// <summary>Least inner width of a chain for a ring: its thickness and 0.1 mm of play (from memory).</summary>
    private static readonly BuildNumber RingWithPlay = new(
        "ringWithPlay",
        "mm",
        2,
        [(PartFields.RingThickness, [PartKind.Rings])],
        parts => parts[(int)PartKind.Rings]?.Number(PartFields.RingThickness) + 0.1
    );

    /// <summary>Positions of a shifter that a stop may leave unused; more is another shifter (from memory).</summary>
    private const double MostClicksOver = 2;

    /// <summary>All rules, in the order in which a mechanic would ask: wheel, cogs, chain, crank, rear, front.</summary>
    internal static ImmutableArray<PartRule> All { get; } =
    [
        new TagRule("rear-axle", PartFields.RearAxle, [PartKind.Frame], PartKind.RearWheel),
        Number(
            "hub-spacing",
            BuildNumber.Of(PartFields.HubSpacing, PartKind.RearWheel),
            Comparison.Same,
            BuildNumber.Of(PartFields.HubSpacing, PartKind.Frame),
            1
        ),
        new TagRule("hub-driver", PartFields.HubDriver, [PartKind.RearWheel], PartKind.Cassette),
        Number(
            "shifter-clicks",
            BuildNumber.Of(PartFields.Speeds, PartKind.RearShifter),
            Comparison.SameOrMore,
            CogCount,
            1,
            mostOver: MostClicksOver,
            movedBy: MovedBy.Cable
        ),
        Number(
            "motor-places",
            BuildNumber.Of(PartFields.Speeds, PartKind.RearShifter),
            Comparison.Same,
            CogCount,
            1,
            movedBy: MovedBy.Motor
        ),
        new IndexRule("index"),
        new ActuationRule(
            "rear-actuation",
            PartKind.RearShifter,
            PartKind.RearDerailleur,
            PartFields.Pull,
            PartFields.ShiftRatio
        ),
        Number(
            "chain-speeds",
            BuildNumber.Of(PartFields.Speeds, PartKind.Chain),
            Comparison.SameOrMore,
            CogCount,
            1
        ),
        Number(
            "chain-on-rings",
            BuildNumber.Of(PartFields.InnerWidth, PartKind.Chain),
            Comparison.AtLeast,
            RingWithPlay,
            0.1
        ),
        new ContainsRule(
            "tooth-form",
            PartFields.ToothForm,
            PartKind.Rings,
            PartFields.ToothForms,
            PartKind.Chain
        ),
        new TagRule("shell", PartFields.Shell, [PartKind.Frame], PartKind.BottomBracket),
        new TagRule("spindle", PartFields.Spindle, [PartKind.BottomBracket], PartKind.Crank),
        new TagRule("ring-mount", PartFields.RingMount, [PartKind.Crank], PartKind.Rings),
        Number(
            "crank-smallest-ring",
            SmallestRing,
            Comparison.AtLeast,
            BuildNumber.Of(PartFields.SmallestRing, PartKind.Crank),
            2,
            onlyIfSaid: true
        ),
        Number(
            "frame-largest-ring",
            LargestRing,
            Comparison.AtMost,
            BuildNumber.Of(PartFields.LargestRing, PartKind.Frame),
            2
        ),
        new ChainlineRule("chainline"),
        new TagRule("hanger-fit", PartFields.HangerFit, [PartKind.Frame], PartKind.Hanger),
        new TagRule(
            "derailleur-mount",
            PartFields.DerailleurMount,
            [PartKind.Hanger, PartKind.Frame],
            PartKind.RearDerailleur
        ),
        new TagRule("cage-fit", PartFields.CageFit, [PartKind.RearDerailleur], PartKind.Cage),
        Number(
            "largest-cog",
            Largest,
            Comparison.AtMost,
            BuildNumber.Of(PartFields.LargestCog, PartKind.RearDerailleur),
            2
        ),
        Number(
            "least-largest-cog",
            Largest,
            Comparison.AtLeast,
            BuildNumber.Of(PartFields.SmallestLargestCog, PartKind.RearDerailleur),
            2,
            onlyIfSaid: true
        ),
        Number(
            "smallest-cog",
            Smallest,
            Comparison.AtLeast,
            BuildNumber.Of(PartFields.SmallestCog, PartKind.RearDerailleur),
            1,
            onlyIfSaid: true
        ),
        Number(
            "capacity",
            CapacityAsked,
            Comparison.AtMost,
            BuildNumber.Of(PartFields.Capacity, PartKind.Cage, PartKind.RearDerailleur),
            4
        ),
        new TagRule(
            "front-mount",
            PartFields.FrontMount,
            [PartKind.Frame],
            PartKind.FrontDerailleur
        ),
        new TagRule(
            "front-pull",
            PartFields.FrontPull,
            [PartKind.Frame],
            PartKind.FrontDerailleur,
            ofCables: true
        ),
        Number(
            "front-rings",
            BuildNumber.Of(PartFields.RingCount, PartKind.FrontDerailleur),
            Comparison.SameOrMore,
            Rings,
            1
        ),
        Number(
            "front-largest-ring",
            LargestRing,
            Comparison.AtMost,
            BuildNumber.Of(PartFields.LargestRing, PartKind.FrontDerailleur),
            2
        ),
        Number(
            "front-capacity",
            RingDifference,
            Comparison.AtMost,
            BuildNumber.Of(PartFields.Capacity, PartKind.FrontDerailleur),
            2
        ),
        Number(
            "front-ring-step",
            LeastRingStep,
            Comparison.AtLeast,
            BuildNumber.Of(PartFields.LeastRingDifference, PartKind.FrontDerailleur),
            2,
            onlyIfSaid: true
        ),
        new ActuationRule(
            "front-actuation",
            PartKind.FrontShifter,
            PartKind.FrontDerailleur,
            PartFields.FrontPullFamily,
            PartFields.FrontPullFamily
        ),
        new TagRule(
            "front-cable-pull",
            PartFields.FrontPullFamily,
            [PartKind.FrontShifter],
            PartKind.FrontDerailleur,
            ofCables: true
        ),
        Number(
            "front-positions",
            BuildNumber.Of(PartFields.RingCount, PartKind.FrontShifter),
            Comparison.SameOrMore,
            Rings,
            1
        ),
    ];

    private static NumberRule Number(
        string id,
        BuildNumber left,
        Comparison comparison,
        BuildNumber right,
        double comfortable,
        bool onlyIfSaid = false,
        double mostOver = double.PositiveInfinity,
        MovedBy movedBy = MovedBy.Any
    ) => new(id, left, comparison, right, comfortable, onlyIfSaid, mostOver, movedBy);

    /// <summary>The least difference between neighbouring rings (teeth); with one ring more than anybody asks for.</summary>
    private static double LeastStep(ImmutableArray<double> teeth)
    {
        var sorted = teeth.Sort();
        var least = 99.0;
        for (var i = 1; i < sorted.Length; i++)
        {
            least = Math.Min(least, sorted[i] - sorted[i - 1]);
        }
        return least;
    }
}
