using System.Collections.Immutable;
using Cogwright.Drivetrain;

namespace Cogwright.Setup.Catalogue;

/// <summary>
/// The one door through which setting up sees the mechanism: named quantities with unit, convention and gear, and the
/// facts that targets are made from. Nothing outside this namespace knows the drivetrain's own types. Immutable.
/// </summary>
public sealed partial class QuantityCatalogue
{
    private readonly DrivetrainSpec spec;
    private readonly ChainChoice choice;
    private readonly GearTable? table;

    private QuantityCatalogue(DrivetrainSpec spec, ChainChoice choice, GearTable? table)
    {
        this.spec = spec;
        this.choice = choice;
        this.table = table;
        Rings = [.. spec.Rings.Select(ring => ring.Teeth).OrderDescending()];
        Cogs = [.. spec.Cogs.Teeth.Order()];
        Chain = MakeChain();
        Gears = MakeGears();
        GearsNotToUse = MakeGearsNotToUse();
        Assumed = [.. spec.Assumptions.Select(a => new AssumedValue(a.Path, a.Value, a.From))];
        Quantities = [.. QuantityMaker.Make(spec, choice, table)];
        SetUp = MakeSetUp();
        Front = table is null ? null : FrontFacts.Of(table, new(spec.Assumptions));
    }

    /// <summary>What the bike is called.</summary>
    public string BikeName => spec.Name;

    /// <summary>Numbers of teeth of the rings, largest first.</summary>
    public ImmutableArray<int> Rings { get; }

    /// <summary>Numbers of teeth of the cogs, smallest first.</summary>
    public ImmutableArray<int> Cogs { get; }

    /// <summary>Rings and cogs in one line, such as <c>50-34 × 11-12-13-14-15-17-19-21-24-27-30-34</c>.</summary>
    public string Gearing => $"{string.Join('-', Rings)} × {string.Join('-', Cogs)}";

    /// <summary>From cog to cog, middle to middle (mm).</summary>
    public double CogSpacingMm => spec.Cogs.SpacingMm;

    /// <summary>Teeth of the largest ring.</summary>
    public int LargestRing => Rings[0];

    /// <summary>Teeth of the smallest ring.</summary>
    public int SmallestRing => Rings[^1];

    /// <summary>Teeth of the largest cog.</summary>
    public int LargestCog => Cogs[^1];

    /// <summary>Teeth of the smallest cog.</summary>
    public int SmallestCog => Cogs[0];

    /// <summary>Whether there is a rear derailleur.</summary>
    public bool HasRearDerailleur => spec.RearDerailleur is not null;

    /// <summary>Whether the axle slides in its slots to tension the chain.</summary>
    public bool AxleSlides => spec.Frame.AxleTravelMm > 0;

    /// <summary>What the chain choice says.</summary>
    public ChainFacts Chain { get; }

    /// <summary>All gears, ring by ring as in the spec, each from the smallest cog to the largest; empty when nothing could be solved.</summary>
    public ImmutableArray<GearFacts> Gears { get; }

    /// <summary>Gears that must not be used: the spec's own, those to lock out, and those that the mechanism cannot serve.</summary>
    public ImmutableArray<GearNotToUse> GearsNotToUse { get; }

    /// <summary>Values that nobody measured or stated.</summary>
    public ImmutableArray<AssumedValue> Assumed { get; }

    /// <summary>What the model knows of the front derailleur, or null when the spec does not describe it.</summary>
    public FrontFacts? Front { get; }

    /// <summary>All quantities; one that does not exist in a gear's state is left out rather than given as no number.</summary>
    public ImmutableArray<Quantity> Quantities { get; }

    /// <summary>The screw that sets the body angle, or null when the spec does not describe it.</summary>
    public ScrewFacts? Screw =>
        spec.RearDerailleur?.BodyAngleScrew is { } screw
            ? new(
                screw.Name,
                screw.Tool,
                screw is { ThreadPitchMm: not null, LeverRadiusMm: not null }
                    || IsSprung
                        && spec.RearDerailleur.Sprung
                            is { ScrewNmPerTurn: not null }
                                or { ScrewRadPerTurn: not null },
                screw.ClockwiseWidensGap,
                screw.LeastTurn,
                IsSprung
            )
            : null;

    /// <summary>Makes the catalogue of a bike.</summary>
    /// <param name="spec">The bike, without problems (<see cref="SpecCheck"/>).</param>
    /// <param name="choice">The chain choice for it.</param>
    /// <param name="table">The gear table for the chain that is or will be fitted, or null when there is none.</param>
    public static QuantityCatalogue Of(DrivetrainSpec spec, ChainChoice choice, GearTable? table)
    {
        ArgumentNullException.ThrowIfNull(spec);
        ArgumentNullException.ThrowIfNull(choice);
        return new(spec, choice, table);
    }

    /// <summary>The quantity with that name in that gear (null for one without a gear), or null when there is none.</summary>
    public Quantity? Find(string name, (int RingTeeth, int CogTeeth)? gear = null)
    {
        foreach (var quantity in Quantities)
        {
            if (quantity.Name == name && quantity.Gear == gear)
            {
                return quantity;
            }
        }
        return null;
    }

    /// <summary>What is true of a gear, or null when the bike has none such.</summary>
    public GearFacts? FindGear((int RingTeeth, int CogTeeth) gear)
    {
        foreach (var facts in Gears)
        {
            if ((facts.RingTeeth, facts.CogTeeth) == gear)
            {
                return facts;
            }
        }
        return null;
    }

    /// <summary>Whether the bike has that ring and that cog.</summary>
    public bool Has((int RingTeeth, int CogTeeth) gear) =>
        Rings.Contains(gear.RingTeeth) && Cogs.Contains(gear.CogTeeth);

    private ImmutableArray<GearFacts> MakeGears()
    {
        if (table is null)
        {
            return [];
        }
        var findings = GearWords.Findings(table);
        return
        [
            .. table.Gears.Select(gear => new GearFacts(
                gear.Gear.RingTeeth,
                gear.Gear.CogTeeth,
                gear.State is GearState.Ok,
                spec.GearsNotUsed.Contains(gear.Gear),
                GearWords.State(gear, spec),
                [.. findings[gear.Gear]],
                spec.RearDerailleur is not null && gear.HasPose ? gear.GapMm : null
            )),
        ];
    }

    private ChainFacts MakeChain() =>
        new()
        {
            // A table solved with the bench rule's number alone, where no length serves, is no advice to cut it.
            Pitches = (spec.Chain.Pitches ?? choice.Numbers.Recommended) is { } length
                ? table?.Pitches ?? length
                : null,
            StatedBySpec = spec.Chain.Pitches is not null,
            HalfLink = spec.Chain.HalfLink,
            Recommended = choice.Numbers.Recommended,
            DirectPath = choice.Numbers.DirectLargestPitches,
            BenchRule = choice.Numbers.BenchRule,
            RoundingEdge = choice.RoundingEdgePitches,
            RoundingEdgeIsBelow = choice.RoundingEdgeIsBelow,
            Reasons = [.. Explanation.Reasons(spec, choice)],
        };

    private ImmutableArray<GearNotToUse> MakeGearsNotToUse()
    {
        var list = ImmutableArray.CreateBuilder<GearNotToUse>();
        foreach (var ring in spec.Rings)
        {
            foreach (var cog in spec.Cogs.Teeth)
            {
                var reasons = Reasons(new Gear(ring.Teeth, cog)).ToArray();
                if (reasons.Length > 0)
                {
                    list.Add(new(ring.Teeth, cog, string.Join(" ", reasons)));
                }
            }
        }
        return list.ToImmutable();
    }

    private IEnumerable<string> Reasons(Gear gear)
    {
        if (spec.GearsNotUsed.Contains(gear))
        {
            yield return Texts.Get("notToUse.spec");
        }
        if (choice.LockOut.Contains(gear))
        {
            yield return Texts.Get("notToUse.lockOut");
        }
        if (table?.Find(gear) is { } result)
        {
            if (GearWords.Reason(result, spec) is { } reason)
            {
                yield return reason;
            }
            yield break;
        }
        foreach (var left in choice.LeftOut)
        {
            if (left.Gear == gear && GearWords.Reason(left, spec) is { } reason)
            {
                yield return reason;
            }
        }
    }
}
