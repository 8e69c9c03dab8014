using System.Collections.Frozen;
using System.Collections.Immutable;
using Cogwright.Parts;
using Cogwright.Setup.Procedures;
using static Cogwright.Setup.Jobs.BikeChangeGroup;
using static Cogwright.Setup.Jobs.Subjects;

namespace Cogwright.Setup.Jobs;

/// <summary>
/// The closed list of what can happen to a bike, and what the trade says must then be done again or looked at again (common
/// practice). Names are stable: entries use them.
/// </summary>
public static class BikeChanges
{
    private static readonly ImmutableArray<string> Nothing = [];

    private static readonly ImmutableArray<string> InboardStop =
    [
        Adjuster("inboard-stop"),
        Condition(MechanismConditions.InboardStopProven),
        Quantity(TargetNames.InboardStopProven),
    ];

    private static readonly ImmutableArray<string> OutboardStop =
    [
        Adjuster("outboard-stop"),
        Condition("outboard-stop-set"),
        Quantity("outboard-stop"),
    ];

    private static readonly ImmutableArray<string> Stops = [.. InboardStop, .. OutboardStop];

    private static readonly ImmutableArray<string> Index =
    [
        Adjuster("barrel-adjuster"),
        Adjuster("offset-step"),
        Quantity("index-cogs"),
    ];

    private static readonly ImmutableArray<string> Gap =
    [
        Adjuster("body-angle"),
        Quantity(TargetNames.Gap),
    ];

    private static readonly ImmutableArray<string> Length =
    [
        Adjuster("chain-length"),
        Quantity(TargetNames.ChainPitches),
        Condition(MechanismConditions.CountedTwice),
    ];

    private static readonly ImmutableArray<string> Joint =
    [
        Quantity("joint"),
        Condition(MechanismConditions.JointLoaded),
    ];

    private static readonly ImmutableArray<string> HangerRead =
    [
        Adjuster("hanger"),
        Quantity(TargetNames.HangerStraight),
        Condition(MechanismConditions.HangerRead),
    ];

    private static readonly ImmutableArray<string> Seat =
    [
        Torque(Fasteners.RearAxle),
        Condition(MechanismConditions.WheelSeated),
    ];

    private static readonly ImmutableArray<string> RearCable =
    [
        Adjuster("rear-cable"),
        Torque(Fasteners.RearCable),
    ];

    private static readonly ImmutableArray<string> FrontCable =
    [
        Adjuster("front-cable"),
        Torque(Fasteners.FrontCable),
    ];

    private static readonly ImmutableArray<string> FrontCage =
    [
        Adjuster("front-height"),
        Adjuster("front-angle"),
        Torque(Fasteners.FrontMount),
    ];

    private static readonly ImmutableArray<string> FrontStops =
    [
        Adjuster("front-inboard-stop"),
        Adjuster("front-outboard-stop"),
        Quantity(TargetNames.FrontInnerGap),
        Quantity(TargetNames.FrontOuterGap),
    ];

    private static readonly ImmutableArray<string> Pairing =
    [
        Condition("units-paired"),
        Quantity("pairing"),
    ];

    private static readonly ImmutableArray<string> Tests =
    [
        .. TestPasses.Quantities.Select(Quantity),
        Condition(MechanismConditions.StandTested),
        Condition(MechanismConditions.LoadTested),
    ];

    private static readonly ImmutableArray<string> Tight =
    [
        Condition(MechanismConditions.TorquesDone),
        Quantity("strokes"),
    ];

    private static readonly ImmutableArray<string> Brakes =
    [
        Condition(MechanismConditions.BrakesChecked),
        Quantity("brakes"),
    ];

    private static readonly ImmutableArray<string> Mount = [Torque(Fasteners.RearMount)];

    private static readonly ImmutableArray<string> RearSettings = [.. Stops, .. Index, .. Gap];

    private static readonly ImmutableArray<string> WholeRear =
    [
        .. HangerRead,
        .. Mount,
        .. RearSettings,
        .. Length,
        .. RearCable,
    ];

    /// <summary>All of them, each group in the order in which a mechanic would look for it.</summary>
    public static ImmutableArray<BikeChange> All { get; } =
    [
        // A fall: what is written of hanger, derailleur and motors is void until it was looked at.
        Of(
            "knock",
            Frame,
            [PartKind.Hanger, PartKind.RearDerailleur],
            [.. HangerRead, .. RearSettings],
            [.. Mount, .. Pairing, .. Brakes]
        ),
        Of(
            "frame-repaired",
            Frame,
            [PartKind.Frame],
            [Torque(Fasteners.HangerScrews), .. WholeRear, .. Seat, .. FrontCage, .. FrontStops],
            Brakes
        ),
        Of(
            "frame-end-replaced",
            Frame,
            [PartKind.Frame, PartKind.RearWheel],
            [Torque(Fasteners.HangerScrews), .. HangerRead, .. Seat, .. RearSettings, .. Brakes],
            Length
        ),
        Of("shock-changed", Frame, [PartKind.Frame], [.. Length, .. Gap], RearCable),
        Turn("sag-changed", Frame, [], Nothing, Gap),
        Of("wheel-reseated", Wheel, [], Seat, [.. Index, .. InboardStop, .. Brakes]),
        Of(
            "wheel-found-loose",
            Wheel,
            [PartKind.RearWheel],
            [.. Seat, .. HangerRead, .. RearSettings],
            Brakes
        ),
        Of(
            "rear-wheel-replaced",
            Wheel,
            [PartKind.RearWheel],
            [.. Seat, .. Stops, .. Index],
            [.. Gap, .. HangerRead, .. Brakes]
        ),
        Of("axle-part-fitted", Wheel, [], Seat, [.. Index, .. InboardStop]),
        Apart("wheel-trued", Wheel, [], Nothing, Brakes),
        Apart("tyre-changed", Wheel, [], Nothing, Nothing),
        Of("hub-overhauled", Wheel, [PartKind.RearWheel], [Torque(Fasteners.Lockring)], Stops),
        Of(
            "cassette-spacer-changed",
            Wheel,
            [PartKind.Cassette],
            [Torque(Fasteners.Lockring), .. Stops, .. Index],
            Gap
        ),
        Of(
            "cassette-replaced-alike",
            Wheel,
            [PartKind.Cassette],
            [Torque(Fasteners.Lockring), .. Gap, .. Length, .. InboardStop],
            Index
        ),
        Of(
            "cassette-of-other-spacing",
            Wheel,
            [PartKind.Cassette, PartKind.RearShifter, PartKind.Chain],
            [Torque(Fasteners.Lockring), .. Mount, .. RearSettings, .. Length, .. RearCable],
            Joint
        ),
        Of("brake-touched", Wheel, [], Brakes, Nothing),
        Of("hanger-aligned", Rear, [PartKind.Hanger], [.. HangerRead, .. RearSettings], Length),
        Of(
            "hanger-replaced",
            Rear,
            [PartKind.Hanger],
            [.. HangerRead, Torque(Fasteners.HangerScrews), .. Mount, .. RearSettings],
            Length
        ),
        Of(
            "hanger-of-other-kind",
            Rear,
            [PartKind.Hanger],
            [.. HangerRead, Torque(Fasteners.HangerScrews), .. Mount, .. RearSettings, .. Length],
            Nothing
        ),
        Of(
            "rear-derailleur-replaced",
            Rear,
            [PartKind.RearDerailleur],
            [.. Mount, .. RearSettings, .. RearCable, .. Pairing],
            [.. Length, Condition("damper-on")]
        ),
        Of(
            "on-axle-derailleur-fitted",
            Rear,
            [PartKind.RearDerailleur, PartKind.Hanger],
            [.. Seat, .. Mount, .. RearSettings, .. Length, .. Pairing],
            Nothing
        ),
        Of("cage-replaced", Rear, [PartKind.Cage], [.. Length, .. Gap], Index),
        Of("pulleys-of-other-size", Rear, [PartKind.RearDerailleur], [.. Length, .. Gap], Index),
        Of("pulleys-renewed", Rear, [], [Torque(Fasteners.Pulleys)], [.. Gap, .. Index]),
        Turn("damper-changed", Rear, [], Nothing, [.. Index, Condition("damper-on")]),
        Turn("body-angle-turned", Rear, [], [.. Gap, .. Index, .. InboardStop], Nothing),
        Turn("inboard-stop-turned", Rear, [], InboardStop, Index),
        Turn(
            "outboard-stop-turned",
            Rear,
            [],
            [.. OutboardStop, .. RearCable, Adjuster("barrel-adjuster")],
            Index
        ),
        Of(
            "chain-replaced",
            Rear,
            [PartKind.Chain],
            [.. Length, .. Joint],
            [.. FrontStops, .. Index]
        ),
        Of(
            "chain-of-other-width",
            Rear,
            [PartKind.Chain],
            [.. Joint, .. FrontStops, .. Length],
            Index
        ),
        Of("chain-length-changed", Rear, [], [.. Length, .. Gap, .. Joint], Nothing),
        Turn("chain-taken-off", Rear, [], Joint, Nothing),
        Of(
            "large-ring-replaced",
            Front,
            [PartKind.Rings],
            [
                .. FrontCage,
                Adjuster("front-outboard-stop"),
                Quantity(TargetNames.FrontOuterGap),
                .. FrontCable,
                .. Length,
            ],
            Nothing
        ),
        Of("single-ring-replaced", Front, [PartKind.Rings], Length, Gap),
        Of(
            "small-ring-replaced",
            Front,
            [PartKind.Rings],
            [Adjuster("front-inboard-stop"), Quantity(TargetNames.FrontInnerGap)],
            Length
        ),
        Of(
            "crank-replaced",
            Front,
            [PartKind.Crank, PartKind.BottomBracket],
            [.. FrontCage, .. FrontStops],
            Nothing
        ),
        Of(
            "motor-replaced",
            Front,
            [PartKind.Crank, PartKind.Rings],
            [
                .. FrontCage,
                .. FrontStops,
                .. Length,
                Condition(MechanismConditions.DriveBatteryOut),
            ],
            Nothing
        ),
        Of(
            "front-derailleur-moved",
            Front,
            [],
            [.. FrontCage, .. FrontStops, .. FrontCable],
            Nothing
        ),
        Of(
            "front-derailleur-replaced",
            Front,
            [PartKind.FrontDerailleur],
            [.. FrontCage, .. FrontStops, .. FrontCable, .. Pairing],
            Nothing
        ),
        Turn(
            "front-inboard-stop-turned",
            Front,
            [],
            [Adjuster("front-inboard-stop"), Quantity(TargetNames.FrontInnerGap)],
            Nothing
        ),
        Of("front-cable-renewed", Front, [], FrontCable, FrontStops),
        Of("rear-cable-renewed", Controls, [], [.. RearCable, .. Index], Nothing),
        Of("controls-moved", Controls, [], [.. RearCable, .. FrontCable, .. Index], Brakes),
        Of(
            "rear-shifter-replaced",
            Controls,
            [PartKind.RearShifter],
            [.. RearCable, .. Index, .. Pairing, Torque(Fasteners.ShifterClamp)],
            Stops
        ),
        Of(
            "front-shifter-replaced",
            Controls,
            [PartKind.FrontShifter],
            [.. FrontCable, .. FrontStops, .. Pairing, Torque(Fasteners.ShifterClamp)],
            Nothing
        ),
        Of(
            "unit-replaced-or-paired-again",
            Controls,
            [PartKind.RearDerailleur, PartKind.RearShifter],
            [.. Pairing, .. Index, .. Stops],
            Nothing
        ),
        Apart("battery-exchanged", Controls, [], [Quantity("charge")], Nothing),
        Turn("firmware-changed", Controls, [], Nothing, [.. Index, Quantity("charge")]),
    ];

    private static readonly FrozenDictionary<string, BikeChange> ByName = All.ToFrozenDictionary(
        change => change.Name,
        StringComparer.Ordinal
    );

    /// <summary>The change of that name, or null.</summary>
    public static BikeChange? Find(string name) => ByName.GetValueOrDefault(name);

    /// <summary>
    /// What no longer holds when an adjuster was set: the subjects of what must be set again after it, and the tests.
    /// </summary>
    /// <param name="adjuster">One of <see cref="ProcedureWords.Adjusters"/>.</param>
    public static BikeChange Turned(string adjuster) => OfAdjuster[adjuster];

    /// <summary>The adjusters that spoil a subject when they are turned.</summary>
    /// <param name="subject">What a result is about (<see cref="Subjects"/>).</param>
    internal static ImmutableArray<string> SpoilersOf(string subject) =>
        Spoilers.TryGetValue(subject, out var adjusters) ? adjusters : [];

    private static readonly FrozenDictionary<string, BikeChange> OfAdjuster =
        ProcedureWords.Adjusters.ToFrozenDictionary(
            adjuster => adjuster,
            adjuster => new BikeChange(
                adjuster,
                Rear,
                [],
                [
                    .. AdjusterEdges
                        .SetAgainAfter(adjuster)
                        .Append(adjuster is "inboard-stop" ? adjuster : "")
                        .Where(spoilt => spoilt.Length > 0)
                        .SelectMany(spoilt =>
                            spoilt switch
                            {
                                // The proof is of the screw where it stood.
                                "inboard-stop" when adjuster is "inboard-stop" => InboardStop[1..],
                                "inboard-stop" => InboardStop,
                                "outboard-stop" => OutboardStop,
                                "body-angle" => Gap,
                                _ => [Adjuster(spoilt)],
                            }
                        ),
                ],
                Tests
            ),
            StringComparer.Ordinal
        );

    private static readonly FrozenDictionary<string, ImmutableArray<string>> Spoilers = OfAdjuster
        .Values.SelectMany(turned =>
            turned.Redo.Concat(turned.Look).Select(subject => (subject, turned.Name))
        )
        .GroupBy(each => each.subject, each => each.Name)
        .ToFrozenDictionary(
            group => group.Key,
            group => group.Distinct().ToImmutableArray(),
            StringComparer.Ordinal
        );

    /// <summary>Bolts were touched: the tests and the torque walk-round are done again.</summary>
    private static BikeChange Of(
        string name,
        BikeChangeGroup group,
        ReadOnlySpan<PartKind> parts,
        ImmutableArray<string> redo,
        ImmutableArray<string> look
    ) => Apart(name, group, parts, redo, [.. look, .. Tests, .. Tight]);

    /// <summary>Only something adjustable was touched: the tests are done again.</summary>
    private static BikeChange Turn(
        string name,
        BikeChangeGroup group,
        ReadOnlySpan<PartKind> parts,
        ImmutableArray<string> redo,
        ImmutableArray<string> look
    ) => Apart(name, group, parts, redo, [.. look, .. Tests]);

    /// <summary>Nothing but what is said.</summary>
    private static BikeChange Apart(
        string name,
        BikeChangeGroup group,
        ReadOnlySpan<PartKind> parts,
        ImmutableArray<string> redo,
        ImmutableArray<string> look
    ) =>
        new(
            name,
            group,
            [.. parts.ToArray().Select(PartKinds.NameOf)],
            [.. redo.Distinct()],
            [.. look.Except(redo)]
        );
}
