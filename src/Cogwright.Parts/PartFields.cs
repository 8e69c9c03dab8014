using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Cogwright.Parts;

/// <summary>
/// Everything that can be said of parts: the interfaces at which they meet, and the figures on a part's own sheet that the
/// rules compare. What the mechanism needs beyond these stands in <see cref="Part.SpecValues"/>.
/// </summary>
public static class PartFields
{
    // Interfaces: names, compared as they are. The names are generic or a standard's; nothing is read into them.

    /// <summary>What holds the cassette on the hub: the spline or thread of the hub driver.</summary>
    public static PartField HubDriver { get; } =
        Tag("hubDriver", PartKind.RearWheel, PartKind.Cassette);

    /// <summary>The rear axle's standard.</summary>
    public static PartField RearAxle { get; } = Tag("rearAxle", PartKind.Frame, PartKind.RearWheel);

    /// <summary>How an exchangeable hanger meets the frame.</summary>
    public static PartField HangerFit { get; } = Tag("hangerFit", PartKind.Frame, PartKind.Hanger);

    /// <summary>How the rear derailleur is held: on a short or long tab, or on the axle.</summary>
    public static PartField DerailleurMount { get; } =
        Tag("derailleurMount", PartKind.Frame, PartKind.Hanger, PartKind.RearDerailleur);

    /// <summary>How the front derailleur is held.</summary>
    public static PartField FrontMount { get; } =
        Tag("frontMount", PartKind.Frame, PartKind.FrontDerailleur);

    /// <summary>Where the front cable comes from.</summary>
    public static PartField FrontPull { get; } =
        Tag("frontPull", PartKind.Frame, PartKind.FrontDerailleur);

    /// <summary>The bottom bracket shell: thread or bore with its width.</summary>
    public static PartField Shell { get; } = Tag("shell", PartKind.Frame, PartKind.BottomBracket);

    /// <summary>The spindle that turns in the bottom bracket.</summary>
    public static PartField Spindle { get; } =
        Tag("spindle", PartKind.BottomBracket, PartKind.Crank);

    /// <summary>How the rings are held on the crank: bolt circle and bolts, or spline.</summary>
    public static PartField RingMount { get; } = Tag("ringMount", PartKind.Crank, PartKind.Rings);

    /// <summary>Shape of the rings' teeth, such as even or wide-narrow.</summary>
    public static PartField ToothForm { get; } = Tag("toothForm", PartKind.Rings);

    /// <summary>Tooth forms that a chain runs on.</summary>
    public static PartField ToothForms { get; } =
        new("toothForms", PartShape.Tags, 0, 0, [PartKind.Chain]);

    /// <summary>How an exchangeable cage meets its derailleur.</summary>
    public static PartField CageFit { get; } =
        Tag("cageFit", PartKind.RearDerailleur, PartKind.Cage);

    /// <summary>Family of motor-driven parts that talk to one another; opaque. A cable-pulled part has none.</summary>
    public static PartField Protocol { get; } =
        Tag(
            "protocol",
            PartKind.RearDerailleur,
            PartKind.FrontDerailleur,
            PartKind.RearShifter,
            PartKind.FrontShifter
        );

    /// <summary>Generations of that family which a part understands; opaque.</summary>
    public static PartField Generations { get; } =
        new(
            "generations",
            PartShape.Tags,
            0,
            0,
            [
                PartKind.RearDerailleur,
                PartKind.FrontDerailleur,
                PartKind.RearShifter,
                PartKind.FrontShifter,
            ]
        );

    /// <summary>Front shifter and front derailleur that pull alike.</summary>
    public static PartField FrontPullFamily { get; } =
        Tag("frontPullFamily", PartKind.FrontDerailleur, PartKind.FrontShifter);

    /// <summary>The field whose interfaces an adapter lets meet.</summary>
    public static PartField Joins { get; } = Tag("joins", PartKind.Adapter);

    /// <summary>The interface of the part on the bike's side of an adapter: frame, wheel, hanger or crank.</summary>
    public static PartField From { get; } = Tag("from", PartKind.Adapter);

    /// <summary>The interface of the part that an adapter adapts to it.</summary>
    public static PartField To { get; } = Tag("to", PartKind.Adapter);

    // Figures.

    /// <summary>Hub spacing over the locknuts or end caps (mm).</summary>
    public static PartField HubSpacing { get; } =
        Length("hubSpacing", 80, 250, PartKind.Frame, PartKind.RearWheel);

    /// <summary>Teeth of the cogs, or of the rings; the smallest first.</summary>
    public static PartField Teeth { get; } =
        new("teeth", PartShape.Wholes, 6, 80, [PartKind.Cassette, PartKind.Rings]);

    /// <summary>From cog to cog, middle to middle (mm).</summary>
    public static PartField Spacing { get; } = Length("spacing", 2, 8, PartKind.Cassette);

    /// <summary>From the outer face of the smallest to the inner face of the largest cog (mm).</summary>
    public static PartField StackWidth { get; } = Length("stackWidth", 1, 80, PartKind.Cassette);

    /// <summary>Thickness of a cog (mm).</summary>
    public static PartField CogThickness { get; } =
        Length("cogThickness", 0.5, 4, PartKind.Cassette);

    /// <summary>From the locknut's face to the outer face of the smallest cog (mm).</summary>
    public static PartField LocknutGap { get; } = Length("locknutGap", 0, 30, PartKind.Cassette);

    /// <summary>Cogs that a chain, or a shifter with its clicks, is made for.</summary>
    public static PartField Speeds { get; } =
        Whole("speeds", 1, 16, PartKind.Chain, PartKind.RearShifter);

    /// <summary>Width over the outer plates or pins of a chain (mm).</summary>
    public static PartField Width { get; } = Length("width", 3, 14, PartKind.Chain);

    /// <summary>Width between the inner plates of a chain (mm).</summary>
    public static PartField InnerWidth { get; } = Length("innerWidth", 1, 8, PartKind.Chain);

    /// <summary>Length of a chain as sold (pitches).</summary>
    public static PartField BoxedPitches { get; } = Whole("boxedPitches", 40, 400, PartKind.Chain);

    /// <summary>Front chainline: the middle of the rings from the centre plane (mm); of a front derailleur, the one it is made for.</summary>
    public static PartField Chainline { get; } =
        Length("chainline", 20, 100, PartKind.Crank, PartKind.FrontDerailleur);

    /// <summary>From ring to ring, tooth middle to tooth middle (mm).</summary>
    public static PartField RingSpacing { get; } = Length("ringSpacing", 3, 15, PartKind.Crank);

    /// <summary>Thickness of a ring at its teeth (mm).</summary>
    public static PartField RingThickness { get; } =
        Length("ringThickness", 0.8, 6, PartKind.Rings);

    /// <summary>The largest ring that has room: beside the stay, or in a front cage.</summary>
    public static PartField LargestRing { get; } =
        Whole("largestRing", 16, 80, PartKind.Frame, PartKind.FrontDerailleur);

    /// <summary>The smallest ring that a crank's mount, or a frame's chain guide, allows.</summary>
    public static PartField SmallestRing { get; } = Whole("smallestRing", 16, 80, PartKind.Crank);

    /// <summary>Cable moved by each click (mm), from the cog at which the cable is slack.</summary>
    public static PartField Pull { get; } =
        new("pull", PartShape.Lengths, 0.5, 12, [PartKind.RearShifter]);

    /// <summary>Shift ratio: mm of guide pulley per mm of cable.</summary>
    public static PartField ShiftRatio { get; } =
        new("shiftRatio", PartShape.Number, 0.3, 5, [PartKind.RearDerailleur]);

    /// <summary>The largest cog that a rear derailleur is made for.</summary>
    public static PartField LargestCog { get; } =
        Whole("largestCog", 11, 80, PartKind.RearDerailleur);

    /// <summary>The smallest that the largest cog may be.</summary>
    public static PartField SmallestLargestCog { get; } =
        Whole("smallestLargestCog", 11, 80, PartKind.RearDerailleur);

    /// <summary>The smallest cog that a rear derailleur is made for.</summary>
    public static PartField SmallestCog { get; } =
        Whole("smallestCog", 6, 30, PartKind.RearDerailleur);

    /// <summary>Teeth that cage or front derailleur take up: ring difference, and of a rear cage cog difference with it.</summary>
    public static PartField Capacity { get; } =
        Whole("capacity", 1, 80, PartKind.RearDerailleur, PartKind.Cage, PartKind.FrontDerailleur);

    /// <summary>Between the axes of the two pulleys (mm).</summary>
    public static PartField CageLength { get; } =
        Length("cageLength", 30, 150, PartKind.RearDerailleur, PartKind.Cage);

    /// <summary>Rings that a front derailleur, or positions that a front shifter, is made for.</summary>
    public static PartField RingCount { get; } =
        Whole("ringCount", 1, 4, PartKind.FrontDerailleur, PartKind.FrontShifter);

    /// <summary>Least difference between neighbouring rings (teeth).</summary>
    public static PartField LeastRingDifference { get; } =
        Whole("leastRingDifference", 1, 40, PartKind.FrontDerailleur);

    /// <summary>Lateral position of the middle of the drive-side flange (mm).</summary>
    public static PartField FlangeLateral { get; } =
        Length("flangeLateral", 5, 60, PartKind.RearWheel);

    /// <summary>Radius of the drive-side flange's spoke circle (mm).</summary>
    public static PartField FlangeRadius { get; } =
        Length("flangeRadius", 10, 80, PartKind.RearWheel);

    /// <summary>Radius at which the spokes end in the rim (mm).</summary>
    public static PartField RimRadius { get; } = Length("rimRadius", 100, 400, PartKind.RearWheel);

    /// <summary>Lateral position of the drive-side spoke holes in the rim (mm; outboard positive, 0 for a centred rim).</summary>
    public static PartField RimLateral { get; } = Length("rimLateral", -20, 20, PartKind.RearWheel);

    /// <summary>All fields, in the order in which people ask for them.</summary>
    public static ImmutableArray<PartField> All { get; } =
    [
        HubDriver,
        RearAxle,
        HubSpacing,
        Teeth,
        Spacing,
        StackWidth,
        CogThickness,
        LocknutGap,
        Speeds,
        Width,
        InnerWidth,
        BoxedPitches,
        ToothForm,
        ToothForms,
        RingThickness,
        HangerFit,
        DerailleurMount,
        FrontMount,
        FrontPull,
        Shell,
        Spindle,
        RingMount,
        Chainline,
        RingSpacing,
        LargestRing,
        SmallestRing,
        Pull,
        ShiftRatio,
        LargestCog,
        SmallestLargestCog,
        SmallestCog,
        Capacity,
        CageLength,
        CageFit,
        RingCount,
        LeastRingDifference,
        FrontPullFamily,
        Protocol,
        Generations,
        FlangeLateral,
        FlangeRadius,
        RimRadius,
        RimLateral,
        Joins,
        From,
        To,
    ];

    private static readonly FrozenDictionary<string, PartField> ByName = All.ToFrozenDictionary(
        field => field.Name,
        StringComparer.Ordinal
    );

    /// <summary>The field of that name, or null when there is none.</summary>
    public static PartField? Find(string name) => ByName.GetValueOrDefault(name);

    /// <summary>The fields of a kind of part, in the order of <see cref="All"/>.</summary>
    public static ImmutableArray<PartField> Of(PartKind kind) =>
        [.. All.Where(field => field.Kinds.Contains(kind))];

    private static PartField Tag(string name, params PartKind[] kinds) =>
        new(name, PartShape.Tag, 0, 0, kinds);

    private static PartField Length(
        string name,
        double least,
        double most,
        params PartKind[] kinds
    ) => new(name, PartShape.Length, least, most, kinds);

    private static PartField Whole(string name, int least, int most, params PartKind[] kinds) =>
        new(name, PartShape.Whole, least, most, kinds);
}
