using System.Collections.Immutable;
using Cogwright.Setup;

namespace Cogwright.Paper.Tests;

/// <summary>Worksheets made by hand, modelled on the worked example of the model (50-34 rings, 11-34 cogs).</summary>
internal static class WorksheetFixtures
{
    internal const string LongName =
        "Wielobiegowy rower szosowy Zażółć Gęślą Jaźń, Δοκιμαστικό ποδήλατο δρόμου, Длинноимённый велосипед № 12 "
        + "с очень длинным названием, которое не помещается ни в одну строку и ещё продолжается дальше";

    private const string Turning =
        "WARNING: A turning chain pulls in fingers, rags and gloves. It can cut off fingers. Keep all of them away while it turns; stop it before you touch or measure.";

    // What a program says in short at the stand: by the full caution's first words, and by the name of a target.
    private static readonly (string Starts, string InShort)[] CautionsInShort =
    [
        ("Follow", "Maker's instructions and local law first."),
        (
            "WARNING: Faults",
            "Faults can kill: a qualified mechanic checks the work before the ride."
        ),
        ("WARNING: A turning", "A turning chain takes fingers: hands, rags, gloves away."),
        ("WARNING: A cracked", "Cracks can kill: stop."),
        ("WARNING: A hanger", "Bent often, it breaks: replace it."),
        ("WARNING: A chain pin", "Pins fly: eye protection."),
        ("WARNING: If the inboard", "Spokes can lock the wheel: prove it first."),
        ("CAUTION: A chain that falls", "A dropped chain jams: stop screw first."),
        ("WARNING: A loose axle", "A loose axle can kill: torque it."),
    ];

    private static readonly Dictionary<string, string> TitlesInShort = new()
    {
        ["rough-stops"] = "By eye: pulley under the smallest, then largest cog",
        ["chain-routed"] = "Over guide pulley, past the tab, under tension pulley",
        ["outboard-stop"] = "Pulley straight under the smallest cog",
        ["index-cogs"] = "Each click one cog, quiet; not yet the largest cog",
        ["inboard-stop-proven"] = "Prove it by hand before the first shift",
        ["gap"] = "Gap",
        ["hanger-straight"] = "Difference at the rim",
        ["cable-adjuster"] = "Barrel adjuster",
        ["front-height"] = "Cage height",
        ["front-inner-gap"] = "Inboard stop",
        ["front-outer-gap"] = "Outboard stop",
        ["tighten-lockring"] = "Lockring",
        ["torque-lockring"] = "Lockring",
        ["tighten-rearMount"] = "Mounting bolt",
        ["torque-rearMount"] = "Mounting bolt",
        ["tighten-rearCable"] = "Rear cable",
        ["torque-rearCable"] = "Rear cable",
        ["torque-frontMount"] = "Front clamp",
    };

    private static readonly Dictionary<string, string> ConventionsInShort = new()
    {
        ["hanger-straight"] = "opposite clock positions, same spot of the rim; derailleur off",
        ["gap"] = "tooth tip to tooth tip, rigid rear end",
        ["front-height"] = "plate to tallest teeth",
    };

    private static readonly (string Path, string Value, string From)[] Guesses =
    [
        ("rearDerailleur.slant", "52°", "class of the derailleur"),
        ("rearDerailleur.linkAngle", "−47°", "class of the derailleur"),
        ("rearDerailleur.upperPivot", "(−24.5, −24.7) mm", "class of the derailleur"),
        ("frame.hanger", "(−8, −28) mm", "usual for a replaceable hanger"),
        ("cogs[11].tipDiameterMm", "142.9 mm", "mean of ISO 606's limits"),
        ("rearDerailleur.guideLateralAtZero", "44.5 mm", "middle of the cassette"),
        ("frame.bbDrop", "70 mm", "usual for the class"),
        ("rearDerailleur.rearStop", "−100°", "class of the derailleur"),
        ("rearDerailleur.frontStop", "62°", "class of the derailleur"),
        ("rearDerailleur.springPreloadNm", "1.6 N·m", "class of the derailleur"),
        ("rearDerailleur.springRate", "0.7 N·m/rad", "class of the derailleur"),
        ("wheel.spokeAngle", "6°", "usual for the class"),
    ];

    /// <summary>Two rings, cable, some values assumed: what most days bring.</summary>
    internal static WorksheetContent TwoRings() =>
        Content(
            "Sand Dune 54 of the demo shop",
            "50-34 × 11-12-13-14-15-17-19-21-24-27-30-34",
            front: 1,
            assumed: 5,
            notToUse: [(50, 34), (34, 11), (34, 12)]
        );

    /// <summary>One ring and a wide cassette.</summary>
    internal static WorksheetContent OneRing() =>
        Content(
            "Brook 29, bike of Łucja Żółć",
            "32 × 10-12-14-16-18-21-24-28-33-39-45-51",
            front: 0,
            assumed: 2,
            notToUse: []
        );

    /// <summary>Three rings, everything assumed, many gears not to use.</summary>
    internal static WorksheetContent ThreeRings() =>
        Content(
            "Πέτρα 26, Αθήνα",
            "44-32-22 × 11-13-15-17-20-23-26-30-34",
            front: 2,
            assumed: 12,
            notToUse:
            [
                (44, 34),
                (44, 30),
                (22, 11),
                (22, 13),
                (22, 15),
                (22, 17),
                (32, 11),
                (44, 26),
                (22, 20),
                (32, 34),
                (44, 23),
                (22, 23),
                (32, 30),
                (32, 13),
            ]
        );

    /// <summary>Two rings under a name that no line holds.</summary>
    internal static WorksheetContent LongNames() =>
        TwoRings() with
        {
            BikeName = LongName,
            Gearing = string.Join('-', Enumerable.Range(11, 60)),
        };

    /// <summary>No derailleur at all.</summary>
    internal static WorksheetContent SingleSpeed() =>
        new()
        {
            BikeName = "Шайба 48×17",
            Gearing = "48 × 17",
            Cautions = TopCautions,
            CautionsInShort = [.. TopCautions.Select(InShort)],
            Stages =
            [
                Inspection,
                Stage(
                    WorkStage.WheelSeated,
                    "Wheel seated",
                    [],
                    Look(
                        "wheel-straight",
                        "Set the wheel straight in its slots, nuts tight by hand"
                    )
                ),
                Stage(
                    WorkStage.Mounting,
                    "Mount and tighten",
                    [],
                    Measure(
                        "chainline-offset",
                        "Ring and cog in one line",
                        "Middle of the ring's teeth to middle of the cog's teeth, sideways",
                        null,
                        null,
                        2,
                        "mm",
                        "Straight edge, caliper"
                    )
                ),
                Stage(
                    WorkStage.Chain,
                    "Chain",
                    [Turning],
                    Measure(
                        "chain-play",
                        "Chain tension: play up and down",
                        "Middle of the lower run, light push up and down, crank turned to the tightest place",
                        null,
                        5,
                        15,
                        "mm",
                        "Ruler"
                    )
                ),
                Stage(
                    WorkStage.Torque,
                    "Torque walk-round",
                    [],
                    Torque("torque-rearAxle", "Rear axle", 29, 40),
                    Torque("torque-pedals", "Pedals", 35, 40)
                ),
                Tests,
            ],
            Chain = Chain(96, 93.42),
            GearsNotToUse = [],
            Assumed = [],
        };

    private static ImmutableArray<string> TopCautions { get; } =
    [
        "Follow the component maker's instructions and local law first. Where this sheet says something else, they win.",
        "WARNING: Faults in drivetrain, axle or brakes can make a rider fall. A fall can kill. Have safety-critical work checked by a qualified mechanic before the bike is ridden.",
    ];

    private static WorksheetStage Inspection { get; } =
        Stage(
            WorkStage.Inspection,
            "Stop box: look before you start",
            [
                "WARNING: A cracked frame can break while riding. A fall can kill. Do not repair on suspicion: stop, and have it examined.",
            ],
            Look("frame-cracks", "No crack at the dropouts and behind the bottom bracket"),
            Look("hanger-thread", "Hanger not cracked, its thread clean and whole"),
            Look("wheel-spokes", "Rear wheel true, no spoke cut or loose"),
            Look("chain-cog-wear", "Chain, cogs and rings not worn out"),
            Look("bearing-play", "No play in freehub, hub and bottom bracket")
        );

    private static WorksheetStage Tests { get; } =
        Stage(
            WorkStage.LoadedTest,
            "Test under load",
            [Turning],
            Look(
                "stand-test",
                "All gears that may be used, up and down, crank turned by hand",
                "Then shift several cogs at once, then with the brake dragging."
            ),
            Look("bar-lock", "Turn the bar fully both ways: no shift, no pull on the housing"),
            Look("brakes-first", "Brakes first, at walking speed"),
            Look("loaded-test", "Ride: every gear under load, standing start, rough ground"),
            Look("second-look", "Second look by another qualified mechanic"),
            Look("first-check", "Give the rider a date for the first check")
        );

    private static WorksheetContent Content(
        string name,
        string gearing,
        int front,
        int assumed,
        (int Ring, int Cog)[] notToUse
    ) =>
        new()
        {
            BikeName = name,
            Gearing = gearing,
            Cautions = TopCautions,
            CautionsInShort = [.. TopCautions.Select(InShort)],
            Stages = [Inspection, .. Rear, .. Front(front), Torques(front > 0), Tests],
            Chain = Chain(110, 106.768),
            Turns = Turns,
            GearsNotToUse =
            [
                .. notToUse.Select(gear => new GearNotToUse(
                    gear.Ring,
                    gear.Cog,
                    "Only 2.1 mm of chain are left before it is too short; 3.0 mm are wanted."
                )),
            ],
            Assumed =
            [
                .. Guesses
                    .Take(assumed)
                    .Select(guess => new AssumedValue(guess.Path, guess.Value, guess.From)),
            ],
        };

    private static IEnumerable<WorksheetStage> Rear =>
        [
            Stage(
                WorkStage.WheelSeated,
                "Wheel seated",
                [],
                Look(
                    "wheel-seated",
                    "Seat the wheel fully in both dropouts",
                    "If the wheel was not seated, everything measured before counts for nothing."
                )
            ),
            Stage(
                WorkStage.Hanger,
                "Hanger straight",
                [
                    "WARNING: A hanger that was bent often or is cracked can break while riding. The rider can fall. Count the bends, replace it when in doubt.",
                ],
                Measure(
                    "hanger-straight",
                    "Difference at the rim between opposite clock positions",
                    "Gauge tip to rim, same spot of the rim turned along, 12 against 6 o'clock and 3 against 9 o'clock; derailleur off, wheel tight",
                    null,
                    null,
                    4,
                    "mm",
                    "Hanger alignment gauge, ruler"
                )
            ),
            Stage(
                WorkStage.Mounting,
                "Mount and tighten",
                [],
                Torque("tighten-lockring", "Tighten: Cassette lockring", 29, 50),
                Look("body-tab", "Derailleur screwed in by hand, its tab free against the hanger"),
                Torque("tighten-rearMount", "Tighten: Rear derailleur mounting bolt", 8, 10)
            ),
            Stage(
                WorkStage.RoughStops,
                "Rough stops, no chain",
                [],
                Look(
                    "rough-stops",
                    "Set both stops by eye: pulley under the smallest, then under the largest cog",
                    "No chain, no cable. The stops stay rough until they are set with the chain on."
                )
            ),
            Stage(
                WorkStage.Chain,
                "Chain",
                [
                    "WARNING: A chain pin or a splinter can fly out. It can blind an eye. Wear eye protection.",
                ],
                Measure("chain-pitches", "Chain length", "Count", 110, null, null, "pitches", null),
                Look(
                    "chain-routed",
                    "Route the chain: over the guide pulley, past the tab, under the tension pulley"
                ),
                Look("chain-joined", "Join the chain and load the joint"),
                Look("tight-end", "Tight end: shift by hand, chain still bends at both pulleys"),
                Look("loose-end", "Loose end: the chain does not hang")
            ),
            Stage(
                WorkStage.CableOrPairing,
                "Anchor the cable",
                [],
                Look("cable-friction", "Cable slides freely in its housing"),
                Look("shifter-released", "Shifter fully released"),
                Measure(
                    "cable-adjuster",
                    "Turn the barrel adjuster fully in, then out",
                    "Counted before the cable is anchored",
                    null,
                    1,
                    2,
                    "turns",
                    null
                ),
                Torque("tighten-rearCable", "Tighten: Rear cable anchor", 5, 7)
            ),
            Stage(
                WorkStage.OutboardStop,
                "Outboard stop",
                [Turning],
                Look("outboard-stop", "Outboard stop: pulley straight under the smallest cog")
            ),
            Stage(
                WorkStage.Index,
                "Index",
                [],
                Look("index-first", "One click brings the chain from the smallest to the next cog"),
                Look(
                    "index-cogs",
                    "Each click is one cog, up and down, quiet; leave out the largest cog"
                )
            ),
            Stage(
                WorkStage.InboardStop,
                "Inboard stop",
                [
                    "WARNING: If the inboard stop lets the derailleur past the largest cog, it goes into the spokes and locks the wheel. The rider can fall. Do not shift under power to the largest cog before the stop is proven.",
                ],
                Look(
                    "inboard-stop-proven",
                    "Prove the inboard stop by hand before you shift to the largest cog"
                ),
                Look("spoke-clearance", "Cage and chain clear of the spokes all round"),
                Look("first-shift-largest", "First shift to the largest cog, crank turned by hand")
            ),
            Stage(
                WorkStage.Gap,
                "Pulley-to-cog gap",
                [],
                Measure(
                    "gap",
                    "Pulley-to-cog gap",
                    "Tooth tip to tooth tip, guide pulley to the cog in use; chain on ring 34 and cog 34; rigid rear end.",
                    7,
                    6,
                    8,
                    "mm",
                    "Caliper or gap gauge; 3 mm hex key",
                    (34, 34)
                )
            ),
            Stage(
                WorkStage.IndexAgain,
                "Index and inboard stop again",
                [],
                Look("index-again", "Index again, all cogs up and down"),
                Look("inboard-stop-again", "Prove the inboard stop by hand again"),
                Look("cable-trimmed", "Trim the cable and cap its end")
            ),
        ];

    private static IEnumerable<WorksheetStage> Front(int shifts) =>
        shifts == 0
            ? []
            :
            [
                Stage(
                    WorkStage.Front,
                    "Front derailleur",
                    [
                        "CAUTION: A chain that falls inboard of the smallest ring can jam, cut the frame and hurt a hand that frees it. Set the stop before you shift to the smallest ring under power.",
                    ],
                    Measure(
                        "front-height",
                        "Front cage height",
                        "Lower edge of the outer plate to the tallest teeth of the largest ring, cage over that ring",
                        null,
                        1,
                        2,
                        "mm",
                        "1 mm and 2 mm shims"
                    ),
                    Look("front-parallel", "Outer plate parallel to the largest ring"),
                    Measure(
                        "front-inner-gap",
                        "Front inboard stop: chain to inner plate",
                        "Cage fully inboard, the least gap along the plate",
                        null,
                        0.5,
                        1,
                        "mm",
                        "Feeler gauge",
                        (34, 34)
                    ),
                    Look("front-cable", "Anchor the front cable with the shifter fully released"),
                    Measure(
                        "front-outer-gap",
                        "Front outboard stop: chain to outer plate",
                        "Cage fully outboard, the least gap along the plate",
                        0.5,
                        0.3,
                        0.7,
                        "mm",
                        "Feeler gauge",
                        (50, 11)
                    ),
                    Look("front-trim", "Shift over all rings, hard and soft: no throw, no rub")
                ),
            ];

    private static WorksheetStage Torques(bool front) =>
        Stage(
            WorkStage.Torque,
            "Torque walk-round",
            [
                "WARNING: A loose axle can let the wheel come out. A fall can kill. Tighten to the printed figure.",
            ],
            [
                Torque("torque-rearAxle", "Rear axle", 9, 15),
                Torque("torque-hangerScrews", "Hanger screws", 1, 2),
                Torque("torque-lockring", "Cassette lockring", 29, 50),
                Torque("torque-rearMount", "Rear derailleur mounting bolt", 8, 10),
                Torque("torque-pulleys", "Pulley bolts", 3, 4),
                Torque("torque-rearCable", "Rear cable anchor", 5, 7),
                Torque("torque-shifterClamp", "Shifter clamp", 2.5, 5),
                .. front
                    ?
                    [
                        Torque("torque-frontMount", "Front derailleur clamp or mount", 5, 7),
                        Torque("torque-frontCable", "Front cable anchor", 5, 7),
                    ]
                    : Array.Empty<Target>(),
                Torque("torque-ringBolts", "Chainring bolts", 8, 11),
                Torque("torque-crankPinch", "Crank pinch bolts", 12, 15),
                Torque("torque-pedals", "Pedals", 35, 40),
            ]
        );

    private static TurnTable Turns =>
        new()
        {
            Gear = (34, 34),
            WantedMm = 7,
            Screw = "body-angle screw",
            Tool = "3 mm hex key",
            Rows =
            [
                .. new[] { -3, -2, -1, 0, 1, 2, 3 }.Select(off => new TurnTableRow(
                    off,
                    7 + off,
                    off * -0.75,
                    $"{Math.Abs(off)} mm too {(off < 0 ? "small" : "large")}",
                    off == 0 ? "leave it" : $"turn {(off < 0 ? "clockwise" : "anticlockwise")}"
                )),
            ],
            Notes =
            [
                "Turn by quarters, turn the crank once, then measure again.",
                "If the screw does not touch its tab it has no effect: look first.",
            ],
        };

    private static ChainBox Chain(int pitches, double path) =>
        new()
        {
            Pitches = pitches,
            InnerLinks = pitches / 2,
            OuterLinks = pitches / 2,
            DirectPathPitches = path,
            Headline = $"{pitches} pitches ({pitches / 2} inner + {pitches / 2} outer)",
            Lines =
            [
                "Bench rule 110 pitches. It is 0.77 pitches above the edge below which 108 would do.",
                "Shortest safe: 110 pitches, set by gear 50/34.",
                "Longest safe: 112 pitches, set by gear 34/11.",
                "With another chainstay: −3 mm: 110 pitches; +3 mm: 110 pitches.",
                "The gears ask for 39 teeth of capacity; the cage takes 279 mm of chain between its stops.",
            ],
        };

    private static WorksheetStage Stage(
        WorkStage stage,
        string title,
        string[] cautions,
        params Target[] targets
    ) =>
        new(stage, title, [.. cautions], [.. targets])
        {
            CautionsInShort = [.. cautions.Select(InShort)],
        };

    private static string InShort(string caution) =>
        CautionsInShort
            .First(each => caution.StartsWith(each.Starts, StringComparison.Ordinal))
            .InShort;

    private static Target Look(string id, string title, string? note = null) =>
        new()
        {
            Id = id,
            Stage = WorkStage.Inspection,
            Title = title,
            TitleInShort = TitlesInShort.GetValueOrDefault(id),
            Source = TargetSource.CommonPractice,
            Note = note,
        };

    private static Target Torque(string id, string title, double lower, double upper) =>
        new()
        {
            Id = id,
            Stage = WorkStage.Torque,
            Title = title,
            TitleInShort = TitlesInShort.GetValueOrDefault(id),
            Lower = lower,
            Upper = upper,
            Unit = "N·m",
            Convention = "Clicked or measured, final turn in the tightening direction",
            Tool = "Torque wrench",
            IsTorque = true,
            Source = TargetSource.CommonPractice,
        };

    private static Target Measure(
        string id,
        string title,
        string convention,
        double? value,
        double? lower,
        double? upper,
        string unit,
        string? tool,
        (int, int)? gear = null
    ) =>
        new()
        {
            Id = id,
            Stage = WorkStage.Gap,
            Title = title,
            TitleInShort = TitlesInShort.GetValueOrDefault(id),
            Convention = convention,
            ConventionInShort = ConventionsInShort.GetValueOrDefault(id),
            Value = value,
            Lower = lower,
            Upper = upper,
            Unit = unit,
            Tool = tool,
            Gear = gear,
            Source = id == "gap" ? TargetSource.Assumed : TargetSource.Spec,
        };
}
