using System.Collections.Immutable;
using Cogwright.Fastening;
using Cogwright.Files.Classes;
using Cogwright.Setup;

namespace Cogwright.Files.Fields;

/// <summary>
/// The table of all fields of a spec file. The reader, the writer, the JSON schema and the check of the guide work
/// from it and from nothing else; the sentence about each field is <c>field.PATH</c> in the texts.
/// </summary>
internal static class SpecFields
{
    /// <summary>The version of the format that this program writes, and the newest that it reads.</summary>
    internal const int Format = 1;

    /// <summary>Most entries of a list; more is a slip or an attack.</summary>
    private const int MostListed = 20;

    private static readonly CountShape Count = new();
    private static readonly TextShape Text = new();
    private static readonly FlagShape Flag = new();
    private static readonly OffsetShape Offset = new();
    private static readonly QuantityShape Length = new(Dimension.Length);
    private static readonly QuantityShape Angle = new(Dimension.Angle);
    private static readonly QuantityShape Torque = new(Dimension.Torque);
    private static readonly QuantityShape Turns = new(Dimension.Turns);

    internal static GroupShape Frame { get; } =
        new([
            Class(ClassKind.Frame),
            OrClass("chainstay", Length),
            OrClass("bbDrop", Length),
            Optional("axleTravel", Length),
            LateralFields.DropoutFace,
            RearEndFields.Suspension,
        ]);

    internal static GroupShape Hanger { get; } =
        new([Class(ClassKind.Hanger), OrClass("offset", Offset), .. ShiftingFields.Hanger]);

    private static GroupShape Pulley { get; } =
        new([OrClass("offset", Offset), OrClass("teeth", Count), Optional("tipDiameter", Length)]);

    internal static GroupShape Cage { get; } =
        new([
            Class(ClassKind.Cage),
            OrClass("guide", new GroupShape([.. Pulley.Fields, .. ShiftingFields.Guide])),
            OrClass("tension", Pulley),
            OrClass("rearStop", Angle),
            OrClass("frontStop", Angle),
            .. LateralFields.CageFace,
            Optional(
                "spring",
                new GroupShape([
                    OrClass("torqueAtRearStop", Torque),
                    OrClass("rate", new QuantityShape(Dimension.TorqueRate)),
                    Optional("damperTorque", Torque),
                ])
            ),
            SprungFields.Damper,
        ]);

    private static GroupShape Screw { get; } =
        new([
            Required("name", Text),
            Optional("tool", Text),
            Optional("threadPitch", Length),
            Optional("leverRadius", Length),
            Optional("turnsLeftIn", Turns),
            Optional("turnsLeftOut", Turns),
            Optional("clockwise", new ChoiceShape(() => [WidensGap, NarrowsGap])),
            Optional("leastTurn", Turns),
        ]);

    private static GroupShape Gap { get; } =
        new([
            Required("ring", Count),
            Required("cog", Count),
            Required("value", Length),
            Required("tolerance", Length),
        ]);

    internal static GroupShape RearDerailleur { get; } =
        new([
            Class(ClassKind.RearDerailleur),
            OrClass("bodyAngle", Angle),
            OrClass("upperPivot", Offset),
            OrClass("linkLength", Length),
            OrClass("linkAngle", Angle),
            OrClass("slant", Angle),
            Optional("guideLateralAtZero", Length),
            Optional("indexOffset", Length),
            Optional("outboardStop", Angle),
            Optional("inboardStop", Angle),
            .. LateralFields.Stops,
            Optional("leastGap", Length),
            Optional("leastMargin", Length),
            Optional("gap", Gap),
            OrClass("cage", Cage),
            Optional("bodyAngleScrew", Screw),
            .. MountFields.OfDerailleur,
            SprungFields.Sprung,
        ]);

    private static GroupShape Ring { get; } =
        new(
            [
                Required("teeth", Count),
                Optional("lateral", Length),
                Optional("tipDiameter", Length),
                Optional("oval", new RefusedShape("refused.oval")),
            ],
            Short: "teeth"
        );

    private static GroupShape Cogs { get; } =
        new([
            OrPart("teeth", new TeethShape()),
            Optional("hubSpacing", new NumberChoiceShape(CommonPractice.HubSpacings)),
            .. LateralFields.Cassette,
            Optional("smallestLateral", Length),
            Optional("spacing", Length),
            Optional("tipDiameters", new LengthsShape()),
        ]);

    private static GroupShape Chain { get; } =
        new([
            Optional("pitches", Count),
            Optional("elongation", new QuantityShape(Dimension.Fraction)),
            Optional("halfLink", Flag),
            LateralFields.ChainWidth,
        ]);

    private static GroupShape TorqueOfFastener { get; } =
        new([
            Optional("value", Torque),
            Optional("lower", Torque),
            Optional("upper", Torque),
            Optional("tool", Text),
        ]);

    private static GroupShape Work { get; } =
        new([
            Optional("actuation", new ChoiceShape(() => ActuationNames)),
            Optional("frontDerailleur", Flag),
            Optional("assisted", Flag),
            Optional(
                "torques",
                new GroupShape([.. Fasteners.All.Select(f => Optional(f, TorqueOfFastener))])
            ),
        ]);

    /// <summary>The whole file.</summary>
    internal static GroupShape Spec { get; } =
        new([
            Optional("format", new NumberChoiceShape([Format])),
            Required("name", Text),
            PartsFields.Parts,
            OrPart("frame", Frame),
            Optional("hanger", Hanger),
            OrPart("rings", new ListShape(Ring, MostListed)),
            OrPart("cogs", Cogs),
            Optional("chain", Chain),
            Optional("rearDerailleur", RearDerailleur),
            .. LateralFields.Groups,
            Optional("frontDerailleur", FrontFields.FrontDerailleur),
            Optional("shifting", ShiftingFields.Shifting),
            Optional("adjusters", new ListShape(ShiftingFields.Adjuster, MostListed)),
            RearEndFields.Idler,
            Optional("gearsNotUsed", new ListShape(new GearShape(), 400)),
            Optional("work", Work),
            Optional(MeasuredFields.Group, MeasuredFields.Measured),
            DeviationFields.Deviations,
        ]);

    internal const string WidensGap = "widens-gap";
    internal const string NarrowsGap = "narrows-gap";

    internal const string MotorWireless = "motor-wireless";

    /// <summary>The names of the ways to shift, in the order of <see cref="Actuation"/>.</summary>
    internal static ImmutableArray<string> ActuationNames { get; } =
    ["cable", "motor-wired", MotorWireless, "none"];

    private static Field Class(ClassKind kind) =>
        Optional("class", new ChoiceShape(() => ClassLibrary.Names(kind)));

    private static Field Required(string name, Shape shape) => new(name, shape, Need.Required);

    private static Field Optional(string name, Shape shape) => new(name, shape, Need.Optional);

    private static Field OrPart(string name, Shape shape) => new(name, shape, Need.OrPart);

    private static Field OrClass(string name, Shape shape) => new(name, shape, Need.OrClass);
}
